"""A time zone as a calendar file states it (VTIMEZONE, RFC 5545 section 3.6.5), from the system's rules."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Final
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

_DAY: Final = dt.timedelta(days=1)
_NONE: Final = dt.timedelta(0)
_SECOND: Final = dt.timedelta(seconds=1)


def zone_component(zone: ZoneInfo, first: dt.datetime, last: dt.datetime) -> Timezone:
    """The zone with every change of its clocks from a day before ``first`` to a day after ``last``.

    Each change is written out as an observance that begins in the local time before it, as the standard asks;
    ahead of them stands the one in force at the beginning.
    """
    start = first.astimezone(dt.UTC).replace(microsecond=0) - _DAY
    component = Timezone()
    component.add("tzid", zone.key)
    component.add_component(_observance(zone, start, start))
    for change in changes(zone, start, last.astimezone(dt.UTC) + _DAY):
        component.add_component(_observance(zone, change - _SECOND, change))
    return component


def changes(zone: ZoneInfo, start: dt.datetime, end: dt.datetime) -> Iterator[dt.datetime]:
    """The instants, in UTC and to the second, from which the zone's clocks go otherwise than before.

    No zone changes twice within a day, so a day without a difference between its ends has no change.
    """
    day = start
    while day < end:
        if _clocks(zone, day) != _clocks(zone, day + _DAY):
            yield _change(zone, day, day + _DAY)
        day += _DAY


def _change(zone: ZoneInfo, before: dt.datetime, after: dt.datetime) -> dt.datetime:
    """The first second on the new clocks, by halving."""
    while after - before > _SECOND:
        middle = before + dt.timedelta(seconds=(after - before) // _SECOND // 2)
        if _clocks(zone, middle) == _clocks(zone, before):
            before = middle
        else:
            after = middle
    return after


def _clocks(zone: ZoneInfo, instant: dt.datetime) -> tuple[dt.timedelta | None, dt.timedelta | None]:
    local = instant.astimezone(zone)
    return local.utcoffset(), local.dst()


def _observance(
    zone: ZoneInfo, before: dt.datetime, onset: dt.datetime
) -> TimezoneStandard | TimezoneDaylight:
    old, new = before.astimezone(zone), onset.astimezone(zone)
    offset_from, offset_to = old.utcoffset() or _NONE, new.utcoffset() or _NONE
    observance = TimezoneDaylight() if (new.dst() or _NONE) > _NONE else TimezoneStandard()
    observance.add("dtstart", (onset + offset_from).replace(tzinfo=None))
    observance.add("tzoffsetfrom", offset_from)
    observance.add("tzoffsetto", offset_to)
    observance.add("tzname", new.tzname() or zone.key)
    return observance
