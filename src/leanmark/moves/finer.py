"""Finer steps between two rungs: floor marks of the easier one whose demand climbs evenly to the harder's."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, log
from typing import Final

import numpy as np

from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.inverse import Interval, Scan, intervals, marks_for, scan
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.moves.demand import demand_of, solved, solved_at
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
    climbs = [climb for sign in (-1.0, 1.0) if (climb := _climb(standing, sign))]
    if not climbs:
        return none("this rung has no other marks")
    best = max(climbs, key=lambda climb: climb.top)
    if best.top < RISE_AT_LEAST * first:
        return none("other marks of this rung hardly ask more strength")
    ratio, steps = _even(best, first, goal)
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
    mark, demands there, the most of them, and what ends the climb."""

    standing: Stand
    sign: float
    found: Scan
    run: Interval
    top: float
    why: str

    def profile(self, distance_m: Floats, who: Ints) -> tuple[Floats, Ints]:
        return _profile(self.standing, self.sign, distance_m)


def _profile(standing: Stand, sign: float, distance_m: Floats) -> tuple[Floats, Ints]:
    """Demand (N,) and reason (N,) so far from the rung's own mark, one way."""
    mark_m = mark_of(standing.move, standing.rung).start_m + sign * distance_m
    demand = demand_of(solved_at(standing, mark_m, np.zeros(len(mark_m), dtype=np.intp)))
    return demand.share, demand.reason


def _climb(standing: Stand, sign: float) -> _Climb | None:
    """How demand climbs from the rung's own mark one way; None where the range does not go there."""
    mark = mark_of(standing.move, standing.rung)
    length_m = mark.start_m - mark.low_m if sign < 0.0 else mark.high_m - mark.start_m
    if length_m < _SHORTEST_M:
        return None

    def profile(distance_m: Floats, who: Ints) -> tuple[Floats, Ints]:
        return _profile(standing, sign, distance_m)

    whole = scan(profile, np.zeros(1), np.array([length_m]), MARKS)
    run = intervals(profile, whole)[0][0]
    barred = run.high_reason != FINE
    end_m = run.high_m - EDGE_M if barred else run.high_m
    if end_m < _SHORTEST_M:
        return None
    part = scan(profile, np.zeros(1), np.array([end_m]), MARKS)
    falls = np.flatnonzero(np.diff(part.load[0]) <= 0.0)
    last = int(falls[0]) + 1 if len(falls) else MARKS
    why = (
        "further on, demand falls again" if len(falls) else REASONS[run.high_reason] or "the marks end there"
    )
    if last < 2:
        return None
    cut = Scan(part.mark_m[:, :last], part.load[:, :last], part.reason[:, :last])
    (kept,) = intervals(profile, cut)[0]
    return _Climb(standing, sign, cut, kept, kept.greatest_load, why)


def _even(climb: _Climb, first: float, goal: float) -> tuple[float, tuple[FinerStep, ...]]:
    """The ratio between steps, and the marks that give them; the last of them stands only where the harder
    rung is not reached."""
    end = min(climb.top, goal)
    count = min(max(ceil(log(end / first) / log(STEP_AT_MOST)), 1), MOST_STEPS)
    ratio = (end / first) ** (1.0 / count)
    wanted = first * ratio ** np.arange(1, count if climb.top >= goal else count + 1)
    answers = marks_for(climb.profile, climb.found, [[climb.run]], np.minimum(wanted, climb.top))[0]
    own_m = mark_of(climb.standing.move, climb.standing.rung).start_m
    return ratio, tuple(
        FinerStep(own_m + climb.sign * found[0].mark_m, found[0].load) for found in answers if found
    )
