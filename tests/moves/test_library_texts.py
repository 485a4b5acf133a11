"""What the library holds by count, and what every rung says: cues, faults, gates, speed."""

from __future__ import annotations

from itertools import pairwise

import pytest
from tests.moves.whole_library import MOVES, RUNGS, ladder_of

from leanmark.moves.ladder.demand import demand_of
from leanmark.moves.ladder.panel import typical_in
from leanmark.moves.library import families, find_rung, load_move
from leanmark.moves.muscles import ACTIONS, GIRDLE_ACTIONS, MUSCLES
from leanmark.moves.of_rung import cautions_of, cues_of, faults_of, lever_of, stages_of, tempo_s_of
from leanmark.moves.schema import Gate, Move, Rung

GATES = [(move, rung, gate) for move, rung in RUNGS for gate in rung.gates]
EVERY_RUNG = pytest.mark.parametrize(
    ("move", "rung"), RUNGS, ids=[f"{move.move}-{rung.rung}" for move, rung in RUNGS]
)
EVERY_MOVE = pytest.mark.parametrize("move", MOVES, ids=lambda move: move.move)
EVERY_GATE = pytest.mark.parametrize(
    ("move", "rung", "gate"),
    GATES,
    ids=[f"{move.move}-{rung.rung}-{gate.rung}" for move, rung, gate in GATES],
)


def test_the_library_is_as_large_as_promised() -> None:
    assert len(MOVES) >= 50
    assert len(RUNGS) >= 200
    assert len({move.family for move in MOVES}) >= 12


@EVERY_MOVE
def test_a_move_belongs_to_a_family_that_there_is(move: Move) -> None:
    assert move.family in families()


@EVERY_RUNG
def test_a_rung_has_a_few_things_to_say(move: Move, rung: Rung) -> None:
    """Two to four cues and faults, each its own; a cue is short enough to call out: own figure, 80 signs."""
    cues, faults = cues_of(move, rung), faults_of(move, rung)
    assert 2 <= len(set(cues)) == len(cues) <= 4
    assert 2 <= len({one.fault for one in faults}) == len(faults) <= 4
    assert all(len(cue) <= 80 for cue in cues)
    assert all(one.remedy != one.fault for one in faults)
    assert all(cautions_of(move, rung))
    assert lever_of(move, rung)


@EVERY_MOVE
def test_a_move_says_whom_it_is_not_for_when_to_stop_and_how_to_breathe(move: Move) -> None:
    assert move.not_for
    assert move.stop
    assert move.breathing
    assert len(set(move.not_for)) == len(move.not_for)
    assert len(set(move.stop)) == len(move.stop)


@EVERY_MOVE
def test_muscles_do_what_they_are_named_for(move: Move) -> None:
    for part in (move.works, move.helps):
        for action, muscles in part.items():
            assert action in ACTIONS or action in GIRDLE_ACTIONS
            assert muscles
            assert [name for name in muscles if action not in MUSCLES.get(name, ())] == []
    assert not set(move.works) & set(GIRDLE_ACTIONS)
    assert not set(move.works) & set(move.helps)


@EVERY_RUNG
def test_tempo_and_stages_can_be_done(move: Move, rung: Rung) -> None:
    stages = stages_of(move, rung)
    assert stages
    assert [*stages] == [name for name in ("controlled", "fast", "ballistic") if name in stages]
    assert all(0.0 <= part <= 120.0 for part in tempo_s_of(move, rung))


@EVERY_MOVE
def test_ballistic_comes_after_fast_on_the_ladder(move: Move) -> None:
    """Trade: ballistic reps only after the rung is clean at fast speed."""
    seen: set[str] = set()
    for rung in move.rungs:
        stages = stages_of(move, rung)
        assert "ballistic" not in stages or "fast" in {*seen, *stages}
        seen |= {*stages}


def test_a_ballistic_rung_opens_by_a_gate() -> None:
    ungated = [
        f"{move.move} / {rung.rung}"
        for move, rung in RUNGS
        if {*stages_of(move, rung)} == {"ballistic"} and not rung.gates
    ]
    assert ungated == []


@EVERY_GATE
def test_a_gate_is_on_a_rung_that_there_is_at_a_stage_that_it_has(move: Move, rung: Rung, gate: Gate) -> None:
    on = load_move(gate.move) if gate.move else move
    other = find_rung(on, gate.rung)
    assert other.rung == gate.rung
    assert gate.stage in stages_of(on, other)
    assert gate.source


@EVERY_GATE
def test_a_gate_is_easier_than_what_it_opens(move: Move, rung: Rung, gate: Gate) -> None:
    """Further down the same ladder; or a hold on the floor; or less demand for the typical two."""
    if gate.move in (None, move.move):
        assert move.rungs.index(find_rung(move, gate.rung)) < move.rungs.index(rung)
        return
    (opened,) = (one for one in ladder_of(move) if one.rung is rung)
    (asked,) = (one for one in ladder_of(gate.move) if one.rung.rung == gate.rung)
    held_on_the_floor = asked.steps == 1 and not asked.rep.task.holds
    typical = typical_in(asked.people)
    less = demand_of(asked).share[typical] <= demand_of(opened).share[typical]
    assert held_on_the_floor or less.all()


@EVERY_MOVE
def test_no_two_rungs_in_a_row_are_the_same_move(move: Move) -> None:
    for easier, harder in pairwise(move.rungs):
        assert easier.note != harder.note
