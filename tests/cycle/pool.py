"""A few bodies on two rigs, each solved once in a test process: squads are drawn from them, and what the
engine answered once is not asked again, so that hundreds of squads cost seconds."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
from typing import Any, Final

import pytest

from leanmark.body.build import Build
from leanmark.cycle import build as builder
from leanmark.cycle.build import Request, plans_for
from leanmark.cycle.form import Pin, Plan
from leanmark.cycle.marks import reaches, solved_marks
from leanmark.cycle.offers import RungOffer, offers
from leanmark.cycle.person import Person
from leanmark.moves.library import load_move, move_names
from leanmark.moves.people import People, people_of
from leanmark.moves.schema import Move, Rung
from leanmark.rig.rig import Rig, standard_rig
from leanmark.squad.squad import Squad, Trainee
from leanmark.squad.wishes import DEFAULT_KIT, CycleWishes, TrainingWishes

BODIES: Final = (
    Build(50.0, 1.55, "female", 19),
    Build(82.5, 1.69, "female", 46),
    Build(79.0, 1.83, "male", 31),
    Build(71.0, 1.74),
)
"""Light and strong for the weight, heavy for the stature, middling, and one whose sex is not stated."""
RIGS: Final = (
    standard_rig(2.45, name="beam"),
    replace(
        standard_rig(2.1, name="tree"),
        strap_mode="slipping loop",
        settings_m={"short": 1.0, "mid-thigh": 1.3, "long": 1.9},
    ),
)
"""The second lacks settings that other moves hang on."""
MONDAY: Final = dt.date(2026, 11, 30)
LOW: Final = 0.02
"""Solver effort that gives a plan, not a good one: rules hold at any effort."""


@cache
def library() -> tuple[Move, ...]:
    return tuple(load_move(name) for name in move_names())


@cache
def offered(body: int = 2, rig: int = 0) -> tuple[RungOffer, ...]:
    """What the library offers one of the bodies on one of the rigs."""
    return tuple(offers(library(), people_of([BODIES[body]]), RIGS[rig])[0])


def cycle_wishes(**changed: Any) -> CycleWishes:  # noqa: ANN401
    plain = CycleWishes("test", MONDAY, weeks=4, days=(0, 2, 4), sessions=3, zone="Europe/Oslo")
    return replace(plain, **changed)


def person(
    wishes: TrainingWishes | None = None,
    cycle: CycleWishes | None = None,
    *,
    body: int = 2,
    rig: int = 0,
    kit: frozenset[str] = DEFAULT_KIT,
    name: str = "Ada",
) -> Person:
    trainee = Trainee(name, BODIES[body], None, wishes or TrainingWishes(level="trained"))
    return Person(trainee, cycle or cycle_wishes(), kit, offered(body, rig))


def squad_of(persons: Sequence[Person], rig: int = 0) -> Squad:
    """A squad that holds the persons."""
    return Squad(
        name="pool",
        units="metric",
        rig=RIGS[rig],
        wanted_load_fractions=(),
        moves=(),
        trainees=tuple(one.trainee for one in persons),
        kit=persons[0].kit,
        cycle=persons[0].cycle,
    )


def plan_of(
    one: Person,
    *,
    rig: int = 0,
    pins: Sequence[Pin] = (),
    before: Plan | None = None,
    effort: float = LOW,
    seed: int = 1,
) -> Plan:
    return plans([one], rig=rig, pins=pins, before=before, effort=effort, seed=seed)[0]


def plans(
    persons: Sequence[Person],
    *,
    rig: int = 0,
    pins: Sequence[Pin] = (),
    before: Plan | None = None,
    effort: float = LOW,
    seed: int = 1,
) -> list[Plan]:
    """Plans, with the engine's answers kept from one call to the next."""
    held = None if before is None else {before.trainee: moves_of(before)}
    request = Request(squad_of(persons, rig), "uid", tuple(pins), held, seed, effort)
    with _engine_kept():
        return plans_for(request, persons)


def moves_of(plan: Plan) -> dict[int, dict[str, int]]:
    """Moves and their sets by session."""
    return {one.number: {line.move: line.sets for line in one.lines} for one in plan.sessions}


_REACHES: Final[dict[tuple[Any, ...], Any]] = {}
_MARKS: Final[dict[tuple[Any, ...], Any]] = {}
_real_reaches: Final = reaches
_real_marks: Final = solved_marks


@contextmanager
def _engine_kept() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(builder, "reaches", _kept_reaches)
        patch.setattr(builder, "solved_marks", _kept_marks)
        yield


def _who(people: People, number: int) -> tuple[float, ...]:
    build = people.builds[number]
    return (build.mass_kg, build.stature_m)


def _kept_reaches(
    rig: Rig, people: People, wanted: Sequence[tuple[int, Move, Rung]]
) -> dict[tuple[int, str, str], Any]:
    def key(one: tuple[int, Move, Rung]) -> tuple[Any, ...]:
        return (rig.name, *_who(people, one[0]), one[1].move, one[2].rung)

    missing = [one for one in wanted if key(one) not in _REACHES]
    found = _real_reaches(rig, people, missing) if missing else {}
    for one in missing:
        _REACHES[key(one)] = found[one[0], one[1].move, one[2].rung]
    return {(one[0], one[1].move, one[2].rung): _REACHES[key(one)] for one in wanted}


def _kept_marks(
    rig: Rig,
    people: People,
    wanted: Mapping[tuple[int, str, str], tuple[Move, Rung, Sequence[float]]],
) -> dict[tuple[int, str, str, float], Any]:
    def key(who: int, move: str, rung: str, mark_m: float) -> tuple[Any, ...]:
        return (rig.name, *_who(people, who), move, rung, mark_m)

    asked = {
        place: (move, rung, [mark_m for mark_m in marks if key(*place, mark_m) not in _MARKS])
        for place, (move, rung, marks) in wanted.items()
    }
    missing = {place: row for place, row in asked.items() if row[2]}
    found: Mapping[tuple[int, str, str, float], Any] = _real_marks(rig, people, missing) if missing else {}
    for (who, move, rung, mark_m), answer in found.items():
        _MARKS[key(who, move, rung, mark_m)] = answer
    return {
        (*place, mark_m): _MARKS[key(*place, mark_m)]
        for place, (_, _, marks) in wanted.items()
        for mark_m in marks
    }
