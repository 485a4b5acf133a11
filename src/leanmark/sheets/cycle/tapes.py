"""Which tapes a floor needs: as few as may be, each mark within its own tolerance of one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Final

from leanmark.cycle.form import Plan, Session
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.translate import mark_of
from leanmark.units import UnitSystem, show_length

MOST_OFF_M: Final = 0.05
"""Own figure: a tape further from a mark than this would be taken for another's."""
_CLOSE_M: Final = 1e-9


@dataclass(frozen=True)
class MarkUse:
    """One trainee's mark in one move. mark_m: from the plumb point, ahead, or to the left where ``across``;
    tolerance_m: how far a tape may be off; faces: which way the trainee looks; sessions: by number."""

    trainee: str
    move: str
    contact: str
    mark_m: float
    tolerance_m: float
    across: bool
    faces: str
    sessions: tuple[int, ...]


@dataclass(frozen=True)
class Tape:
    """One tape and who uses it."""

    place_m: float
    across: bool
    uses: tuple[MarkUse, ...]


def mark_uses(chosen: Iterable[tuple[Plan, Sequence[Session]]], units: UnitSystem) -> tuple[MarkUse, ...]:
    """The floor marks of these sessions' lines on straps; marks that are read alike are one, with the
    smallest tolerance. Raises FieldError for a move or a rung that the library lacks."""
    found: dict[tuple[str, str, str, str], MarkUse] = {}
    for plan, sessions in chosen:
        for session in sessions:
            for line in session.lines:
                if not line.strap:
                    continue
                move = load_move(line.move)
                across = mark_of(move, find_rung(move, line.rung)).across
                key = (plan.trainee, line.move, line.mark_of, show_length(line.mark_m, units))
                old = found.get(key)
                own = old.sessions if old else ()
                found[key] = MarkUse(
                    plan.trainee,
                    line.move,
                    line.mark_of,
                    old.mark_m if old else line.mark_m,
                    min(old.tolerance_m, line.tolerance_m) if old else line.tolerance_m,
                    across,
                    move.faces,
                    own if session.number in own else (*own, session.number),
                )
    return tuple(found.values())


def tapes(uses: Iterable[MarkUse]) -> tuple[Tape, ...]:
    """The fewest tapes that serve every mark, along and across apart, from the negative end.

    Each mark is an interval of where its tape may be; going through the intervals by their upper ends, a tape
    at the first upper end that is not served yet serves the most (greedy stabbing, which is optimal: from
    memory). The tape is then moved, within what all its marks allow, towards the middle one of them.
    """
    made = []
    for across in (False, True):
        left = sorted((use for use in uses if use.across == across), key=lambda use: use.mark_m + _off_m(use))
        while left:
            upper = left[0].mark_m + _off_m(left[0])
            here = [use for use in left if use.mark_m - _off_m(use) <= upper + _CLOSE_M]
            left = [use for use in left if use not in here]
            made.append(Tape(_place_m(here, upper), across, tuple(sorted(here, key=lambda use: use.mark_m))))
    return tuple(sorted(made, key=lambda tape: (tape.across, tape.place_m)))


def _off_m(use: MarkUse) -> float:
    return min(max(use.tolerance_m, 0.0), MOST_OFF_M) if isfinite(use.tolerance_m) else MOST_OFF_M


def _place_m(uses: Sequence[MarkUse], upper: float) -> float:
    lower = max(use.mark_m - _off_m(use) for use in uses)
    marks = sorted(use.mark_m for use in uses)
    return min(max(marks[(len(marks) - 1) // 2], lower), upper)
