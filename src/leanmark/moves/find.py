"""Find moves by what a coach asks of them: words, family, kit, plane, what they train, gates, speed, and what
somebody may not do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from leanmark.moves.ladder.demand import solved_together
from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.names import CHECKED_ANCHOR_M
from leanmark.moves.of_rung import stages_of
from leanmark.moves.restrictions import asks_of
from leanmark.moves.schema import Move, Rung
from leanmark.rig.rig import standard_rig

ANY_GATE: Final = "any"
NO_GATE: Final = "none"


@dataclass(frozen=True)
class Wanted:
    """What is asked; what is left out does not matter.

    text: words that all stand somewhere in the move's texts. joint: a joint, or one of ``muscles.ACTIONS``,
    that ``works`` names. gate: ANY_GATE, NO_GATE or the move that a rung's gate is on. without: names of
    ``restrictions.RESTRICTIONS`` that a rung must not touch.
    """

    text: str | None = None
    family: str | None = None
    kit: str | None = None
    plane: str | None = None
    joint: str | None = None
    muscle: str | None = None
    gate: str | None = None
    stage: str | None = None
    without: tuple[str, ...] = ()


@dataclass(frozen=True)
class Found:
    """A move that fits, with those of its rungs that do."""

    move: Move
    rungs: tuple[Rung, ...]


def joint_words() -> tuple[str, ...]:
    """What ``Wanted.joint`` may be: joints, then their actions."""
    joints = dict.fromkeys(action.split()[0] for action in ACTIONS)
    return (*joints, *ACTIONS)


def find(moves: Sequence[Move], wanted: Wanted) -> list[Found]:
    """The moves that fit, in order, each with at least one rung that fits."""
    fits = [
        (move, rung)
        for move in moves
        if _move_fits(move, wanted)
        for rung in move.rungs
        if _rung_fits(move, rung, wanted)
    ]
    if wanted.without:
        fits = _without(fits, set(wanted.without))
    kept: dict[str, list[Rung]] = {}
    for move, rung in fits:
        kept.setdefault(move.move, []).append(rung)
    return [Found(move, tuple(kept[move.move])) for move in moves if move.move in kept]


def _move_fits(move: Move, wanted: Wanted) -> bool:
    plain = (("family", wanted.family), ("kit", wanted.kit), ("plane", wanted.plane))
    return (
        all(word is None or getattr(move, name) == word for name, word in plain)
        and (wanted.joint is None or any(_names(action, wanted.joint) for action in move.works))
        and (wanted.muscle is None or wanted.muscle in _muscles(move))
        and all(word in _texts(move) for word in (wanted.text or "").casefold().split())
    )


def _names(action: str, joint: str) -> bool:
    return joint in (action, action.split()[0])


def _muscles(move: Move) -> set[str]:
    return {muscle for part in (move.works, move.helps) for named in part.values() for muscle in named}


def _texts(move: Move) -> str:
    """Everything that a search looks at, in small letters."""
    parts = [move.move, move.family, move.kit, move.faces, move.purpose, move.setup, move.lever]
    parts += [*move.works, *move.helps, *_muscles(move)]
    parts += [text for rung in move.rungs for text in (rung.rung, rung.note)]
    return " ".join(parts).casefold()


def _rung_fits(move: Move, rung: Rung, wanted: Wanted) -> bool:
    on = {gate.move or move.move for gate in rung.gates}
    gate = {None: True, ANY_GATE: bool(on), NO_GATE: not on}.get(wanted.gate, wanted.gate in on)
    return gate and (wanted.stage is None or wanted.stage in stages_of(move, rung))


def _without(rungs: Sequence[tuple[Move, Rung]], barred: set[str]) -> list[tuple[Move, Rung]]:
    """The rungs that touch nothing barred, for the people of the 50th percentile."""
    solved = solved_together(rungs, typical_people(), standard_rig(CHECKED_ANCHOR_M))
    return [pair for pair, one in zip(rungs, solved, strict=True) if not barred & set(asks_of(one))]
