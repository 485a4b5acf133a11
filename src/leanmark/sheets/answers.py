"""What a card answers: one person's mark for one wanted load of a move, and the load to expect there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import nan

import numpy as np

from leanmark.mechanics.measure import Measure
from leanmark.mechanics.reasons import REASONS
from leanmark.moves.stand import MarkAnswer, Stand, held_loads


@dataclass(frozen=True)
class CardAnswer:
    """One person's answer for one wanted load.

    load_of: what the loads are shares of, as the move says. wanted, load, low, high: those shares. mark_m:
    the mark nearest to the plumb point, or None where there is none; held_m: the stretch of marks around it
    that can be held. reason: why there is no mark, or a caution about the one there is.
    """

    move: str
    rung: str
    load_of: Measure
    wanted: float
    mark_m: float | None
    held_m: tuple[float, float]
    load: float
    low: float
    high: float
    reason: str


def card_answers(
    standing: Stand, answers: Sequence[Sequence[MarkAnswer]]
) -> tuple[tuple[CardAnswer, ...], ...]:
    """The answers of every person, by person, then by wanted load; intervals of all are found at once."""
    flat = [(person, row) for person, rows in enumerate(answers) for row in rows]
    where = [(person, row.answers[0].mark_m) for person, row in flat if row.answers]
    who, mark_m = np.array([p for p, _ in where], dtype=np.intp), np.array([m for _, m in where])
    held = held_loads(standing, mark_m, who) if where else None
    found: list[list[CardAnswer]] = [[] for _ in answers]
    at = 0
    for person, row in flat:
        about = (standing.move.move, standing.rung.rung, standing.move.load, row.wanted)
        if not row.answers or held is None:
            found[person].append(CardAnswer(*about, None, (nan, nan), nan, nan, nan, not_reached(row)))
            continue
        first = row.answers[0]
        stretch = (first.interval.low_m, first.interval.high_m)
        load, low, high = (float(part[at]) for part in (held.load, held.low, held.high))
        reason = REASONS[int(held.reason[at])]
        found[person].append(CardAnswer(*about, first.mark_m, stretch, load, low, high, reason))
        at += 1
    return tuple(tuple(own) for own in found)


def not_reached(row: MarkAnswer) -> str:
    """Why a wanted load has no mark, short enough for a card."""
    if not row.feasible:
        return REASONS[row.scan_reason]
    least = 100.0 * min(i.least_load for i in row.feasible)
    most = 100.0 * max(i.greatest_load for i in row.feasible)
    return f"out of reach here: {least:.0f} to {most:.0f} % can be had"
