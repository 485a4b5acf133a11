"""Loads of a moving rep: inverse dynamics along the path under a tempo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.mechanics.arrays import GRAVITY_M_S2, Bools, Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.motions import mass_centre
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rep import (
    MinimumJerk,
    PathMotion,
    differentiation_matrix,
    moving_needs,
    path_motion,
    peak_between,
    time_at_course,
)

REP_NODES: Final = 13
"""Nodes along a rep: halving the spacing moves the forces at them by less than 0.1 % of body weight (tested).
The highest node alone reads a peak up to 2 % of body weight too low in quick reps; peaks are therefore taken
from a parabola through it and its neighbours (tested)."""


SMOOTH_SHARE: Final = 5e-3
"""Change of force [share of body weight] from which a path counts as bent; own figure: the library's smooth
reps change by up to half of it, those that meet a joint's range by several times it."""


@dataclass(frozen=True)
class Tempo:
    """Four times in seconds, eccentric-pause-concentric-pause, as the trade writes 3-1-1-0.

    The end of a rung's path is reached by the concentric phase, its start by the eccentric one.
    """

    eccentric_s: float
    low_pause_s: float
    concentric_s: float
    high_pause_s: float

    @property
    def rep_s(self) -> float:
        """The whole rep."""
        return self.eccentric_s + self.low_pause_s + self.concentric_s + self.high_pause_s


@dataclass(frozen=True)
class MovingLoads:
    """Loads of N reps at K nodes in each moving phase; rows as in the rep.

    peak_strap_n: (N,) largest tension of all straps together, between nodes too; taut: (N,) whether every
    strap stays taut in both phases; slack_margin: (N,) least strap tension over
    the rep as a share of body weight (negative: how far the strap would have to push). smooth: (N,) whether
    the path bends nowhere; where a joint meets the end of its range midway it does, and peaks are rough.
    """

    concentric: Loads
    eccentric: Loads
    peak_strap_n: Floats
    taut: Bools
    slack_margin: Floats
    smooth: Bools


def moving_loads(rep: Rep, tempo: Tempo) -> MovingLoads:
    """Inverse dynamics of N solved reps. The rep must have been solved at Lobatto nodes."""
    motion = rep_motion(rep)
    up = _phase(rep, motion, tempo.concentric_s, forward=True)
    down = _phase(rep, motion, tempo.eccentric_s, forward=False)
    phases = ((up, _times(rep, tempo.concentric_s)), (down, _times(rep, tempo.eccentric_s, back=True)))
    peak = np.maximum(*(_peak(rep, loads.strap_tension_n.sum(axis=1), time) for loads, time in phases))
    margin = np.minimum(*(_least_share(rep, loads, time) for loads, time in phases))
    fastest = MinimumJerk(min(tempo.concentric_s, tempo.eccentric_s))
    return MovingLoads(up, down, peak, margin > 0.0, margin, path_is_smooth(rep, fastest))


def path_is_smooth(rep: Rep, course: MinimumJerk) -> Bools:
    """Whether half the nodes already tell the whole body's force to within ``SMOOTH_SHARE``, (N,).

    Every other Lobatto node is a Lobatto node of half as many, so the halved path costs no more poses. Reps
    of an even number of nodes, which have no such half, count as smooth.
    """
    if len(rep.nodes) % 2 == 0:
        return np.ones(rep.count, dtype=bool)
    com_m = mass_centre(rep.bodies, place(rep.bodies, rep.solution.pose)).reshape(rep.count, -1, 3)
    rate, gain = (values[:, None] for values in course.rates(rep.nodes))
    fine, coarse = (
        _acceleration(rep.nodes[::step], com_m[:, ::step], rate[::step], gain[::step]) for step in (1, 2)
    )
    change = np.abs(fine[:, ::2] - coarse).max(axis=(1, 2)) / GRAVITY_M_S2
    smooth: Bools = change < SMOOTH_SHARE
    return smooth


def _acceleration(nodes: Floats, place_m: Floats, rate: Floats, gain: Floats) -> Floats:
    matrix = differentiation_matrix(nodes)
    slope = matrix @ place_m
    acceleration: Floats = (matrix @ slope) * rate**2 + slope * gain
    return acceleration


def _phase(rep: Rep, motion: PathMotion, duration_s: float, forward: bool) -> Loads:
    """Loads of one moving phase; the eccentric phase runs the path backwards."""
    course = MinimumJerk(duration_s)
    if forward:
        rate, acceleration = course.rates(rep.nodes)
    else:
        rate, acceleration = course.rates(1.0 - rep.nodes)
        rate, acceleration = -rate, -acceleration
    return loads_under(rep, motion, rate, acceleration)


def rep_motion(rep: Rep) -> PathMotion:
    """Derivatives along the path of N solved reps."""
    return path_motion(rep.bodies, place(rep.bodies, rep.solution.pose), rep.nodes)


def loads_under(rep: Rep, motion: PathMotion, rate: Floats, acceleration: Floats) -> Loads:
    """Loads of every node when the path parameter has this rate [1/s] and acceleration [1/s^2] there, (K,)
    for all reps or (N, K)."""
    placement = place(rep.bodies, rep.solution.pose)
    return rep.loads(rep.balance(moving_needs(rep.bodies, placement, motion, rate, acceleration)))


def _times(rep: Rep, duration_s: float, *, back: bool = False) -> Floats:
    """When a phase passes each node [s]."""
    return time_at_course(1.0 - rep.nodes if back else rep.nodes) * duration_s


def _peak(rep: Rep, values: Floats, time: Floats) -> Floats:
    """Largest value of each rep (N,), from the values of its nodes (N K,)."""
    return peak_between(values.reshape(rep.count, -1), time)


def _least_share(rep: Rep, loads: Loads, time: Floats) -> Floats:
    """Least tension of any strap over each rep [share of body weight]; infinite without straps."""
    least = np.full(rep.count, np.inf)
    for tension_n in loads.strap_tension_n.T:
        least = np.minimum(least, -_peak(rep, -tension_n / loads.body_weight_n, time))
    return least
