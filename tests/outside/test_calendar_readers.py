"""Calendar files read back by an independent reader (vobject, which reads time zones with dateutil).

Only the file's own VTIMEZONE tells this reader what its local times mean; the instants are compared with
those of the IANA time zone database (zoneinfo). They are whole seconds, so equal means equal.
"""

from __future__ import annotations

import datetime as dt
import re
from itertools import count
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import vobject
from dateutil import tz as dateutil_zones
from hypothesis import given
from msgspec.structs import replace
from tests.cycle.sample_cycle import cycles, sample_cycle

from leanmark.cycle.files.calendar import ONE_EVENT, calendar_file
from leanmark.cycle.form import Cycle
from leanmark.moves.report_form import Range

ISSUED = dt.datetime(2026, 12, 1, 9, 30, tzinfo=dt.UTC)
MINUTES = 50
NUMBERS = count()


def read(data: bytes) -> list[Any]:
    """The events. The zone gets a name that nobody knows, so that the file alone can say what it means: the
    reader keeps zones that it met before, and looks for others in its own database."""
    text = re.sub("TZID([=:])[^:\r\n]+", rf"TZID\g<1>zone-{next(NUMBERS)}", data.decode())
    return list(vobject.readOne(text).contents.get("vevent", []))


def on_days(zone: str, times: list[dt.datetime]) -> Cycle:
    """A cycle of one trainee whose sessions start at these local times and last 50 minutes."""
    cycle = sample_cycle()
    session = replace(cycle.plans[0].sessions[0], minutes=Range(MINUTES, MINUTES, MINUTES))
    starts = [time.replace(tzinfo=ZoneInfo(zone), fold=time.fold) for time in times]
    sessions = tuple(
        replace(
            session, uid=f"s{at}", number=at, starts=start.replace(tzinfo=dt.timezone(_offset(start)), fold=0)
        )
        for at, start in enumerate(starts, start=1)
    )
    return replace(cycle, zone=zone, plans=(replace(cycle.plans[0], sessions=sessions),))


def _offset(time: dt.datetime) -> dt.timedelta:
    offset = time.utcoffset()
    assert offset is not None
    return offset


def around(*day: int, hour: int = 18) -> list[dt.datetime]:
    """The day before, the day itself and the day after, at one hour of the clock."""
    middle = dt.datetime(*day, hour)  # type: ignore[arg-type]  # noqa: DTZ001 a clock time; the zone comes later
    return [middle + dt.timedelta(days=days) for days in (-1, 0, 1)]


# Days on which clocks change: Directive 2000/84/EC; US Energy Policy Act of 2005; New South Wales, from
# memory.
CHANGES = [
    ("Europe/Oslo", (2027, 3, 28), [17, 16, 16]),
    ("Europe/Oslo", (2027, 10, 31), [16, 17, 17]),
    ("America/New_York", (2027, 3, 14), [23, 22, 22]),
    ("America/New_York", (2027, 11, 7), [22, 23, 23]),
    ("Australia/Sydney", (2027, 4, 4), [7, 8, 8]),
    ("Australia/Sydney", (2027, 10, 3), [8, 7, 7]),
    ("Asia/Kolkata", (2027, 3, 28), [12, 12, 12]),
    ("Europe/Oslo", (2028, 2, 29), [17, 17, 17]),
]
"""Zone, day, and the hour in UTC of 18:00 on the day before, on it and after it."""


@pytest.mark.parametrize(("zone", "day", "hours_utc"), CHANGES)
def test_six_in_the_evening_across_a_change_of_clocks(
    zone: str, day: tuple[int, int, int], hours_utc: list[int]
) -> None:
    times = around(*day)
    events = read(calendar_file(on_days(zone, times), ISSUED))
    starts = [event.dtstart.value for event in events]
    assert [start.replace(tzinfo=None) for start in starts] == times, "the clock shows 18:00 on each day"
    assert [start.astimezone(dt.UTC).hour for start in starts] == hours_utc
    for event in events:
        assert event.dtend.value - event.dtstart.value == dt.timedelta(minutes=MINUTES)


@pytest.mark.parametrize(("zone", "day"), [(row[0], row[1]) for row in CHANGES])
def test_every_half_hour_of_the_night_of_the_change(zone: str, day: tuple[int, int, int]) -> None:
    midnight = dt.datetime(*day, tzinfo=ZoneInfo(zone)).astimezone(dt.UTC)
    instants = [midnight + dt.timedelta(minutes=30 * half) for half in range(12)]
    local = [instant.astimezone(ZoneInfo(zone)) for instant in instants]
    events = read(calendar_file(on_days(zone, [time.replace(tzinfo=None) for time in local]), ISSUED))
    assert [event.dtstart.value.astimezone(dt.UTC) for event in events] == instants
    ends = [instant + dt.timedelta(minutes=MINUTES) for instant in instants]
    assert [event.dtend.value.astimezone(dt.UTC) for event in events] == ends


def test_a_session_on_leap_day() -> None:
    (event,) = read(calendar_file(on_days("Europe/Oslo", around(2028, 2, 29)[1:2]), ISSUED))
    assert event.dtstart.value.isoformat() == "2028-02-29T18:00:00+01:00"


@given(cycles())
def test_any_cycle_is_read_at_its_instants(cycle: Cycle) -> None:
    starts = [session.starts for plan in cycle.plans for session in plan.sessions]
    for one_event in ONE_EVENT:
        found = [event.dtstart.value for event in read(calendar_file(cycle, ISSUED, one_event=one_event))]
        assert {one.astimezone(dt.UTC) for one in found} == {one.astimezone(dt.UTC) for one in starts}


def test_texts_and_numbers_are_read_as_they_were_given() -> None:
    cycle = sample_cycle()
    ugly = 'Åsa; "Berg", \\ 👩\u200d👧'
    new = replace(cycle, revision=3, plans=(replace(cycle.plans[0], trainee=ugly), cycle.plans[1]))
    events = read(calendar_file(new, ISSUED))
    assert len({event.uid.value for event in events}) == 8
    assert {event.sequence.value for event in events} == {"3"}
    assert {event.dtstamp.value.astimezone(dt.UTC) for event in events} == {ISSUED}
    heads = {event.summary.value for event in events}
    assert f"Frühwinter in der Bootshalle, week 1: {ugly}" in heads
    first = next(event for event in events if ugly in event.summary.value)
    assert "\n1. row, leaning: 3 sets of 8 controlled (2-1-1.5-0), 6 fast" in first.description.value
    assert "\n\nPain, dizziness or numbness: stop and tell the coach; if it" in first.description.value


def test_a_cancelled_session_is_read_as_such() -> None:
    old = sample_cycle()
    first = replace(old.plans[0], sessions=old.plans[0].sessions[1:])
    new = replace(old, revision=1, plans=(first, old.plans[1]))
    gone = [
        event for event in read(calendar_file(new, ISSUED, earlier=old)) if event.status.value == "CANCELLED"
    ]
    assert [event.dtstart.value.isoformat() for event in gone] == ["2027-01-11T18:00:00+01:00"]


@pytest.mark.parametrize("zone", ["Europe/Oslo", "America/New_York", "Australia/Sydney"])
def test_the_second_reader_of_zones_agrees(zone: str) -> None:
    """dateutil's own copy of the zone, at the instants that the file gives."""
    events = read(calendar_file(on_days(zone, around(2027, 3, 28) + around(2027, 10, 31)), ISSUED))
    own = dateutil_zones.gettz(zone)
    assert own is not None
    for event in events:
        start = event.dtstart.value
        assert start.astimezone(own).replace(tzinfo=None) == start.replace(tzinfo=None)
