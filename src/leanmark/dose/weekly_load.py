"""Sums of the trade over sets, sessions and weeks: volume load, density, session load, monotony, strain.

They describe; they do not foresee injury. Monotony and strain follow Foster 1998, Med Sci Sports Exerc
30(7):1164 (abstract): rest days count as days of no load. Which standard deviation that paper took was not
seen; ``SPREAD`` says which one is used here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from leanmark.errors import FieldError

Spread = Literal["population", "sample"]
SPREAD: Final[Spread] = "population"
"""The seven days of a week are all of it, not a sample: own choice. The sample's deviation gives monotony and
strain 7.4 % less."""
DAYS_A_WEEK: Final = 7
CR10_MOST: Final = 10.0  # Borg's category-ratio scale, from memory
HIGH_MONOTONY: Final = 2.0  # usual caution, from memory
NO_SPREAD: Final = "every day is alike, so there is no deviation to divide by"
NO_LOAD: Final = "there is no load in the week"

SetRow = tuple[int, int, float]
"""Sets, reps in each, load of a rep."""


def volume_load(rows: Sequence[SetRow]) -> float:
    """Sum of sets x reps x load, in the load's unit. Raises FieldError for a negative entry."""
    for row in rows:
        if min(row) < 0:
            raise FieldError("sets", row, "0 or more each", "give sets, reps and load of a rep")
    return float(sum(sets * reps * load for sets, reps, load in rows))


def mean_load(rows: Sequence[SetRow]) -> float | None:
    """Mean load of a rep, in the load's unit; None without any. Raises FieldError like ``volume_load``."""
    volume, reps = volume_load(rows), sum(sets * count for sets, count, _ in rows)
    return volume / reps if reps else None


def density(volume: float, minutes: float) -> float:
    """Volume load per minute of the session. Raises FieldError for minutes not above 0."""
    if not minutes > 0.0:
        raise FieldError("minutes", minutes, "above 0", "give how long the session took")
    return volume / minutes


def session_load(rpe: float, minutes: float) -> float:
    """Session load: its RPE as a whole on the CR-10 scale times its minutes (Foster 1998).

    Raises FieldError for an RPE outside 0 to 10 and for minutes below 0.
    """
    if not 0.0 <= rpe <= CR10_MOST:
        raise FieldError("RPE", rpe, f"0 to {CR10_MOST:g}", "give the effort of the whole session")
    if not minutes >= 0.0:
        raise FieldError("minutes", minutes, "0 or more", "give how long the session took")
    return rpe * minutes


@dataclass(frozen=True)
class WeeklyLoad:
    """One week. load: sum of the days; daily: their mean; deviation: of the days, by ``spread``; monotony:
    daily mean over deviation; strain: load times monotony; both None where ``reason`` says why."""

    load: float
    daily: float
    deviation: float
    monotony: float | None
    strain: float | None
    spread: Spread
    reason: str = ""


def weekly_load(days: Sequence[float], spread: Spread = SPREAD) -> WeeklyLoad:
    """The week of seven daily loads, 0 on days of rest.

    Raises FieldError unless there are seven, none below 0 and all finite.
    """
    given = np.asarray(days, dtype=np.float64)
    if given.shape != (DAYS_A_WEEK,):
        raise FieldError("days", len(days), f"{DAYS_A_WEEK} loads", "give every day, 0 for a day of rest")
    if not (np.isfinite(given) & (given >= 0.0)).all():
        raise FieldError("days", tuple(days), "0 or more each", "give a day of rest as 0")
    load, daily = float(given.sum()), float(given.mean())
    deviation = 0.0 if np.ptp(given) == 0.0 else float(given.std(ddof=int(spread == "sample")))
    if deviation == 0.0:
        reason = NO_SPREAD if load else NO_LOAD
        return WeeklyLoad(load, daily, 0.0, None, None, spread, reason)
    monotony = daily / deviation
    return WeeklyLoad(load, daily, deviation, monotony, load * monotony, spread)
