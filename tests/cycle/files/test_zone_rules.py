"""When clocks change, and how a calendar file says so."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.cycle.files.zone_rules import changes, zone_component

UTC = dt.UTC


def in_2027(zone: str) -> list[str]:
    year = dt.datetime(2027, 1, 1, tzinfo=UTC), dt.datetime(2028, 1, 1, tzinfo=UTC)
    return [change.isoformat() for change in changes(ZoneInfo(zone), *year)]


# Directive 2000/84/EC: last Sundays of March and October at 01:00 UTC. US Energy Policy Act of 2005: second
# Sunday of March and first of November at 02:00 local time. New South Wales: first Sundays of April and
# October at 02:00 standard time (from memory). India has one time all year.
@pytest.mark.parametrize(
    ("zone", "expected"),
    [
        ("Europe/Oslo", ["2027-03-28T01:00:00+00:00", "2027-10-31T01:00:00+00:00"]),
        ("America/New_York", ["2027-03-14T07:00:00+00:00", "2027-11-07T06:00:00+00:00"]),
        ("Australia/Sydney", ["2027-04-03T16:00:00+00:00", "2027-10-02T16:00:00+00:00"]),
        ("Asia/Kolkata", []),
    ],
)
def test_changes_of_2027_as_the_law_has_them(zone: str, expected: list[str]) -> None:
    assert in_2027(zone) == expected


def test_each_change_begins_in_the_local_time_before_it() -> None:
    # RFC 5545 section 3.6.5: an observance's DTSTART is a local time to be read with TZOFFSETFROM
    year = dt.datetime(2027, 1, 2, tzinfo=UTC), dt.datetime(2027, 12, 31, tzinfo=UTC)
    text = zone_component(ZoneInfo("Europe/Oslo"), *year).to_ical().decode().replace("\r\n", " ")
    assert "BEGIN:DAYLIGHT DTSTART:20270328T020000 TZNAME:CEST TZOFFSETFROM:+0100 TZOFFSETTO:+0200" in text
    assert "BEGIN:STANDARD DTSTART:20271031T030000 TZNAME:CET TZOFFSETFROM:+0200 TZOFFSETTO:+0100" in text
    assert "BEGIN:STANDARD DTSTART:20270101T010000 TZNAME:CET TZOFFSETFROM:+0100 TZOFFSETTO:+0100" in text


@given(st.sampled_from(["Europe/Dublin", "Africa/Casablanca", "Asia/Kathmandu", "Australia/Lord_Howe"]))
def test_offsets_between_changes_are_the_zones(name: str) -> None:
    zone = ZoneInfo(name)
    start, end = dt.datetime(2026, 12, 31, tzinfo=UTC), dt.datetime(2029, 1, 1, tzinfo=UTC)
    found = list(changes(zone, start, end))
    second = dt.timedelta(seconds=1)
    for change in found:
        before, after = (change - second).astimezone(zone), change.astimezone(zone)
        assert (before.utcoffset(), before.dst()) != (after.utcoffset(), after.dst())
    hours = int((end - start) / dt.timedelta(hours=1))
    seen = {(start + dt.timedelta(hours=hour)).astimezone(zone).utcoffset() for hour in range(hours)}
    assert len(seen) <= len(found) + 1
    assert bool(found) == (len(seen) > 1)
