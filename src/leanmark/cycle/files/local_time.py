"""Times of a cycle's place: its zone, and instants as its clocks show them."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from leanmark.errors import FieldError


def zone_of(name: str) -> ZoneInfo:
    """The time zone of that name in the IANA time zone database.

    Raises:
        FieldError: there is no such zone.
    """
    try:
        return ZoneInfo(name)
    except (OSError, ValueError, KeyError):
        remedy = "give the zone of the place where the squad trains"
        raise FieldError("zone", name, "a zone of the IANA database, such as Europe/Oslo", remedy) from None


def local_time(instant: dt.datetime, zone: ZoneInfo) -> dt.datetime:
    """An instant as the zone's clocks show it, with their offset at that instant as a fixed one.

    Two times with fixed offsets compare as instants also in the hour that clocks show twice.
    """
    return fixed(instant.astimezone(zone))


def fixed(time: dt.datetime) -> dt.datetime:
    """The same clock time and offset, without the zone's rules."""
    offset = time.utcoffset()
    return time.replace(tzinfo=None if offset is None else dt.timezone(offset))
