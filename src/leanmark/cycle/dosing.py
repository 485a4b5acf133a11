"""How much of a rung: reps by speed stage or a hold, for what the load wave wants of a trainee."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import floor, log
from typing import Final

from leanmark.cycle.block import MOBILITY
from leanmark.cycle.form import Part
from leanmark.cycle.weights import MOST_QUICK
from leanmark.dose.endurance import LEAST_SHARE, hold_limit_s, joint_of_action, share_for_hold
from leanmark.dose.goals import Goal, pattern_of, wanted_share
from leanmark.dose.levels import Level
from leanmark.dose.rep_max import reps_at, share_of_max
from leanmark.dose.rules import bounds, rounded, value
from leanmark.dose.stages import Tempo4, open_stages, split, stage_tempo_s
from leanmark.dose.waves import WavePoint
from leanmark.moves.schema import Stage

FEWER_REPS: Final = 3
MORE_REPS: Final = 5
"""How far reps may leave the goal's range where no floor mark gives the wanted load; own figures."""
FEWEST_REPS: Final = 3
MOST_LIMIT: Final = 30
"""Reps to failure up to which a load can be told from the reps: the default relation's limit."""
TOO_EASY: Final = 0.4
"""A rung that asks less than this share of the wanted load does not train it; own figure."""
STEADY: Final = ("trunk", "calf", "shoulder care", "mobility", "jump")
"""Patterns that are trained however little strength they ask: steadiness, spring or range is the point; own
choice."""
MOBILITY_HOLD_S: Final = 30.0
MOBILITY_REPS: Final = 8
MOBILITY_REST_S: Final = 15.0
MOBILITY_SETS: Final = (1, 2)
"""A stretch held half a minute, or slow reps, with a breath between; common practice, no published source."""
EASY_RESERVE: Final = 6.0
"""Reps in reserve written where a set is nowhere near its end: where the scale of effort begins."""


@dataclass(frozen=True)
class Ask:
    """What one session wants of one family. number: of the session in the cycle; tired: the day after another
    session, which keeps ballistic reps out as a deload does."""

    number: int
    goal: Goal
    level: Level
    point: WavePoint
    tired: bool = False

    @property
    def wanted(self) -> float:
        """Wanted demand, a share of reference strength."""
        return self.level.capacity * wanted_share(self.goal, self.point.height)


@dataclass(frozen=True)
class Dosed:
    """One set. misfit: per cent by which load or reps miss what is wanted; reserve: reps left at its end."""

    parts: tuple[Part, ...]
    reserve: float
    misfit: float


@dataclass(frozen=True)
class Rungs:
    """The rung that is done, and the rungs of the same ladder that are its quicker forms, by stage; its own
    name for stages that it allows itself."""

    family: str
    rung: str
    tempo_s: Tempo4
    hold: bool
    by_stage: Mapping[Stage, tuple[str, Tempo4]]


def dosed(rungs: Rungs, demand: float, action: str, ask: Ask) -> Dosed | None:
    """The dose of a rung that asks ``demand`` of the trainee; None where it is too hard, or too easy to train
    anything."""
    if pattern_of(rungs.family) == MOBILITY:
        return _mobility(rungs, demand, ask)
    if demand < TOO_EASY * ask.wanted and pattern_of(rungs.family) not in STEADY:
        return None
    return _hold(rungs, demand, action, ask) if rungs.hold else _reps(rungs, demand, ask)


def _mobility(rungs: Rungs, demand: float, ask: Ask) -> Dosed | None:
    if demand > ask.level.capacity:
        return None
    part = (
        Part("controlled", rungs.rung, rungs.tempo_s, hold_s=MOBILITY_HOLD_S)
        if rungs.hold
        else Part("controlled", rungs.rung, rungs.tempo_s, reps=MOBILITY_REPS)
    )
    return Dosed((part,), EASY_RESERVE, 0.0)


def _reps(rungs: Rungs, demand: float, ask: Ask) -> Dosed | None:
    share = demand / ask.level.capacity
    if share > float(share_of_max(1)):
        return None
    limit = MOST_LIMIT if share <= float(share_of_max(MOST_LIMIT)) else float(reps_at(share))
    reserve = ask.goal.reserve_at(ask.point.height)
    low, high = sorted(ask.goal.reps)
    fits = floor(limit - reserve + 1e-9)
    if fits < max(low - FEWER_REPS, FEWEST_REPS):
        return None
    steady = pattern_of(rungs.family) in STEADY
    reps = min(fits, high + MORE_REPS) if not steady else min(fits, high)
    stages = open_stages(
        ask.number, ask.goal, ask.level, ask.point.deload or ask.tired, tuple(rungs.by_stage)
    )
    if not stages:
        return None
    parts = tuple(
        Part(stage, name, stage_tempo_s(stage, tempo_s), reps=count)
        for stage, count in split(reps, stages).items()
        for name, tempo_s in (rungs.by_stage[stage],)
    )
    misfit = 0.0 if steady else 100.0 * abs(log(demand / ask.wanted))
    return Dosed(parts, min(limit - reps, EASY_RESERVE), misfit)


def _hold(rungs: Rungs, demand: float, action: str, ask: Ask) -> Dosed | None:
    share = max(demand / ask.level.capacity, LEAST_SHARE)
    if share > 1.0:
        return None
    joint = joint_of_action(action)
    foot, top = bounds("share of hold limit")
    held = foot + ask.point.height * (top - foot)
    possible = held * float(hold_limit_s(share, joint))
    least, most = ask.goal.hold_s
    if possible < least:
        return None
    hold_s = rounded(min(possible, most), "hold rounding")
    wanted = float(share_for_hold(most / held, joint))
    misfit = 100.0 * abs(log(share / wanted)) if possible > most else 0.0
    steady = pattern_of(rungs.family) in STEADY
    part = Part("controlled", rungs.rung, rungs.tempo_s, hold_s=hold_s)
    return Dosed((part,), ask.goal.reserve_at(ask.point.height), misfit / 2.0 if steady else misfit)


def sets_range(family: str, goal: Goal, level: Level) -> tuple[int, int]:
    """Least and most sets of a move in a session."""
    if pattern_of(family) == MOBILITY:
        return MOBILITY_SETS
    least, most = goal.sets
    return least, max(least, min(most, level.most_sets))


def rest_s(family: str, goal: Goal) -> float:
    """Rest after each set."""
    return MOBILITY_REST_S if pattern_of(family) == MOBILITY else float(goal.rest_s)


def most_ballistic_reps() -> int:
    """Of one move in a session."""
    return int(value("ballistic reps")) // MOST_QUICK
