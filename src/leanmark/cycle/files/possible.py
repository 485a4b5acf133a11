"""What no cycle can hold, whatever its form allows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Final

from leanmark.cycle.files.local_time import zone_of
from leanmark.cycle.form import Cycle, Line, Part, Plan, Session
from leanmark.errors import FieldError

LEAST: Final[dict[type, dict[str, int]]] = {
    Cycle: {"weeks": 1, "revision": 0},
    Session: {"number": 1, "week": 1, "strap_changes": 0},
    Line: {
        "sets": 1,
        **dict.fromkeys("strap_m tolerance_m reps_in_reserve rest_s set_s demand".split(), 0),
        **dict.fromkeys("capacity under_load_s work_j impulse_ns".split(), 0),
    },
    Part: {"reps": 0, "hold_s": 0, "tempo_s": 0},
}
"""The least value of each field that has one, also of each number of a list."""
_REMEDY: Final = "build the cycle anew, or undo the change made by hand"


def check_possible(cycle: Cycle) -> None:
    """Refuse numbers that cannot be, names that stand twice, and times without an offset.

    Raises:
        FieldError: the first that was found; its field says where, as in ``plans entry 1: trainee``.
    """
    zone_of(cycle.zone)
    _check_least("", cycle)
    _once("trainee", [(f"plans entry {at}", plan.trainee) for at, plan in enumerate(cycle.plans, start=1)])
    places = list(_sessions(cycle))
    _once("uid", [(where, session.uid) for where, session in places])
    for where, session in places:
        _check_session(where, session, cycle.weeks)
    for at, plan in enumerate(cycle.plans, start=1):
        _once("number", [(f"plans entry {at}", str(session.number)) for session in plan.sessions])


def _sessions(cycle: Cycle) -> Iterator[tuple[str, Session]]:
    for at, plan in enumerate(cycle.plans, start=1):
        yield from _placed(at, plan)


def _placed(at: int, plan: Plan) -> Iterator[tuple[str, Session]]:
    for number, session in enumerate(plan.sessions, start=1):
        yield f"plans entry {at}, sessions entry {number}", session


def _check_session(where: str, session: Session, weeks: int) -> None:
    _check_least(where, session)
    _at_least(f"{where}: minutes.value", session.minutes.value, 0)
    if session.week > weeks:
        raise FieldError(f"{where}: week", session.week, f"1 to {weeks}, the cycle's weeks", _REMEDY)
    _check_starts(f"{where}: starts", session.starts)
    for at, line in enumerate(session.lines, start=1):
        _check_line(f"{where}, lines entry {at}", line)


def _check_starts(field: str, starts: dt.datetime) -> None:
    offset = starts.utcoffset()
    if offset is None or offset % dt.timedelta(minutes=1):
        allowed = "a time with its offset in minutes, as in 2027-01-11T18:00:00+01:00"
        raise FieldError(field, starts.isoformat(), allowed, "write the offset behind the time")


def _check_line(where: str, line: Line) -> None:
    _check_least(where, line)
    if not line.parts:
        raise FieldError(f"{where}: parts", line.parts, "one part or more", _REMEDY)
    for at, part in enumerate(line.parts, start=1):
        _check_least(f"{where}, parts entry {at}", part)


def _check_least(where: str, struct: Cycle | Session | Line | Part) -> None:
    for name, least in LEAST[type(struct)].items():
        value = getattr(struct, name)
        smallest = min(value) if isinstance(value, tuple) else value
        _at_least(f"{where}: {name}" if where else name, smallest, least)


def _at_least(field: str, value: float, least: int) -> None:
    if not value >= least:
        raise FieldError(field, value, f"{least} or more", _REMEDY)


def _once(field: str, named: list[tuple[str, str]]) -> None:
    first: dict[str, str] = {}
    for where, name in named:
        if name in first:
            allowed = "a name of its own"
            remedy = f"it is also that of {first[name]}: {_REMEDY}"
            raise FieldError(f"{where}: {field}", name, allowed, remedy)
        first[name] = where
