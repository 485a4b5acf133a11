"""Wishes of a squad file that cannot all be meant: each is well written and they clash with one another.

What only the library or the calendar shows is left to ``check.py`` and to the builder.
"""

from __future__ import annotations

import zoneinfo
from functools import cache
from typing import Final

from msgspec import UNSET

from leanmark.squad.cycle_table import FIRST_DAY, LAST_DAY, CycleTable
from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.problems import show
from leanmark.squad.reader import Reader
from leanmark.squad.text import nearest, same_name_key
from leanmark.squad.trainee_table import TraineeTable

_CLASHES: Final = (
    ("must", "avoid"),
    ("must", "dislikes"),
    ("likes", "avoid"),
    ("likes", "dislikes"),
    ("emphasis", "avoid"),
)
"""Lists of a trainee that may not name the same."""


def check_cycle(reader: Reader, cycle: CycleTable) -> None:
    """Report what in the cycle's table cannot be."""
    if cycle.zone not in _zones():
        near = _nearest_zone(cycle.zone)
        remedy = f"write {show(near)}" if near else 'give a name such as "Europe/Oslo"'
        reader.report(("cycle", "zone"), f"zone = {show(cycle.zone)} is not a time zone", remedy)
    if not FIRST_DAY <= cycle.starts <= LAST_DAY:
        problem = f"starts = {show(cycle.starts)} is outside {FIRST_DAY} to {LAST_DAY}"
        reader.report(("cycle", "starts"), problem, "correct the year")
    if cycle.sessions is not UNSET and cycle.sessions > len(cycle.days):
        _report_sessions(reader, ("cycle", "sessions"), cycle.sessions, len(cycle.days))


def check_trainee(reader: Reader, path: ValuePath, trainee: TraineeTable, cycle: CycleTable | None) -> None:
    """Report what of one trainee's wishes cannot be."""
    days = cycle.days if trainee.days is UNSET and cycle else trainee.days
    if trainee.sessions is not UNSET and days is not UNSET and trainee.sessions > len(days):
        _report_sessions(reader, (*path, "sessions"), trainee.sessions, len(days))
    if trainee.goal == "sport emphasis" and not trainee.emphasis:
        problem = 'goal = "sport emphasis" says nothing without emphasis'
        reader.report((*path, "goal"), problem, "list the families to train more, as emphasis")
    for wanted, barred in _CLASHES:
        _check_clash(reader, path, trainee, wanted, barred)
    _check_gates(reader, path, trainee)


def _report_sessions(reader: Reader, path: ValuePath, sessions: int, days: int) -> None:
    problem = f"sessions = {sessions} is more than the {days} {'day' if days == 1 else 'days'} of training"
    reader.report(path, problem, "give more days, or fewer sessions")


def _check_clash(reader: Reader, path: ValuePath, trainee: TraineeTable, wanted: str, barred: str) -> None:
    second = {same_name_key(word): at for at, word in enumerate(_words(trainee, barred))}
    for at, word in enumerate(_words(trainee, wanted)):
        other = second.get(same_name_key(word))
        if other is not None:
            line = reader.line((*path, barred, other))
            problem = f"{field_name((*path, wanted, at))} = {show(word)} is in {barred} too, on line {line}"
            reader.report((*path, wanted, at), problem, "keep one of them")


def _words(trainee: TraineeTable, field: str) -> list[str]:
    words: list[str] = getattr(trainee, field) or []
    return words


def _check_gates(reader: Reader, path: ValuePath, trainee: TraineeTable) -> None:
    for at, gate in enumerate(trainee.gates or []):
        if (gate.hold_s is UNSET) == (gate.reps is UNSET):
            given = "neither hold_s nor reps" if gate.reps is UNSET else "both hold_s and reps"
            where: ValuePath = (*path, "gates", at)
            reader.report(where, f"{field_name(where)} has {given}", "give one of the two")


@cache
def _zones() -> frozenset[str]:
    return frozenset(zoneinfo.available_timezones())


def _nearest_zone(word: str) -> str | None:
    """The zone that was most likely meant: of that city, or of nearly that name."""
    zones = sorted(_zones())
    city = word.casefold().replace(" ", "_").rpartition("/")[2]
    cities = [zone for zone in zones if zone.casefold().rpartition("/")[2] == city]
    return cities[0] if len(cities) == 1 else nearest(word, zones)
