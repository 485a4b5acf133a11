"""How sure a load is: where the pressure sits, the segment tables, and errors of tape and strap.

The centre of pressure may be anywhere the contact patches allow, so its part is a range; the others are
independent errors, joined as root of summed squares and laid on both ends of that range.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.task import Geometry


@dataclass(frozen=True)
class Uncertainty:
    """Half-widths of what is not known exactly; that of the mass centre for all, or for each person (N,)."""

    mark_m: float = 0.01  # a heel against tape; own figure
    strap_m: float = 0.02  # strap length under load; own figure
    anchor_m: float = 0.02  # anchor height; own figure
    com_share: float | Floats = 0.01  # whole body, share of stature; spread of definitions, docs/body.md


DEFAULT_UNCERTAINTY: Final = Uncertainty()

Solve = Callable[[Bodies, Geometry], Floats]
"""People and settings, N rows each, to their loads (N, ...)."""


def spread(solve: Solve, bodies: Bodies, geometry: Geometry, unknown: Uncertainty) -> Floats:
    """Half-width (N, ...) of the load from measuring errors and segment tables, to first order.

    Each unknown is moved by its half-width one at a time and the changes are joined as independent. All
    moved settings are solved in one call. ``bodies`` holds N people.
    """
    count = len(geometry)
    moves = np.repeat(np.eye(5)[:, 1:], count, axis=0)
    every = np.tile(np.arange(count), 5)
    base = geometry.take(every)
    moved = replace(
        base,
        mark_m=base.mark_m + unknown.mark_m * moves[:, 0],
        strap_m=base.strap_m + unknown.strap_m * moves[:, 1],
        anchor_m=base.anchor_m + unknown.anchor_m * moves[:, 2, None] * np.array([0.0, 0.0, 1.0]),
    )
    com_share = np.tile(np.broadcast_to(unknown.com_share, count), 5)
    value = solve(raised(bodies.take(every), com_share * moves[:, 3]), moved)
    value = value.reshape(5, count, *value.shape[1:])
    change = np.nan_to_num(value[1:] - value[0])
    half: Floats = np.sqrt((change**2).sum(axis=0))
    return half


def raised(bodies: Bodies, share: Floats | float) -> Bodies:
    """The same people with the standing mass centre higher by a share of stature, by moving the trunk's."""
    trunk = slice(0, 3)
    rise = np.asarray(share) * bodies.stature_m * bodies.body_mass_kg / bodies.mass_kg[:, trunk].sum(axis=1)
    com_m = bodies.com_m.copy()
    com_m[:, trunk, 2] += rise[:, None]
    return replace(bodies, com_m=com_m)
