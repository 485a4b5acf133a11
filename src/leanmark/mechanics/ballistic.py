"""Ballistic reps: push-off, flight and landing on the same spot.

The mass centre is pushed up from rest to its take-off speed along the rep's path. Its speed follows a cubic
in time whose acceleration starts at zero and ends at that of free fall, so that the upward force on the body
rises smoothly from body weight and has gone when the feet leave; the path's own rate follows from the mass
centre's height along it. The body then flies as any thrown body does, and the landing runs a push-off
backwards, deep or shallow. Straps are taken to stay taut while the feet are down and to carry nothing in
flight; where that would need a strap to push or the floor to pull, the rep is not possible as asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import GRAVITY_M_S2, Bools, Floats
from leanmark.mechanics.dynamics import loads_under, rep_motion
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rep import PathMotion, interpolation_weights

TAKE_OFF: Final = 0.9
"""Path share at which the feet leave: joints are not quite straight at take-off; own figure."""
SOFT_LANDING: Final = 0.6
"""Path share over which a landing is absorbed; own figure."""
_LEAST_RISE_M: Final = 1e-3
"""Least rise of the mass centre per path share that counts as pushing it up."""
_FLOOR_PULL: Final = 0.1
"""Share of body weight by which the floor may seem to pull as the feet leave, when the straps carry a little
more than the body still needs; own figure."""


@dataclass(frozen=True)
class BallisticLoads:
    """push_off, landing: loads of N reps at K nodes (rows as in the rep); used: (K,) nodes on the ground in
    each; flight_s, take_off_m_s: (N,); possible: (N,) whether straps stay taut, the floor need not pull and
    the path pushes the mass centre up all the way to take-off."""

    push_off: Loads
    landing: Loads
    push_nodes: Bools
    landing_nodes: Bools
    flight_s: Floats
    take_off_m_s: Floats
    possible: Bools


def ballistic_loads(rep: Rep, flight_m: float, landing_depth: float = SOFT_LANDING) -> BallisticLoads:
    """Loads of N solved reps that end in a flight of the mass centre by ``flight_m`` [m].

    landing_depth: share of the path over which the landing is absorbed. Raises FieldError for a flight that
    is not above 0 and up to 0.8 m, or a landing depth outside 0.1 to 0.9.
    """
    if not 0.0 < flight_m <= 0.8:
        raise FieldError("flight_m", flight_m, "above 0 and up to 0.8", "give the rise of the body in metres")
    if not 0.1 <= landing_depth <= TAKE_OFF:
        raise FieldError(
            "landing_depth", landing_depth, f"0.1 to {TAKE_OFF}", "give a share of the rep's path"
        )
    motion = rep_motion(rep)
    rise = _Rise.of(rep, motion)
    speed = float(np.sqrt(2.0 * GRAVITY_M_S2 * flight_m))
    push = loads_under(rep, motion, *rise.course(0.0, speed))
    rate, gain = rise.course(TAKE_OFF - landing_depth, speed)
    land = loads_under(rep, motion, -rate, gain)
    push_nodes = rep.nodes <= TAKE_OFF
    landing_nodes = push_nodes & (rep.nodes >= TAKE_OFF - landing_depth)
    possible = _bears(rep, push, push_nodes) & _bears(rep, land, landing_nodes) & rise.upward(push_nodes)
    each = np.full(rep.count, speed)
    return BallisticLoads(push, land, push_nodes, landing_nodes, 2.0 * each / GRAVITY_M_S2, each, possible)


@dataclass(frozen=True)
class _Rise:
    """Height of the mass centre at the nodes, and its first and second derivative along the path; (N, K)
    each [m]."""

    nodes: Floats
    height: Floats
    slope: Floats
    bend: Floats

    @classmethod
    def of(cls, rep: Rep, motion: PathMotion) -> _Rise:
        shape = (rep.count, len(rep.nodes), -1)
        mass = rep.bodies.mass_kg.reshape(shape)
        share = mass / mass.sum(axis=-1, keepdims=True)
        height = place(rep.bodies, rep.solution.pose).com_m(rep.bodies)[..., 2].reshape(shape)
        upward = (height, motion.com_rate[..., 2], motion.com_curve[..., 2])
        return cls(rep.nodes, *((part * share).sum(axis=-1) for part in upward))

    def upward(self, used: Bools) -> Bools:
        """Whether the path pushes the mass centre up at all the nodes used, (N,)."""
        up: Bools = np.all(self.slope[:, used] > _LEAST_RISE_M, axis=1)
        return up

    def course(self, low: float, speed: float) -> tuple[Floats, Floats]:
        """Rate and acceleration (N, K) of the path that take the mass centre from rest at path share ``low``
        to ``speed`` [m/s] at take-off."""
        bottom, top = (
            (self.height @ interpolation_weights(self.nodes, place))[:, None] for place in (low, TAKE_OFF)
        )
        travel = np.maximum(top - bottom, _LEAST_RISE_M)
        velocity, acceleration = _push((self.height - bottom) / travel, travel, speed)
        slope = np.maximum(self.slope, _LEAST_RISE_M)
        rate = velocity / slope
        return rate, (acceleration - self.bend * rate**2) / slope


def _push(share: Floats, travel: Floats, speed: float) -> tuple[Floats, Floats]:
    """Velocity and acceleration (N, K) of the mass centre where ``share`` of its ``travel`` (N, 1) is done.

    With t the time's share of the duration T and k = g T / speed, the velocity is
    ``speed ((3 + k) t^2 - (2 + k) t^3)``: at t = 1 it is speed and falls by g. Its travel
    ``speed T (1/2 + k/12)`` gives T.
    """
    duration = 6.0 / GRAVITY_M_S2 * (np.sqrt(speed**2 / 4.0 + GRAVITY_M_S2 * travel / 3.0) - speed / 2.0)
    k = GRAVITY_M_S2 * duration / speed
    reach = speed * duration / travel
    t = _time_at(np.clip(share, 0.0, 1.0), reach * (3.0 + k) / 3.0, reach * (2.0 + k) / 4.0)
    velocity = speed * ((3.0 + k) - (2.0 + k) * t) * t**2
    acceleration = speed / duration * (2.0 * (3.0 + k) - 3.0 * (2.0 + k) * t) * t
    return velocity, acceleration


def _time_at(share: Floats, cubic: Floats, quartic: Floats) -> Floats:
    """Time share at which ``cubic t^3 - quartic t^4`` reaches ``share``, by bisection."""
    low, high = np.zeros_like(share), np.ones_like(share)
    for _ in range(60):
        middle = 0.5 * (low + high)
        less = (cubic - quartic * middle) * middle**3 < share
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return 0.5 * (low + high)


def _bears(rep: Rep, loads: Loads, nodes: Bools) -> Bools:
    """Whether every strap pulls and the floor pushes at all the nodes used, (N,)."""
    tension = loads.strap_tension_n.min(axis=1, initial=np.inf) / loads.body_weight_n
    floor = loads.contact_force_n[..., 2].sum(axis=1) / loads.body_weight_n
    fine = ((tension > 0.0) & (floor > -_FLOOR_PULL)).reshape(rep.count, -1)
    bears: Bools = fine[:, nodes].all(axis=1)
    return bears
