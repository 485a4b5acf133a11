"""Random trainees with random wishes, on bodies and rigs of the pool."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cache

from hypothesis import strategies as st
from tests.cycle.pool import MONDAY, RIGS, library, person

from leanmark.cycle.person import Person
from leanmark.dose.goals import GOALS, PATTERNS
from leanmark.dose.levels import LEVELS
from leanmark.dose.waves import WAVE_KINDS
from leanmark.moves.find import joint_words
from leanmark.moves.restrictions import RESTRICTIONS
from leanmark.moves.schema import Stage
from leanmark.squad.wishes import DEFAULT_KIT, CycleWishes, GatePassed, PainNote, TrainingWishes

FAMILIES = sorted(PATTERNS)
_KIT = sorted({*DEFAULT_KIT, "partner"})
BODIES_OF = ((0, 2), (1, 3))
"""The bodies that train on each rig: two each, so that little is solved anew."""
_WEEKS = st.sampled_from((1, 2, 2, 3, 3, 4, 4, 4, 5, 9))
_MINUTES = st.sampled_from((60.0, 45.0, 60.0, 40.0, 30.0, 75.0, 22.5, 120.0, 50.0, 90.0, 35.0, 15.0))
_PLACES = ("left shoulder", "right knee", "low back", "neck", "hip", "left wrist", "elbow", "ankle")


@cache
def gates() -> tuple[GatePassed, ...]:
    """The tests that the library's gates ask for, each just passed."""
    asked = {
        (gate.move or move.move, gate.rung, gate.hold_s, gate.reps, gate.stage): None
        for move in library()
        for rung in move.rungs
        for gate in rung.gates
    }
    return tuple(GatePassed(*one) for one in asked)


@st.composite
def tests_passed(draw: st.DrawFn) -> tuple[GatePassed, ...]:
    """None, some, or all; some a rep or a second short, or at too low a speed."""
    every = gates()
    if draw(st.integers(0, 3)) == 0:
        return every
    picked = draw(st.lists(st.sampled_from(every), max_size=6, unique=True))
    return tuple(_nearly(one, draw(st.integers(0, 5))) for one in picked)


def _nearly(one: GatePassed, slip: int) -> GatePassed:
    slower: Stage = "controlled"
    reps = one.reps - 1 if one.reps and slip == 0 else one.reps
    hold_s = one.hold_s - 1.0 if one.hold_s and slip == 1 else one.hold_s
    return GatePassed(one.move, one.rung, hold_s, reps, slower if slip == 2 else one.stage)


_names = st.deferred(lambda: st.sampled_from([move.move for move in library()]))
_avoid = st.lists(
    st.one_of(
        st.sampled_from(sorted(RESTRICTIONS)),
        st.sampled_from(joint_words()),
        st.sampled_from(FAMILIES),
        _names,
    ),
    max_size=3,
    unique=True,
).map(tuple)
_level = st.sampled_from([None, *LEVELS])


@st.composite
def trainings(draw: st.DrawFn, cycle: CycleWishes) -> TrainingWishes:
    """What is wanted of one trainee."""
    few = st.lists(_names, max_size=2, unique=True).map(tuple)
    days = draw(st.none() | _days)
    return TrainingWishes(
        goal=draw(st.none() | st.sampled_from(sorted(GOALS))),
        emphasis=draw(st.lists(st.sampled_from(FAMILIES), max_size=2, unique=True).map(tuple)),
        level=draw(_level),
        levels=draw(st.dictionaries(st.sampled_from(FAMILIES), st.sampled_from(sorted(LEVELS)), max_size=2)),
        gates=draw(tests_passed()),
        avoid=draw(_avoid),
        pain=tuple(PainNote(place) for place in draw(st.lists(st.sampled_from(_PLACES), max_size=1))),
        likes=draw(few),
        dislikes=draw(few),
        must=draw(few) if draw(st.integers(0, 11)) == 0 else (),
        days=days,
        minutes=draw(st.none() | _MINUTES),
        sessions=draw(st.none() | st.integers(1, len(days or cycle.days))),
        days_off=draw(_days_off),
    )


_days = st.sets(st.integers(0, 6), min_size=1, max_size=6).map(lambda days: tuple(sorted(days)))
_days_off = st.frozensets(st.integers(0, 40).map(lambda day: MONDAY + dt.timedelta(days=day)), max_size=5)


@st.composite
def cycles_wanted(draw: st.DrawFn) -> CycleWishes:
    """Any cycle, some of them over a change of clocks."""
    days = draw(_days)
    starts = draw(
        st.sampled_from((MONDAY, dt.date(2028, 2, 24), dt.date(2027, 3, 22), dt.date(2026, 10, 20)))
    )
    return CycleWishes(
        "drawn",
        starts,
        weeks=draw(_WEEKS),
        days=days,
        sessions=draw(st.integers(1, len(days))),
        zone=draw(st.sampled_from(("Europe/Oslo", "America/New_York", "Australia/Lord_Howe"))),
        minutes=draw(_MINUTES),
        goal=draw(st.sampled_from(sorted(GOALS))),
        wave=draw(st.none() | st.sampled_from(WAVE_KINDS)),
        days_off=draw(_days_off),
    )


@dataclass(frozen=True)
class Drawn:
    """A squad in short: bodies and the rig by their numbers in the pool."""

    rig: int
    cycle: CycleWishes
    kit: frozenset[str]
    trainees: tuple[tuple[int, TrainingWishes], ...]

    def persons(self) -> list[Person]:
        """The squad's trainees with what the library offers them."""
        return [
            person(wishes, self.cycle, body=body, rig=self.rig, kit=self.kit, name=f"trainee {number}")
            for number, (body, wishes) in enumerate(self.trainees)
        ]


@st.composite
def squads(draw: st.DrawFn, most: int = 2) -> Drawn:
    """A squad of up to ``most`` trainees."""
    cycle = draw(cycles_wanted())
    kit = draw(st.sets(st.sampled_from(_KIT)) | st.just(DEFAULT_KIT) | st.just(frozenset(_KIT)))
    count = min(draw(st.sampled_from((1, 1, 1, 2))), most)
    rig = draw(st.integers(0, len(RIGS) - 1))
    bodies = [draw(st.sampled_from(BODIES_OF[rig])) for _ in range(count)]
    return Drawn(
        rig,
        cycle,
        frozenset(kit),
        tuple((body, draw(trainings(cycle))) for body in bodies),
    )
