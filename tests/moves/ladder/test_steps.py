"""Ladders climb for everyone of the panel, reasons declared are true, works and helps agree with the engine;
and a ladder that does not is told apart."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from msgspec.structs import replace as changed
from tests.moves.held_pose import held
from tests.moves.whole_library import MOVES, RIG, ladder_of, named

from leanmark.moves.ladder.declared import declared_reason_findings
from leanmark.moves.ladder.demand import Solved, demand_of, solved_together
from leanmark.moves.ladder.panel import crossed_people, typical_in
from leanmark.moves.ladder.steps import (
    ladder_findings,
    order_findings,
    steps_of,
    work_findings,
)
from leanmark.moves.schema import HarderBy, Move


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_every_ladder_of_the_library_holds(move: Move) -> None:
    """Order of demand for six people by both tables, reasons declared, works and helps against the engine."""
    assert [finding.words() for finding in ladder_findings(ladder_of(move))] == []


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_every_ladder_climbs_for_every_stature_with_every_mass(move: Move) -> None:
    rungs = solved_together([(move, rung) for rung in move.rungs], crossed_people(), RIG)
    assert [finding.words() for finding in order_findings(rungs)] == []


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_what_works_hardest_is_what_the_move_is_for(move: Move) -> None:
    """The hardest-worked action of every rung for the typical two is named, without the checks' own code."""
    for one in ladder_of(move):
        demand = demand_of(one)
        told = {*move.works, *move.helps}
        shares = [(demand.share[person], demand.action[person]) for person in typical_in(one.people)]
        assert max(shares)[1] in told


def declaring(one: Solved, **entries: object) -> Solved:
    """The same solved rung with other entries in its file."""
    return replace(one, rung=changed(one.rung, **entries))


def test_a_ladder_upside_down_is_found_rung_by_rung() -> None:
    rungs = [declaring(one, harder_by="load") for one in reversed(ladder_of("row"))]
    found = order_findings(rungs)
    assert [finding.rung for finding in found] == [one.rung.rung for one in rungs[1:]]
    assert "demand falls from" in found[0].wrong
    assert "for 6 of 6" in found[0].wrong
    assert found[0].words().startswith(f"row / {rungs[1].rung.rung}: demand falls")


def test_demand_that_falls_for_one_of_six_is_found() -> None:
    easier, harder = ladder_of("row")[:2]
    loads = easier.loads
    share = loads.strength_share.reshape(6, easier.steps, 18, 3).copy()
    share[3] *= 3.0
    heavier = replace(easier, loads=replace(loads, strength_share=share.reshape(loads.strength_share.shape)))
    (found,) = order_findings([heavier, declaring(harder, harder_by="load")])
    assert "for 1 of 6, most for the 5th-percentile man" in found.wrong


def test_a_rung_harder_for_another_reason_may_ask_less() -> None:
    rungs = [declaring(one, harder_by="lever") for one in reversed(ladder_of("row"))]
    assert order_findings(rungs) == []


@pytest.mark.parametrize("reason", ["base", "one limb", "speed", "lever", "range"])
def test_no_reason_is_true_of_a_rung_that_repeats_the_one_before(reason: HarderBy) -> None:
    easier = ladder_of("row")[1]
    (found,) = declared_reason_findings([easier, declaring(easier, harder_by=reason)])
    assert found.check == "harder-by"
    assert f"harder by {reason}, but" in found.wrong


def test_a_higher_mass_centre_on_the_same_base_is_less_steady() -> None:
    """Two arms of about 5 % of body weight each (de Leva 1996), raised overhead by nearly twice their mass
    centres' distance of 0.3 m, lift the whole by about 5 cm; swung by 20 degrees, by less than 1 cm."""
    hanging = held({"elbow": {"flexion": 0}})
    raised = held({"shoulder": {"plane": 90, "elevation": 170}})
    swayed = held({"shoulder": {"plane": 90, "elevation": 20}})
    assert declared_reason_findings([hanging, declaring(raised, harder_by="base")]) == []
    assert declared_reason_findings([hanging, declaring(raised, harder_by="lever")]) == []
    assert len(declared_reason_findings([hanging, declaring(raised, harder_by="one limb")])) == 1
    assert len(declared_reason_findings([raised, declaring(hanging, harder_by="base")])) == 1
    assert len(declared_reason_findings([hanging, declaring(swayed, harder_by="base")])) == 1


def test_load_is_not_judged_by_poses() -> None:
    easier = ladder_of("row")[1]
    assert declared_reason_findings([easier, declaring(easier, harder_by="load")]) == []


@pytest.mark.parametrize(
    ("before", "after", "true"),
    [
        (("controlled", "fast"), ("fast",), True),  # controlled is left out
        (("controlled",), ("controlled", "fast"), True),
        (("fast",), ("ballistic",), True),
        (("fast",), ("fast",), False),
        (("fast",), ("controlled", "fast"), False),
        (("controlled", "fast", "ballistic"), ("controlled", "fast"), False),
    ],
)
def test_speed_is_told_by_the_stages(before: tuple[str], after: tuple[str], true: bool) -> None:
    one = ladder_of("row")[1]
    rungs = [declaring(one, stages=before), declaring(one, stages=after, harder_by="speed")]
    assert (declared_reason_findings(rungs) == []) is true


def test_works_and_helps_are_held_against_the_moments() -> None:
    row = ladder_of("row")[1]
    named_too = changed(row.move, works=row.move.works | {"elbow flexion": ("brachialis",)})
    (found,) = work_findings([replace(row, move=named_too)])
    assert found.check == "works"
    assert "works names elbow flexion" in found.wrong  # the forearm lies along the strap
    helped = changed(row.move, helps=row.move.helps | {"neck extension": ("semispinalis capitis",)})
    (found,) = work_findings([replace(row, move=helped)])
    assert found.check == "helps"
    nothing = changed(row.move, works={"neck flexion": ("longus colli",)}, helps={})
    (found,) = work_findings([replace(row, move=nothing)])
    assert "shoulder extension, worked hardest" in found.wrong


def test_shoulder_blade_actions_may_be_named_unchecked() -> None:
    row = ladder_of("row")[1]
    helped = changed(row.move, helps={**row.move.helps, "shoulder blade elevation": ("upper trapezius",)})
    assert work_findings([replace(row, move=helped)]) == []


def test_steps_are_ratios_of_demand() -> None:
    rungs = ladder_of("row")
    demands = [demand_of(one) for one in rungs]
    for step, below, above in zip(steps_of(rungs, demands), demands, demands[1:], strict=False):
        np.testing.assert_allclose(1.0 + np.array(step.percent) / 100.0, above.share / below.share)
    first = steps_of(rungs, demands)[0]
    assert first.words([1]) == f"{first.percent[1]:+.0f} %"
    assert first.words([1, 4]) == f"{first.percent[4]:+.0f} to {first.percent[1]:+.0f} %"
    slower = replace(first, harder_by="base", percent=(-4.2, 3.0))
    assert slower.words([0, 1]) == "smaller base, −4 to +3 %"
