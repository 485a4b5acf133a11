"""Finer steps between two rungs: floor marks of the easier one whose demand climbs evenly to the harder's."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, log
from typing import Final

import numpy as np

from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.inverse import Interval, Profile, Scan, intervals, marks_for, scan
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.moves.ladder.demand import demand_of, solved, solved_at
from leanmark.moves.people import People
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import Stand, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig

STEP_AT_MOST: Final = 1.10
"""Largest ratio of demand from one finer step to the next: loads go up by 2 to 10 % at a time (American
College of Sports Medicine 2009, Med Sci Sports Exerc 41(3):687, from its abstract)."""
RISE_AT_LEAST: Final = 1.02
"""Marks whose demand rises less than this are not worth moving for; source as for ``STEP_AT_MOST``."""
MOST_STEPS: Final = 6
"""Finer steps at most; the ratio grows where more would be needed; own figure."""
MARKS: Final = 13
"""Marks looked at on either side of the rung's own; own figure."""
EDGE_M: Final = 0.02
"""Kept clear of a mark beyond which the rung cannot be held, the fineness of a mark on a floor [m]; own
figure."""
_SHORTEST_M: Final = 0.01


@dataclass(frozen=True)
class FinerStep:
    """A floor mark [m] of the easier rung and the demand there, a share of reference strength."""

    mark_m: float
    demand: float


@dataclass(frozen=True)
class FinerSteps:
    """The way from one rung's demand to the next one's: steps in order; ratio, by which demand climbs in
    each; reached, the most that marks of the easier rung give, at most the harder's; why, what ends the way
    before the harder rung, empty where nothing does."""

    easier: str
    harder: str
    from_demand: float
    to_demand: float
    steps: tuple[FinerStep, ...]
    ratio: float
    reached: float
    why: str


def finer_steps(move: Move, easier: Rung, harder: Rung, person: People, rig: Rig) -> FinerSteps:
    """Finer steps between two rungs for one person on a rig.

    Raises FieldError for a strap setting that the rig lacks and for what ``task_of`` cannot read.
    """
    goal = float(demand_of(solved(move, harder, person, rig)).share[0])
    standing = stand(move, easier, rig, person)
    start = demand_of(solved_at(standing, np.array([mark_of(move, easier).start_m]), _NOBODY_ELSE))
    first = float(start.share[0])

    def none(why: str) -> FinerSteps:
        return FinerSteps(easier.rung, harder.rung, first, goal, (), 1.0, first, why)

    if start.reason[0] != FINE:
        return none(REASONS[int(start.reason[0])])
    if goal <= first:
        return none("the harder rung asks no more strength")
    climbs = _climbs(standing)
    if not climbs:
        return none("this rung has no other marks")
    best = max(climbs, key=lambda climb: climb.top)
    if best.top < RISE_AT_LEAST * first:
        return none("other marks of this rung hardly ask more strength")
    ratio, steps = _even(best, mark_of(move, easier).start_m, first, goal)
    return FinerSteps(
        easier.rung,
        harder.rung,
        first,
        goal,
        steps,
        ratio,
        min(best.top, goal),
        "" if best.top >= goal else best.why,
    )


_NOBODY_ELSE: Final = np.zeros(1, dtype=np.intp)


@dataclass(frozen=True)
class _Climb:
    """Marks on one side of the rung's own, over which demand rises all the way: distances from the rung's
    mark and demands there, the most of them, and what ends the climb."""

    profile: Profile
    sign: float
    found: Scan
    run: Interval
    top: float
    why: str


def _climbs(standing: Stand) -> list[_Climb]:
    """How demand climbs from the rung's own mark, on either side on which its range goes on."""
    mark = mark_of(standing.move, standing.rung)
    sides = [(-1.0, mark.start_m - mark.low_m), (1.0, mark.high_m - mark.start_m)]
    sides = [(sign, length_m) for sign, length_m in sides if length_m >= _SHORTEST_M]
    if not sides:
        return []
    signs = np.array([sign for sign, _ in sides])

    def profile(distance_m: Floats, side: Ints) -> tuple[Floats, Ints]:
        mark_m = mark.start_m + signs[side] * distance_m
        demand = demand_of(solved_at(standing, mark_m, np.zeros(len(mark_m), dtype=np.intp)))
        return demand.share, demand.reason

    whole = scan(profile, np.zeros(len(sides)), np.array([length_m for _, length_m in sides]), MARKS)
    runs = [runs[0] for runs in intervals(profile, whole)]
    ends_m = np.array([run.high_m - (EDGE_M if run.high_reason != FINE else 0.0) for run in runs])
    loads, _ = profile(np.maximum(ends_m, 0.0), np.arange(len(sides)))
    found = []
    for side, run in enumerate(runs):
        marks_m = whole.mark_m[side]
        inner = marks_m < ends_m[side] - _SHORTEST_M
        part = np.append(marks_m[inner], ends_m[side]), np.append(whole.load[side][inner], loads[side])
        climb = _rising(*part, run)
        if climb:
            found.append(_Climb(_one_sided(profile, side), sides[side][0], *climb))
    return found


def _one_sided(profile: Profile, side: int) -> Profile:
    return lambda distance_m, who: profile(distance_m, np.full(len(who), side))


def _rising(marks_m: Floats, loads: Floats, run: Interval) -> tuple[Scan, Interval, float, str] | None:
    """The part of a feasible run from the rung's own mark over which demand rises; None where it is less than
    a step."""
    falls = np.flatnonzero(np.diff(loads) <= 0.0)
    last = int(falls[0]) + 1 if len(falls) else len(loads)
    if last < 2 or marks_m[last - 1] < _SHORTEST_M:
        return None
    marks_m, loads = marks_m[:last], loads[:last]
    top = float(loads[-1])
    why = (
        "further on, demand falls again" if len(falls) else REASONS[run.high_reason] or "the marks end there"
    )
    kept = Interval(
        float(marks_m[0]), float(marks_m[-1]), float(loads[0]), top, FINE, FINE, float(loads[0]), top
    )
    fine = np.full((1, last), FINE, dtype=np.intp)
    return Scan(marks_m[None], loads[None], fine), kept, top, why


def _even(climb: _Climb, own_m: float, first: float, goal: float) -> tuple[float, tuple[FinerStep, ...]]:
    """The ratio between steps, and the marks that give them; the last of them stands only where the harder
    rung is not reached."""
    end = min(climb.top, goal)
    count = min(max(ceil(log(end / first) / log(STEP_AT_MOST)), 1), MOST_STEPS)
    ratio = (end / first) ** (1.0 / count)
    wanted = first * ratio ** np.arange(1, count if climb.top >= goal else count + 1)
    answers = marks_for(climb.profile, climb.found, [[climb.run]], np.minimum(wanted, climb.top))[0]
    return ratio, tuple(
        FinerStep(own_m + climb.sign * found[0].mark_m, found[0].load) for found in answers if found
    )
