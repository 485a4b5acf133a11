"""Finding moves: each filter leaves what it says and nothing else."""

from __future__ import annotations

import pytest
from tests.moves.whole_library import MOVES, RUNGS

from leanmark.moves.find import ANY_GATE, NO_GATE, Found, Wanted, find, joint_words
from leanmark.moves.ladder.demand import solved
from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.of_rung import stages_of
from leanmark.moves.restrictions import asks_of
from leanmark.moves.schema import Move, Rung
from leanmark.rig.rig import standard_rig

PAIRS = {(move.move, rung.rung) for move, rung in RUNGS}


def pairs(found: list[Found]) -> set[tuple[str, str]]:
    return {(one.move.move, rung.rung) for one in found for rung in one.rungs}


def those(fits: object) -> set[tuple[str, str]]:
    return {(move.move, rung.rung) for move, rung in RUNGS if fits(move, rung)}  # type: ignore[operator]


def test_nothing_asked_leaves_everything_in_order() -> None:
    found = find(MOVES, Wanted())
    assert [one.move for one in found] == [*MOVES]
    assert pairs(found) == PAIRS


@pytest.mark.parametrize("family", sorted({move.family for move in MOVES}))
def test_by_family(family: str) -> None:
    assert pairs(find(MOVES, Wanted(family=family))) == those(lambda move, _: move.family == family)


def test_by_kit_and_plane_together() -> None:
    wanted = Wanted(kit="handles", plane="sagittal")
    fits = pairs(find(MOVES, wanted))
    assert fits
    assert fits == those(lambda move, _: move.kit == "handles" and move.plane == "sagittal")


def test_by_joint_and_by_one_of_its_actions() -> None:
    by_joint = pairs(find(MOVES, Wanted(joint="hip")))
    assert by_joint == those(lambda move, _: any(action.startswith("hip ") for action in move.works))
    by_action = pairs(find(MOVES, Wanted(joint="hip extension")))
    assert by_action == those(lambda move, _: "hip extension" in move.works)
    assert by_action < by_joint
    assert set(joint_words()) >= {"hip", "trunk", *ACTIONS}


def test_by_muscle_that_works_or_helps() -> None:
    fits = {one.move.move for one in find(MOVES, Wanted(muscle="rectus abdominis"))}
    assert "row" in fits  # helps
    assert "front plank" in fits  # works


def test_by_gate() -> None:
    gated, free = (pairs(find(MOVES, Wanted(gate=word))) for word in (ANY_GATE, NO_GATE))
    assert gated == those(lambda _, rung: rung.gates)
    assert gated | free == PAIRS
    assert not gated & free
    on_plank = pairs(find(MOVES, Wanted(gate="front plank")))
    assert ("knee tuck", "from the elbows") in on_plank  # trade: about 60 s of front plank first
    assert on_plank < gated


def test_by_stage() -> None:
    fits = pairs(find(MOVES, Wanted(stage="ballistic")))
    assert fits == those(lambda move, rung: "ballistic" in stages_of(move, rung))


@pytest.mark.parametrize("text", ["handles row", "ROW  Handles"])
def test_by_words_that_all_stand_in_the_texts(text: str) -> None:
    assert "row" in {one.move.move for one in find(MOVES, Wanted(text=text))}
    assert find(MOVES, Wanted(text="row xyzzy")) == []


def test_without_leaves_only_rungs_that_do_not_ask_it() -> None:
    """Each rung asked on its own, where the search solves all of them side by side."""
    barred = ("gripping", "kneeling", "weight on the hands")
    fits = pairs(find(MOVES, Wanted(without=barred, kit="cradles")))

    def may(move: Move, rung: Rung) -> bool:
        asked = asks_of(solved(move, rung, typical_people(), standard_rig(2.4)))
        return move.kit == "cradles" and not set(asked) & set(barred)

    assert fits
    assert fits == those(may)
