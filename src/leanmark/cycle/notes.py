"""What the coach must know of a plan: wishes that could not be met, pain, gates to test, missing sessions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Final

from leanmark.cycle.choose import Chosen
from leanmark.cycle.clash import Clash
from leanmark.cycle.model import ENOUGH, MINUTES
from leanmark.cycle.muscle_groups import MUSCLE_GROUPS
from leanmark.cycle.person import DEFAULT_LEVEL, Person
from leanmark.dose.rules import value

MOST_GATES: Final = 4
"""Gates to test that are named; own figure."""


def notes_of(person: Person, chosen: Chosen, today: dt.date | None) -> tuple[str, ...]:
    """Everything, the most urgent first."""
    return tuple(
        dict.fromkeys(
            [
                *_pain(person),
                *(words for one in chosen.solved if one.clash for words in clash_words(one.clash, person)),
                *_sessions(person, today),
                *_groups(chosen),
                *_levels(person),
                *_gates(person, chosen.sets),
            ]
        )
    )


def clash_words(clash: Clash, person: Person) -> list[str]:
    """A clash and what is given up, in plain words."""
    minutes = f"{person.minutes:g} minutes a session"
    said = "; ".join(minutes if words == MINUTES else words for words in clash.wishes)
    given_up = "; ".join(minutes if words == MINUTES else words for words in clash.given_up)
    words = [f"these wishes cannot all be met: {said}"] if said else []
    if given_up:
        words.append(f"the nearest plan gives up: {given_up}")
    if clash.minutes_needed and (MINUTES in clash.wishes):
        words.append(f"with about {clash.minutes_needed:.0f} minutes a session the rest could be met")
    if ENOUGH in clash.given_up and not clash.minutes_needed:
        words.append("longer sessions would not help: open more moves")
    return words


def _pain(person: Person) -> Iterator[str]:
    for note in person.trainee.wishes.pain:
        told = f" ({note.note})" if note.note else ""
        yield (
            f"pain in the {note.place}{told}: moves that load the {note.joint} are left out. This is no "
            "diagnosis; a licensed practitioner decides when they are open again, and pain in any move means "
            "stop"
        )


def _sessions(person: Person, today: dt.date | None) -> Iterator[str]:
    wishes, cycle = person.trainee.wishes, person.cycle
    wanted = cycle.sessions if wishes.sessions is None else wishes.sessions
    by_week: Mapping[int, int] = {
        week: sum(1 for place in person.places if place.day.week == week)
        for week in range(1, cycle.weeks + 1)
    }
    short = [str(week) for week, count in by_week.items() if count < wanted]
    if short:
        yield f"fewer than {wanted} sessions in week {', '.join(short)}: too few open days"
    least = value("strengthening days")
    if wanted < least:
        yield f"{wanted} session a week: the World Health Organization 2020 asks for at least {least:g} days"
    past = sum(1 for place in person.places if today and place.day.date < today)
    if past:
        yield f"{past} of {len(person.places)} sessions lie before {today}: they are planned all the same"


def _groups(chosen: Chosen) -> Iterator[str]:
    trained = {group for one in chosen.solved for group in one.planned.block.bands}
    untrained = [group for group in MUSCLE_GROUPS if group not in trained]
    if chosen.solved and untrained:
        yield f"no open move trains: {', '.join(untrained)}"


def _levels(person: Person) -> Iterator[str]:
    if person.trainee.wishes.level is None:
        yield f"no level is given: planned as '{DEFAULT_LEVEL}', the most careful"


def _gates(person: Person, sets: Mapping[int, Mapping[str, int]]) -> Iterator[str]:
    """Gates whose test would open more of the moves that are done."""
    used = {move for here in sets.values() for move in here}
    closed = [
        f"{move}, {offer.rung.rung}: {bars[0].reason}"
        for move in sorted(used)
        for offer in person.ladders[move]
        for bars in (person.bars_of(offer),)
        if len(bars) == 1 and bars[0].kind == "gate"
    ]
    if closed:
        more = f"; and {len(closed) - MOST_GATES} more" if len(closed) > MOST_GATES else ""
        yield f"tests that would open harder rungs: {'; '.join(closed[:MOST_GATES])}{more}"
