"""Days of sessions and hours between them."""

from __future__ import annotations

import datetime as dt
from itertools import combinations, pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.cycle.dates import hours_between, local_start, session_days

EVERY_DAY = range(7)
NONE: frozenset[dt.date] = frozenset()
_dates = st.dates(dt.date(1970, 1, 1), dt.date(2199, 12, 31))
_days = st.frozensets(st.integers(0, 6))


@given(_dates, st.integers(1, 16), _days, st.integers(1, 7), st.frozensets(st.integers(0, 111)))
def test_sessions_lie_on_open_days_as_many_a_week_as_can_be(
    starts: dt.date, weeks: int, allowed: frozenset[int], sessions: int, off: frozenset[int]
) -> None:
    days_off = frozenset(starts + dt.timedelta(days=ahead) for ahead in off)
    found = session_days(starts, weeks, allowed, sessions, days_off)
    for week in range(1, weeks + 1):
        first = starts + dt.timedelta(days=7 * (week - 1))
        here = [day for day in found if day.week == week]
        days = [first + dt.timedelta(days=ahead) for ahead in range(7)]
        free = [day for day in days if day.weekday() in allowed and day not in days_off]
        assert len(here) == min(sessions, len(free))
        assert {day.date for day in here} <= set(free)
        assert [day.slot for day in here] == list(range(len(here)))
    assert [day.number for day in found] == list(range(1, len(found) + 1))
    assert all(a.date < b.date for a, b in pairwise(found))


@given(_dates, _days.filter(bool), st.integers(2, 4))
def test_no_other_choice_of_days_leaves_a_wider_narrowest_gap_alone_in_a_week(
    starts: dt.date, allowed: frozenset[int], sessions: int
) -> None:
    """In a first week the gaps between its sessions count; the widest narrowest one is not always the least
    crowded, so the choice is compared by the sum of squares that the module states."""
    picked = [day.date for day in session_days(starts, 1, allowed, sessions, NONE)]
    days = [starts + dt.timedelta(days=ahead) for ahead in range(7)]
    free = [day for day in days if day.weekday() in allowed]

    def crowding(row: tuple[dt.date, ...] | list[dt.date]) -> float:
        return sum(1.0 / (b - a).days ** 2 for a, b in pairwise(row))

    least = min(crowding(row) for row in combinations(free, len(picked)))
    assert crowding(picked) == pytest.approx(least)


def test_a_leap_day_is_a_day_like_any_other() -> None:
    tuesdays = session_days(dt.date(2028, 2, 22), 3, {1}, 1, NONE)
    assert [day.date for day in tuesdays] == [
        dt.date(2028, 2, 22), dt.date(2028, 2, 29), dt.date(2028, 3, 7),
    ]  # fmt: skip
    assert not session_days(dt.date(2028, 2, 29), 1, {1}, 1, {dt.date(2028, 2, 29)})
    common = session_days(dt.date(2027, 2, 23), 2, {6}, 1, NONE)
    assert [day.date for day in common] == [dt.date(2027, 2, 28), dt.date(2027, 3, 7)]


def test_days_off_everywhere_leave_no_session() -> None:
    every = {dt.date(2026, 11, 30) + dt.timedelta(days=ahead) for ahead in range(28)}
    assert session_days(dt.date(2026, 11, 30), 4, EVERY_DAY, 3, every) == ()


def test_a_week_of_one_day_and_a_week_of_seven() -> None:
    assert [day.date.day for day in session_days(dt.date(2026, 11, 2), 2, {0}, 3, NONE)] == [2, 9]
    assert len(session_days(dt.date(2026, 11, 2), 1, EVERY_DAY, 7, NONE)) == 7


def test_sessions_keep_apart_over_the_turn_of_the_week() -> None:
    """Monday, Wednesday and Sunday are open and two are wanted: never a Sunday and the Monday after."""
    found = [day.date for day in session_days(dt.date(2026, 11, 30), 6, {0, 2, 6}, 2, NONE)]
    assert all((b - a).days >= 2 for a, b in pairwise(found))


@pytest.mark.parametrize(
    ("zone", "before", "after", "hours"),
    [
        ("Europe/Oslo", dt.date(2027, 3, 27), dt.date(2027, 3, 29), 47.0),  # clocks go forward on the 28th
        ("Europe/Oslo", dt.date(2026, 10, 24), dt.date(2026, 10, 26), 49.0),  # and back on the 25th
        ("Australia/Lord_Howe", dt.date(2026, 10, 3), dt.date(2026, 10, 5), 47.5),  # by half an hour
        ("Asia/Kolkata", dt.date(2027, 3, 27), dt.date(2027, 3, 29), 48.0),
    ],
)
def test_hours_pass_by_the_clocks_of_the_zone(
    zone: str, before: dt.date, after: dt.date, hours: float
) -> None:
    """Dates of the changes: IANA time zone data, as the system's zoneinfo has them."""
    starts = [local_start(day, dt.time(18, 0), zone) for day in (before, after)]
    assert hours_between(*starts) == hours
    assert hours_between(*reversed(starts)) == hours
    assert [start.time() for start in starts] == [dt.time(18, 0)] * 2
    assert [start.utcoffset() for start in starts] == [
        dt.datetime.combine(day, dt.time(18, 0), ZoneInfo(zone)).utcoffset() for day in (before, after)
    ]


def test_a_time_that_the_clocks_skip_is_an_hour_later_and_one_that_comes_twice_the_first() -> None:
    skipped = local_start(dt.date(2027, 3, 28), dt.time(2, 30), "Europe/Oslo")
    assert (skipped.time(), skipped.utcoffset()) == (dt.time(3, 30), dt.timedelta(hours=2))
    twice = local_start(dt.date(2026, 10, 25), dt.time(2, 30), "Europe/Oslo")
    assert (twice.time(), twice.utcoffset()) == (dt.time(2, 30), dt.timedelta(hours=2))
