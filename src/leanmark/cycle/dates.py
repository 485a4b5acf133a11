"""On which days a trainee trains: as many sessions a week as wanted, on allowed days, as far apart as can
be."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Final

from leanmark.cycle.files.local_time import local_time, zone_of

WEEK_DAYS: Final = 7
HOUR: Final = dt.timedelta(hours=1)
_FAR_DAYS: Final = 7
"""What counts as the gap before the first session of a cycle."""


@dataclass(frozen=True)
class Day:
    """One session's place: number in the cycle and week, from 1; slot, its place in the week, from 0."""

    number: int
    week: int
    slot: int
    date: dt.date

    @property
    def weekday_number(self) -> int:
        """Day of the week, 0 = Monday."""
        return self.date.weekday()


def session_days(
    starts: dt.date,
    weeks: int,
    allowed: Collection[int],
    sessions: int,
    days_off: Collection[dt.date],
) -> tuple[Day, ...]:
    """The days of all sessions, in order. allowed: days of the week, 0 = Monday. Week 1 is the seven days
    from ``starts``. A week with fewer open days than sessions wanted has fewer sessions."""
    found: list[Day] = []
    before: dt.date | None = None
    for week in range(weeks):
        first = starts + dt.timedelta(days=WEEK_DAYS * week)
        open_days = [day for day in _days_from(first) if day.weekday() in allowed and day not in days_off]
        picked = _apart(open_days, min(sessions, len(open_days)), before)
        for slot, date in enumerate(picked):
            found.append(Day(len(found) + 1, week + 1, slot, date))
            before = date
    return tuple(found)


def _days_from(first: dt.date) -> list[dt.date]:
    return [first + dt.timedelta(days=ahead) for ahead in range(WEEK_DAYS)]


def _apart(days: Sequence[dt.date], count: int, before: dt.date | None) -> tuple[dt.date, ...]:
    """The choice with the widest gaps, the earliest of equals: narrow gaps weigh by the square of their
    inverse."""

    def crowding(picked: tuple[dt.date, ...]) -> float:
        last = before or (picked[0] - dt.timedelta(days=_FAR_DAYS) if picked else None)
        gaps = [(b - a).days for a, b in pairwise((last, *picked) if last else picked)]
        return round(sum(1.0 / gap**2 for gap in gaps), 9)

    return min(combinations(days, count), key=crowding)


def local_start(date: dt.date, time: dt.time, zone: str) -> dt.datetime:
    """A session's start with its offset from UTC. A time that a change to summer time leaves out is that much
    later; of a time that comes twice, the first is meant."""
    own = zone_of(zone)
    return local_time(dt.datetime.combine(date, time, own).astimezone(dt.UTC), own)


def hours_between(first: dt.datetime, second: dt.datetime) -> float:
    """Hours that pass between two starts."""
    return abs((second - first) / HOUR)
