"""The calendar file: what each event says, and how a newer issue brings it up to date."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from hypothesis import given
from icalendar import Calendar, Event
from msgspec.structs import replace
from tests.cycle.sample_cycle import cycles, sample_cycle

from leanmark.cycle.files.calendar import ONE_EVENT, calendar_file
from leanmark.cycle.files.words import BALLISTIC_CAUTION, CAUTIONS
from leanmark.cycle.form import Cycle, Plan
from leanmark.errors import FieldError
from leanmark.moves.report_form import Range

ISSUED = dt.datetime(2026, 12, 1, 9, 30, tzinfo=dt.UTC)
LONGEST_LINE_BYTES = 75  # RFC 5545 section 3.1: without the line break


def events(data: bytes) -> list[Event]:
    return list(Calendar.from_ical(data).walk("VEVENT"))


def by_uid(data: bytes) -> dict[str, Event]:
    found = {str(event["UID"]): event for event in events(data)}
    assert len(found) == len(events(data)), "each UID once"
    return found


def edited(cycle: Cycle, **changes: object) -> Cycle:
    return replace(cycle, revision=cycle.revision + 1, **changes)


def without_first_session(plan: Plan) -> Plan:
    return replace(plan, sessions=plan.sessions[1:])


def test_one_event_for_each_session_of_each_trainee() -> None:
    found = events(calendar_file(sample_cycle(), ISSUED))
    assert len(found) == 8
    first = next(event for event in found if "Tuva" in event["SUMMARY"])
    assert first["SUMMARY"] == "Frühwinter in der Bootshalle, week 1: Tuva Lindvåg"
    assert first["DTSTART"].params["TZID"] == first["DTEND"].params["TZID"] == "Europe/Oslo"
    assert first["DTSTART"].dt.isoformat() == "2027-01-11T18:00:00+01:00"
    # 46.5 minutes expected: to the full minute, upwards
    assert first["DTEND"].dt - first["DTSTART"].dt == dt.timedelta(minutes=47)
    assert (first["SEQUENCE"], first["STATUS"], first["DTSTAMP"].dt) == (0, "CONFIRMED", ISSUED)


def test_the_description_has_lines_marks_and_cautions() -> None:
    first = next(one for one in events(calendar_file(sample_cycle(), ISSUED)) if "Tuva" in one["SUMMARY"])
    said = str(first["DESCRIPTION"])
    assert said.startswith("Week 1 of 2, session 1, about 47 minutes (41 to 54).\n")
    assert (
        "\n1. row, leaning: 3 sets of 8 controlled (2-1-1.5-0), 6 fast (2-0-1-0). Strap short, 123 cm. "
        in said
    )
    assert "Heels at −62 cm from the plumb point, within 3 cm. Load about 36 % (31 to 42)" in said
    assert "Stop each set with 3 reps in reserve. Rest 90 s." in said
    assert "3. single-arm row, feet apart: 2 sets of 8 controlled (3-1-2-0), on each side." in said
    assert "4. front plank, from the elbows: 3 sets of a 40 s hold." in said
    assert all(caution in said for caution in (*CAUTIONS, BALLISTIC_CAUTION))
    # nothing is hung for a push-up from the floor
    assert "strap" not in said.partition("2. push-up")[2].partition("3. ")[0].lower()


def test_marks_in_feet_and_inches() -> None:
    said = str(events(calendar_file(sample_cycle(), ISSUED, units="us"))[0]["DESCRIPTION"])
    assert "Heels at −2 ft 0.5 in from the plumb point" in said
    assert " cm" not in said


def test_a_deload_and_a_spotter_are_said() -> None:
    last = events(calendar_file(sample_cycle(), ISSUED))[-1]
    assert "deload, a planned easier session" in last["DESCRIPTION"]
    assert "Somebody stands by" in last["DESCRIPTION"]
    assert "3 fast (2-0-1-0), 3 ballistic" in last["DESCRIPTION"]
    assert "4 controlled (2-1-1.5-0) on 'quick rise'" in last["DESCRIPTION"]


def test_one_event_for_all_who_start_together() -> None:
    found = events(calendar_file(sample_cycle(), ISSUED, one_event="per session"))
    assert len(found) == 4
    assert found[0]["SUMMARY"].endswith("week 1: Tuva Lindvåg, Jonas Holmvik")
    assert "Jonas Holmvik: row, leaning, 3 sets" in found[0]["DESCRIPTION"]
    assert CAUTIONS[0] in found[0]["DESCRIPTION"]


def test_many_who_train_together_are_counted_and_the_longest_session_counts() -> None:
    cycle = sample_cycle()
    plan = cycle.plans[0]
    plans = tuple(
        replace(
            plan,
            trainee=f"Trainee {at}",
            sessions=(
                replace(
                    plan.sessions[0],
                    uid=f"t{at}",
                    minutes=Range(40.0 + at, 30.0, 60.0),
                ),
            ),
        )
        for at in range(5)
    )
    (event,) = events(calendar_file(replace(cycle, plans=plans), ISSUED, one_event="per session"))
    assert event["SUMMARY"].endswith("Trainee 0, Trainee 1, Trainee 2 and 2 more")
    assert event["DTEND"].dt - event["DTSTART"].dt == dt.timedelta(minutes=44)


def test_a_session_of_no_length_still_ends_after_it_starts() -> None:
    cycle = sample_cycle()
    empty = replace(cycle.plans[0].sessions[0], lines=(), minutes=Range(0.0, 0.0, 0.0))
    cycle = replace(cycle, plans=(replace(cycle.plans[0], sessions=(empty,)),))
    (event,) = events(calendar_file(cycle, ISSUED))
    assert event["DTEND"].dt - event["DTSTART"].dt == dt.timedelta(minutes=1)
    (together,) = events(calendar_file(cycle, ISSUED, one_event="per session"))
    assert together["UID"] != event["UID"]


def test_one_trainees_own_calendar() -> None:
    own = calendar_file(sample_cycle(), ISSUED, trainee="Jonas Holmvik")
    assert len(events(own)) == 4
    assert b"Tuva" not in own
    assert set(by_uid(own)) < set(by_uid(calendar_file(sample_cycle(), ISSUED)))


@pytest.mark.parametrize("one_event", ONE_EVENT)
def test_the_same_cycle_gives_the_same_file(one_event: str) -> None:
    made = [calendar_file(sample_cycle(), ISSUED, one_event=one_event) for _ in range(2)]  # type: ignore[arg-type]
    assert made[0] == made[1]


def test_a_newer_issue_keeps_uids_and_raises_the_sequence() -> None:
    old = sample_cycle()
    first, other = old.plans
    moved = replace(first.sessions[0], starts=first.sessions[0].starts + dt.timedelta(days=1))
    new = edited(old, plans=(replace(first, sessions=(moved, *first.sessions[1:])), other))
    before, after = by_uid(calendar_file(old, ISSUED)), by_uid(calendar_file(new, ISSUED, earlier=old))
    assert set(before) == set(after)
    assert {event["SEQUENCE"] for event in after.values()} == {1}
    changed = [uid for uid in before if before[uid]["DTSTART"].dt != after[uid]["DTSTART"].dt]
    assert len(changed) == 1
    assert after[changed[0]]["DTSTART"].dt.isoformat() == "2027-01-12T18:00:00+01:00"


def test_sessions_that_are_gone_are_cancelled() -> None:
    old = sample_cycle()
    new = edited(old, plans=(without_first_session(old.plans[0]), old.plans[1]))
    found = by_uid(calendar_file(new, ISSUED, earlier=old))
    assert set(found) == set(by_uid(calendar_file(old, ISSUED)))
    (gone,) = [event for event in found.values() if event["STATUS"] == "CANCELLED"]
    assert gone["SEQUENCE"] == 1
    assert gone["DTSTART"].dt.isoformat() == "2027-01-11T18:00:00+01:00"
    assert "Tuva" in gone["SUMMARY"]
    assert len(events(calendar_file(new, ISSUED))) == 7, "without the earlier issue nothing is cancelled"


def test_a_trainee_who_left_has_every_session_cancelled() -> None:
    old = sample_cycle()
    new = edited(old, plans=old.plans[1:])
    statuses = [event["STATUS"] for event in events(calendar_file(new, ISSUED, earlier=old))]
    assert sorted(statuses) == ["CANCELLED"] * 4 + ["CONFIRMED"] * 4


def test_a_group_that_loses_its_first_trainee_gets_another_event() -> None:
    old = sample_cycle()
    new = edited(old, plans=old.plans[1:])
    found = events(calendar_file(new, ISSUED, one_event="per session", earlier=old))
    assert sorted(str(event["STATUS"]) for event in found) == ["CANCELLED"] * 4 + ["CONFIRMED"] * 4


def test_ugly_names_stay_whole() -> None:
    names = [
        "Åsa; Berg, \\n",
        "line\r\nbreak\u2028here\x00",
        "👩\u200d👧 " * 30,
        "BEGIN:VEVENT\nEND:VCALENDAR",
    ]
    cycle = sample_cycle()
    plan = cycle.plans[0]
    plans = tuple(
        replace(plan, trainee=name, sessions=(replace(plan.sessions[0], uid=str(at)),))
        for at, name in enumerate(names)
    )
    data = calendar_file(replace(cycle, plans=plans, name="a,b;c"), ISSUED)
    heads = {str(event["SUMMARY"]) for event in events(data)}
    shown = ["Åsa; Berg, \\n", "line break here", ("👩\u200d👧 " * 30).strip(), "BEGIN:VEVENT END:VCALENDAR"]
    assert heads == {f"a,b;c, week 1: {name}" for name in shown}


@given(cycles())
def test_any_cycle_gives_a_file_of_short_whole_lines(cycle: Cycle) -> None:
    for one_event in ONE_EVENT:
        data = calendar_file(cycle, ISSUED, one_event=one_event)
        lines = data.decode("utf-8").split("\r\n")
        assert lines[0] == "BEGIN:VCALENDAR"
        assert lines[-2:] == ["END:VCALENDAR", ""]
        assert max(len(line.encode()) for line in lines) <= LONGEST_LINE_BYTES
        assert not re.search(r"[\x00-\x08\x0a-\x1f\x7f]", data.decode().replace("\r\n", ""))
        found = by_uid(data)
        starts = [session.starts for plan in cycle.plans for session in plan.sessions]
        assert len(found) == (len(starts) if one_event == "per trainee" else len(set(starts)))
        assert {event["DTSTART"].dt for event in found.values()} == set(starts)
        assert all(event["DTEND"].dt > event["DTSTART"].dt for event in found.values())


def test_no_links_alarms_or_guests() -> None:
    names = {line.partition(":")[0] for line in calendar_file(sample_cycle(), ISSUED).decode().splitlines()}
    assert not names & {"URL", "ATTACH", "ATTENDEE", "ORGANIZER", "LOCATION", "METHOD"}
    assert b"http" not in calendar_file(sample_cycle(), ISSUED)


def test_a_cycle_without_sessions_is_a_calendar_without_events() -> None:
    assert events(calendar_file(replace(sample_cycle(), plans=()), ISSUED)) == []


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"trainee": "Nobody"}, "trainee = 'Nobody' is not allowed .allowed: Tuva Lindvåg, Jonas Holmvik."),
        ({"one_event": "weekly"}, "one_event = 'weekly'"),
        ({"one_event": "per session", "trainee": "Tuva Lindvåg"}, "one_event = 'per session'"),
        ({"earlier": sample_cycle()}, "earlier.revision = 0 is not allowed"),
        ({"earlier": replace(sample_cycle(), uid="other")}, "earlier.uid = 'other' is not allowed"),
    ],
)
def test_wrong_wishes_are_refused(asked: dict[str, object], words: str) -> None:
    with pytest.raises(FieldError, match=words):
        calendar_file(sample_cycle(), ISSUED, **asked)  # type: ignore[arg-type]


def test_a_time_of_issue_without_offset_is_refused() -> None:
    with pytest.raises(FieldError, match="issued"):
        calendar_file(sample_cycle(), dt.datetime(2026, 12, 1))  # noqa: DTZ001 the mistake to be refused
