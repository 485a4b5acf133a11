"""Ballistic reps: push-off, flight and landing on the same spot.

The path is pushed through from rest to take-off with a smooth rise of speed, the body flies as any thrown
body does, and the landing runs the same path back, deep or shallow. Straps are taken to stay taut while the
feet are down and to carry nothing in flight; where that would need a strap to push, the rep is not possible
as asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import GRAVITY_M_S2, Bools, Floats
from leanmark.mechanics.dynamics import loads_under, rep_motion
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep

TAKE_OFF: Final = 0.9
"""Path share at which the feet leave: joints are not quite straight at take-off; own figure."""
SOFT_LANDING: Final = 0.6
"""Path share over which a landing is absorbed; own figure."""


@dataclass(frozen=True)
class BallisticLoads:
    """push_off, landing: loads of N reps at K nodes (rows as in the rep); used: (K,) nodes on the ground in
    each; flight_s, take_off_m_s: (N,); possible: (N,) whether straps stay taut and feet can rise at all."""

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
    speed = np.full(rep.count, np.sqrt(2.0 * GRAVITY_M_S2 * flight_m))
    rise = _rise_at_take_off(rep, motion.com_rate)
    path_speed = speed / np.maximum(rise, 1e-6)
    push_rate, push_gain = _course(rep.nodes / TAKE_OFF, path_speed, TAKE_OFF)
    down = (TAKE_OFF - rep.nodes) / landing_depth
    land_rate, land_gain = _course(1.0 - down, path_speed, landing_depth)
    push = loads_under(rep, motion, push_rate, push_gain)
    land = loads_under(rep, motion, -land_rate, land_gain)
    push_nodes = rep.nodes <= TAKE_OFF
    landing_nodes = push_nodes & (down <= 1.0)
    taut = _taut(rep, push, push_nodes) & _taut(rep, land, landing_nodes)
    return BallisticLoads(
        push, land, push_nodes, landing_nodes, 2.0 * speed / GRAVITY_M_S2, speed, taut & (rise > 1e-3)
    )


def _rise_at_take_off(rep: Rep, com_rate: Floats) -> Floats:
    """Upward travel of the mass centre per path share at take-off, (N,) [m]."""
    mass = rep.bodies.mass_kg.reshape(rep.count, len(rep.nodes), -1)
    upward = (com_rate[..., 2] * mass).sum(axis=-1) / mass.sum(axis=-1)
    return np.array([np.interp(TAKE_OFF, rep.nodes, row) for row in upward])


def _course(share: Floats, speed: Floats, length: float) -> tuple[Floats, Floats]:
    """Rate and acceleration (N, K) of the path where ``share`` of ``length`` is done, from rest to
    ``speed`` (N,): the rate rises as 3 t^2 - 2 t^3 of the time, so the force starts and ends smoothly."""
    time = _time_at(np.clip(share, 0.0, 1.0))
    duration = 2.0 * length / speed
    rate = speed[:, None] * (3.0 - 2.0 * time) * time**2
    return rate, (speed / duration)[:, None] * 6.0 * time * (1.0 - time)


def _time_at(share: Floats) -> Floats:
    """Time share at which 2 t^3 - t^4 reaches ``share``, by bisection."""
    low, high = np.zeros_like(share), np.ones_like(share)
    for _ in range(60):
        middle = 0.5 * (low + high)
        less = 2.0 * middle**3 - middle**4 < share
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return 0.5 * (low + high)


def _taut(rep: Rep, loads: Loads, nodes: Bools) -> Bools:
    """Whether every strap pulls at all the nodes used, (N,)."""
    if not loads.strap_tension_n.shape[1]:
        return np.ones(rep.count, dtype=bool)
    least = loads.strap_tension_n.min(axis=1).reshape(rep.count, -1)[:, nodes]
    taut: Bools = (least > 0.0).all(axis=1)
    return taut
