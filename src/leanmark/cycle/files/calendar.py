"""A cycle as a calendar file (iCalendar, RFC 5545): one event a session; a newer issue brings it up to date.

An event keeps its UID from one revision of a cycle to the next, and its SEQUENCE is the revision; so
calendars that read a newer issue change the events they have. Given the earlier issue as well, sessions that
are gone are sent as cancelled.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, get_args
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event, Timezone

from leanmark.cycle.files.local_time import zone_of
from leanmark.cycle.files.possible import check_possible
from leanmark.cycle.files.words import cautions, dose_words, line_words, named, plain, session_words
from leanmark.cycle.files.zone_rules import zone_component
from leanmark.cycle.form import Cycle, Session
from leanmark.errors import FieldError
from leanmark.units import UnitSystem

OneEvent = Literal["per trainee", "per session"]
ONE_EVENT: Final[tuple[OneEvent, ...]] = get_args(OneEvent)
PRODUCT: Final = "-//Leanmark//Cycle//EN"
_UIDS: Final = UUID("5f0c9a3e-7d2b-4c61-9e0a-b1d84f6c2a57")
"""Root of the UIDs of all events, drawn once at random."""
_NAMED: Final = 3
"""Own figure: trainees named in an event's heading; the rest are counted."""


@dataclass(frozen=True)
class _Member:
    trainee: str
    session: Session


@dataclass(frozen=True)
class _Meeting:
    """Sessions that are one event: one trainee's, or of all who start at the same time."""

    uid: str
    members: tuple[_Member, ...]

    @property
    def starts(self) -> dt.datetime:
        return self.members[0].session.starts.astimezone(dt.UTC).replace(microsecond=0)

    @property
    def ends(self) -> dt.datetime:
        minutes = max(one.session.minutes.value for one in self.members)
        return self.starts + dt.timedelta(minutes=max(1, math.ceil(minutes)))


def calendar_file(
    cycle: Cycle,
    issued: dt.datetime,
    *,
    one_event: OneEvent = "per trainee",
    trainee: str | None = None,
    earlier: Cycle | None = None,
    units: UnitSystem = "metric",
) -> bytes:
    """The cycle's sessions as a calendar file, UTF-8.

    issued: when the file is made, with its offset (DTSTAMP). one_event: one for each trainee, or one for all
    whose sessions start at the same time. trainee: sessions of this one alone. earlier: the issue that the
    calendars hold already; sessions that it has and the cycle has not become cancelled.

    Raises:
        FieldError: ``issued`` has no offset, there is no such trainee or the events are not one's own,
            ``earlier`` is another cycle or not an earlier revision, or a cycle holds what cannot be (see
            ``check_possible``).
    """
    if issued.utcoffset() is None:
        raise FieldError("issued", issued.isoformat(), "a time with its offset", "give the time in UTC")
    if one_event not in ONE_EVENT:
        raise FieldError("one_event", one_event, " or ".join(ONE_EVENT), "choose one of them")
    if trainee is not None and one_event != "per trainee":
        remedy = "ask for one event per trainee, or for all trainees"
        raise FieldError("one_event", one_event, "'per trainee' for one trainee alone", remedy)
    check_possible(cycle)
    zone = zone_of(cycle.zone)
    held = _meetings(cycle, one_event, trainee)
    gone = _gone(cycle, earlier, held, one_event, trainee)
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    for component in _zones(zone, [*held, *gone]):
        calendar.add_component(component)
    for meeting in held:
        calendar.add_component(_event(cycle, meeting, issued, zone, units))
    for meeting in gone:
        calendar.add_component(_cancelled(cycle, meeting, issued, zone))
    return bytes(calendar.to_ical())


def _meetings(cycle: Cycle, one_event: OneEvent, trainee: str | None) -> list[_Meeting]:
    """The events of a cycle by start. Of a meeting of several, the first one's session gives the UID."""
    known = [plan.trainee for plan in cycle.plans]
    if trainee is not None and trainee not in known:
        raise FieldError("trainee", trainee, ", ".join(known), "give a name as the squad file has it")
    groups: dict[object, list[_Member]] = {}
    for plan in cycle.plans:
        for session in plan.sessions if trainee in (None, plan.trainee) else ():
            key = session.uid if one_event == "per trainee" else session.starts
            groups.setdefault(key, []).append(_Member(plan.trainee, session))
    found = [_Meeting(_uid(cycle, one_event, members[0]), tuple(members)) for members in groups.values()]
    return sorted(found, key=lambda meeting: (meeting.starts, meeting.uid))


