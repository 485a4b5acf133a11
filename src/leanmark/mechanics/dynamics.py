"""Loads of a moving rep: inverse dynamics along the path under a tempo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.mechanics.arrays import Bools, Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rep import MinimumJerk, PathMotion, moving_needs, path_motion

REP_NODES: Final = 13
"""Nodes along a rep: halving the spacing moves the forces at them by less than 0.1 % of body weight (tested).
A peak between nodes is read off the highest node, up to 2 % of body weight too low in quick reps (tested)."""


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

    taut: (N,) whether every strap stays taut in both phases; slack_margin: (N,) least strap tension over
    the rep as a share of body weight (negative: how far the strap would have to push).
    """

    concentric: Loads
    eccentric: Loads
    taut: Bools
    slack_margin: Floats


def moving_loads(rep: Rep, tempo: Tempo) -> MovingLoads:
    """Inverse dynamics of N solved reps. The rep must have been solved at Lobatto nodes."""
    motion = rep_motion(rep)
    up = _phase(rep, motion, tempo.concentric_s, forward=True)
    down = _phase(rep, motion, tempo.eccentric_s, forward=False)
    margin = np.minimum(least_tension(rep, up), least_tension(rep, down))
    return MovingLoads(up, down, margin > 0.0, margin)


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


def least_tension(rep: Rep, loads: Loads) -> Floats:
    """Least tension of any strap over each rep [share of body weight]; infinite without straps."""
    if not loads.strap_tension_n.shape[1]:
        return np.full(rep.count, np.inf)
    share = loads.strap_tension_n.min(axis=1) / loads.body_weight_n
    least: Floats = share.reshape(rep.count, -1).min(axis=1)
    return least
