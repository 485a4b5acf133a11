"""Every rung of every move: readable, feasible for short and tall people, smooth; loads that can be had."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Final

import numpy as np
import pytest
from tests.moves.whole_library import MOVES, RUNGS, named

from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.position import Rep
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.rep import lobatto_nodes
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import marks, stand
from leanmark.moves.translate import mark_of, strap_setting
from leanmark.rig.rig import standard_rig

PANEL: Final = people_of(
    [
        Build(50.0, 1.55, "female"),
        Build(55.0, 1.55, "male"),
        Build(65.0, 1.70, "female"),
        Build(70.0, 1.70, "male"),
        Build(72.0, 1.78, "female"),
        Build(75.0, 1.78, "male"),
        Build(90.0, 1.95, "female"),
        Build(105.0, 1.95, "male"),
    ]
)
"""Invented: short to tall, light to heavy, by both segment tables."""
TYPICAL: Final = people_of([Build(65.0, 1.68, "female"), Build(76.0, 1.78, "male")])
"""Invented, near the middle of both sexes."""
ANCHORS_M: Final = (2.2, 2.4, 2.6)
NODES: Final = 5
FEWEST_RUNGS: Final = 3

MOVING: Final = [(move, rung) for move, rung in RUNGS if (rung.phases or move.phases).end is not None]
STRAP_MOVES: Final = [move for move in MOVES if move.kit != "none"]


@cache
def at_start_mark(move: str, rung: str, anchor_m: float, nodes: int = NODES) -> Rep:
    """The panel's reps at the rung's own mark."""
    whole = load_move(move)
    form = find_rung(whole, rung)
    count = len(PANEL)
    standing = stand(whole, form, standard_rig(anchor_m), PANEL)
    return standing.rep(np.full(count, mark_of(whole, form).start_m), np.arange(count), nodes)[0]


def test_a_file_is_named_after_its_move() -> None:
    stems = {path.name.removesuffix(".yaml") for path in (files("leanmark.moves") / "library").iterdir()}
    assert stems == {move.move.lower().replace(" ", "-") for move in MOVES}


@pytest.mark.parametrize("spelling", ["Row", " row ", "ROW"])
def test_a_move_is_found_however_it_is_spelled(spelling: str) -> None:
    assert load_move(spelling).move == "row"
    assert load_move("single_leg-squat").move == "single-leg squat"


def test_an_unknown_move_is_refused_with_the_nearest_one() -> None:
    with pytest.raises(FieldError, match="did you mean 'chest press'"):
        load_move("chest pres")
    with pytest.raises(FieldError, match=f"the library has: {MOVES[0].move}"):
        load_move("xyzzy")


def test_a_rung_is_found_by_name_or_number() -> None:
    row = load_move("row")
    assert find_rung(row, "2") is row.rungs[1]
    assert find_rung(row, row.rungs[1].rung.upper()) is row.rungs[1]
    with pytest.raises(FieldError, match=r"rung of row = 'lening' .* did you mean 'leaning'"):
        find_rung(row, "lening")


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_rungs_of_a_move_have_names_of_their_own(move: Move) -> None:
    assert len({rung.rung for rung in move.rungs}) == len(move.rungs)
    assert len({rung.note for rung in move.rungs}) == len(move.rungs)


@pytest.mark.parametrize("move", STRAP_MOVES, ids=named)
def test_a_strap_move_is_a_ladder_with_wanted_loads(move: Move) -> None:
    assert len(move.rungs) >= FEWEST_RUNGS
    assert len(set(move.loads_percent)) >= 3
    assert tuple(sorted(move.loads_percent)) == move.loads_percent


@pytest.mark.parametrize(("move", "rung"), RUNGS, ids=lambda part: getattr(part, "rung", None) or part.move)
def test_a_rung_names_a_strap_setting_that_every_rig_has(move: Move, rung: Rung) -> None:
    for anchor_m in ANCHORS_M:
        assert strap_setting(move, rung) in standard_rig(anchor_m).settings_m


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize(("move", "rung"), RUNGS, ids=lambda part: getattr(part, "rung", None) or part.move)
def test_every_rung_holds_at_its_own_mark_for_everyone(move: Move, rung: Rung, anchor_m: float) -> None:
    rep = at_start_mark(move.move, rung.rung, anchor_m)
    reasons = rep.reasons(rep.static_loads())
    wrong = {
        f"{build.sex} {build.stature_m} m": [REASONS[int(code)] for code in row if code != FINE]
        for build, row in zip(PANEL.builds, reasons, strict=True)
        if (row != FINE).any()
    }
    assert not wrong


@pytest.mark.parametrize("move", STRAP_MOVES, ids=named)
def test_wanted_loads_can_be_had_on_the_middle_rung(move: Move) -> None:
    middle = move.rungs[(len(move.rungs) - 1) // 2]
    standing = stand(move, middle, standard_rig(2.4), TYPICAL)
    for answers in marks(standing, np.array(move.loads_percent) / 100.0):
        assert [answer.wanted for answer in answers if not answer.answers] == []


@pytest.mark.parametrize(("move", "rung"), MOVING, ids=lambda part: getattr(part, "rung", None) or part.move)
def test_a_rep_lowers_and_raises_smoothly(move: Move, rung: Rung) -> None:
    """Every joint passes each new pose of a finer rep where the coarser rep's polynomial says it does. The
    allowance is 2 cm, a finger's breadth: what an eye placing the joint would not notice."""
    coarse, fine = (at_start_mark(move.move, rung.rung, 2.4, nodes) for nodes in (7, 13))
    seen, wanted = (
        place(rep.bodies, rep.solution.pose).joint_m.reshape(rep.count, len(rep.nodes), -1)
        for rep in (coarse, fine)
    )
    passed = np.einsum("fc,ncj->nfj", lagrange(lobatto_nodes(7), lobatto_nodes(13)), seen)
    np.testing.assert_allclose(passed, wanted, rtol=0, atol=0.02)


def lagrange(nodes: Floats, at: Floats) -> Floats:
    """Weights (A, N) of values at ``nodes`` in their polynomial's values at ``at``."""
    weights = np.ones((len(at), len(nodes)))
    for k, node in enumerate(nodes):
        for other in np.delete(nodes, k):
            weights[:, k] *= (at - other) / (node - other)
    return weights
