"""A trainee as the builder sees one: what is open on every ladder, and what each session asks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import log

from leanmark.cycle.bars import Bar, bars
from leanmark.cycle.dates import Day, hours_between, local_start, session_days
from leanmark.cycle.dosing import Ask, Dosed, Rungs, dosed
from leanmark.cycle.offers import RungOffer
from leanmark.dose.goals import Goal, goal, with_emphasis
from leanmark.dose.levels import Level, level
from leanmark.dose.waves import WavePoint, wave
from leanmark.moves.of_rung import tempo_s_of
from leanmark.moves.schema import Stage
from leanmark.squad.squad import Trainee
from leanmark.squad.wishes import CycleWishes

DEFAULT_LEVEL = "new"
"""Where nobody said: the most careful one."""
TIRED_H = 36.0
"""A session that starts sooner after the one before is done tired; own figure, between a day and two."""


@dataclass(frozen=True)
class Place:
    """One session in the calendar, with its point of the load wave. tired: the day after another session."""

    day: Day
    starts: dt.datetime
    point: WavePoint
    tired: bool


@dataclass(frozen=True)
class Person:
    """A trainee with the wishes for the cycle and what the library offers."""

    trainee: Trainee
    cycle: CycleWishes
    kit: frozenset[str]
    offers: Sequence[RungOffer]

    @cached_property
    def goal(self) -> Goal:
        """What is trained for, with the trainee's emphasis."""
        wishes = self.trainee.wishes
        return with_emphasis(goal(wishes.goal or self.cycle.goal), wishes.emphasis)

    @cached_property
    def minutes(self) -> float:
        """How long a session may take."""
        return self.trainee.wishes.minutes or self.cycle.minutes

    def level(self, family: str) -> Level:
        """The trainee's level in a family."""
        wishes = self.trainee.wishes
        return level(wishes.levels.get(family) or wishes.level or DEFAULT_LEVEL)

    @cached_property
    def places(self) -> tuple[Place, ...]:
        """Every session in the calendar."""
        wishes, cycle = self.trainee.wishes, self.cycle
        days = cycle.days if wishes.days is None else wishes.days
        wanted = min(cycle.sessions if wishes.sessions is None else wishes.sessions, len(days))
        picked = session_days(cycle.starts, cycle.weeks, days, wanted, cycle.days_off | wishes.days_off)
        kind = self.goal.wave if cycle.wave is None else cycle.wave
        points = wave(kind, cycle.weeks, max(wanted, 1))  # type: ignore[arg-type]  # read from a checked file
        starts = [local_start(day.date, cycle.time, cycle.zone) for day in picked]
        gaps = [None, *(hours_between(a, b) for a, b in pairwise(starts))][: len(starts)]
        return tuple(
            Place(day, start, points[day.week - 1][day.slot], gap is not None and gap < TIRED_H)
            for day, start, gap in zip(picked, starts, gaps, strict=True)
        )

    @cached_property
    def ladders(self) -> Mapping[str, tuple[RungOffer, ...]]:
        """Rungs that the rig has, by move, easier to harder."""
        found: dict[str, list[RungOffer]] = {}
        for offer in self.offers:
            found.setdefault(offer.move.move, []).append(offer)
        return {move: tuple(rungs) for move, rungs in found.items()}

    @cached_property
    def barred(self) -> Mapping[tuple[str, str], tuple[Bar, ...]]:
        """What bars each rung, by move and rung."""
        return {
            (offer.move.move, offer.rung.rung): bars(offer, self.trainee.wishes, self.kit)
            for offer in self.offers
        }

    def bars_of(self, offer: RungOffer) -> tuple[Bar, ...]:
        """What bars a rung; empty where it is open."""
        return self.barred[offer.move.move, offer.rung.rung]

    def open_rungs(self, move: str) -> tuple[RungOffer, ...]:
        """The rungs of a move that nothing bars."""
        return tuple(offer for offer in self.ladders.get(move, ()) if not self.bars_of(offer))

    def ask(self, family: str, place: Place) -> Ask:
        """What a session wants of a family."""
        return Ask(place.day.number, self.goal, self.level(family), place.point, place.tired)

    @cached_property
    def _picked(self) -> dict[tuple[str, int], tuple[RungOffer, Dosed] | None]:
        """Picks among open rungs that were asked for, by move and session."""
        return {}

    def pick_open(self, move: str, place: Place) -> tuple[RungOffer, Dosed] | None:
        """``pick`` among the open rungs of a move."""
        key = (move, place.day.number)
        if key not in self._picked:
            self._picked[key] = self.pick(self.open_rungs(move), place)
        return self._picked[key]

    def pick(self, rungs: Sequence[RungOffer], place: Place) -> tuple[RungOffer, Dosed] | None:
        """The rung nearest to the wanted demand that can be dosed in a session, with its dose at its own
        mark; None where there is none."""
        found = []
        for number, offer in enumerate(rungs):
            if "controlled" not in offer.stages or not offer.solved:
                continue
            ask = self.ask(offer.move.family, place)
            dose = dosed(speeds(offer, rungs), offer.demand, offer.action, ask)
            if dose is not None:
                found.append((abs(log(max(offer.demand, 1e-3) / ask.wanted)), number, offer, dose))
        if not found:
            return None
        _, _, offer, dose = min(found, key=lambda row: row[:2])
        return offer, dose


def speeds(offer: RungOffer, rungs: Sequence[RungOffer]) -> Rungs:
    """A rung and its quicker forms: its own stages, or the next harder open rung of the same ladder that
    allows the stage and hangs on the same setting, held or repeated alike."""
    own = (offer.rung.rung, tempo_s_of(offer.move, offer.rung))
    by_stage: dict[Stage, tuple[str, tuple[float, float, float, float]]] = dict.fromkeys(offer.stages, own)
    for other in rungs[_number(offer, rungs) + 1 :]:
        if other.setting != offer.setting or other.hold != offer.hold or "controlled" in other.stages:
            continue
        for stage in other.stages:
            by_stage.setdefault(stage, (other.rung.rung, tempo_s_of(other.move, other.rung)))
    return Rungs(offer.move.family, own[0], own[1], offer.hold, by_stage)


def _number(offer: RungOffer, rungs: Sequence[RungOffer]) -> int:
    return next((number for number, one in enumerate(rungs) if one is offer), len(rungs))
