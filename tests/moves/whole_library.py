"""The whole library solved once for the reference people, for tests that look at every move."""

from __future__ import annotations

from functools import cache
from typing import Final

from leanmark.moves.ladder.demand import Solved, solved_ladders
from leanmark.moves.ladder.panel import reference_people
from leanmark.moves.library import load_move, move_names
from leanmark.moves.schema import Move, Rung
from leanmark.rig.rig import standard_rig

MOVES: Final = tuple(load_move(name) for name in move_names())
RUNGS: Final = [(move, rung) for move in MOVES for rung in move.rungs]
RIG: Final = standard_rig(2.4)


def named(move: Move, *rungs: Rung) -> str:
    return " / ".join((move.move, *(rung.rung for rung in rungs)))


@cache
def _solved() -> dict[str, list[Solved]]:
    ladders = solved_ladders(MOVES, reference_people(), RIG)
    return {move.move: rungs for move, rungs in zip(MOVES, ladders, strict=True)}


def ladder_of(move: Move | str) -> list[Solved]:
    """A move's rungs, easier to harder, for the six reference people under an anchor at 2.4 m."""
    return _solved()[move if isinstance(move, str) else move.move]