def _uid(cycle: Cycle, one_event: OneEvent, first: _Member) -> str:
    return str(uuid5(_UIDS, "\n".join((cycle.uid, one_event, first.session.uid))))


def _gone(
    cycle: Cycle, earlier: Cycle | None, held: list[_Meeting], one_event: OneEvent, trainee: str | None
) -> list[_Meeting]:
    """Events of the earlier issue that there are no more."""
    if earlier is None:
        return []
    if earlier.uid != cycle.uid:
        raise FieldError("earlier.uid", earlier.uid, cycle.uid, "give an earlier issue of the same cycle")
    if earlier.revision >= cycle.revision:
        allowed = f"below {cycle.revision}, the cycle's revision"
        raise FieldError("earlier.revision", earlier.revision, allowed, "give the issue before this one")
    check_possible(earlier)
    kept = {meeting.uid for meeting in held}
    known = {plan.trainee for plan in earlier.plans}
    if trainee is not None and trainee not in known:
        return []
    return [one for one in _meetings(earlier, one_event, trainee) if one.uid not in kept]


def _zones(zone: ZoneInfo, meetings: list[_Meeting]) -> Iterator[Timezone]:
    """The zone's rules, where an event's times are in it."""
    times = [time for one in meetings for time in (one.starts, one.ends)]
    if any(_written(time, zone).tzinfo is zone for time in times):
        yield zone_component(zone, min(times), max(times))


def _written(instant: dt.datetime, zone: ZoneInfo) -> dt.datetime:
    """An instant on the zone's clocks; in UTC where they show that time for the second time, which a local
    time in a calendar file cannot say (RFC 5545 section 3.3.5 takes it for the first)."""
    local = instant.astimezone(zone)
    return instant if local.fold or local.tzname() == "UTC" else local


def _event(cycle: Cycle, meeting: _Meeting, issued: dt.datetime, zone: ZoneInfo, units: UnitSystem) -> Event:
    event = _bare_event(cycle, meeting, issued, zone)
    event.add("status", "CONFIRMED")
    event.add("description", _description(cycle, meeting, units))
    return event


def _cancelled(cycle: Cycle, meeting: _Meeting, issued: dt.datetime, zone: ZoneInfo) -> Event:
    event = _bare_event(cycle, meeting, issued, zone)
    event.add("status", "CANCELLED")
    event.add("description", "Cancelled: the plan has this session no more.")
    return event


def _bare_event(cycle: Cycle, meeting: _Meeting, issued: dt.datetime, zone: ZoneInfo) -> Event:
    event = Event()
    event.add("uid", meeting.uid)
    event.add("sequence", cycle.revision)
    event.add("dtstamp", issued.astimezone(dt.UTC).replace(microsecond=0))
    event.add("dtstart", _written(meeting.starts, zone))
    event.add("dtend", _written(meeting.ends, zone))
    event.add("summary", _summary(cycle, meeting))
    return event


def _summary(cycle: Cycle, meeting: _Meeting) -> str:
    names = [plain(one.trainee) for one in meeting.members]
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    weeks = ", ".join(sorted({str(one.session.week) for one in meeting.members}, key=int))
    return f"{plain(cycle.name) or 'Training'}, week {weeks}: {', '.join(names[:_NAMED])}{more}"


def _description(cycle: Cycle, meeting: _Meeting, units: UnitSystem) -> str:
    """One trainee's lines in full; of several, what each does, since the sheets have the rest."""
    sessions = [one.session for one in meeting.members]
    if len(sessions) == 1:
        said = [session_words(cycle, sessions[0]) + ".", ""]
        said += [f"{at}. {line_words(line, units)}" for at, line in enumerate(sessions[0].lines, start=1)]
    else:
        said = [f"Training together: {len(sessions)}.", ""]
        said += [f"{plain(one.trainee)}: {_in_short(one.session)}." for one in meeting.members]
    return "\n".join([*said, "", *cautions(*sessions)])


def _in_short(session: Session) -> str:
    return "; ".join(f"{named(line)}, {dose_words(line)}" for line in session.lines) or "nothing"
