"""Convex solids, each the hull of a few ellipsoids, and their exact outlines in any view.

The outline of a hull is found from its support function: in the direction d, the ellipsoid with centre c and
semi-axes A reaches furthest at c + A w / |w| with w = A'd, and the hull reaches as far as the furthest of its
ellipsoids. So balls, flat rings and ellipsoids are one kind of thing, and a tapered limb is two balls.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from leanmark.figures.project import View, project
from leanmark.mechanics.arrays import Floats


@dataclass(frozen=True)
class Solid:
    """The convex hull of K ellipsoids: centre_m (K, 3) [m]; axes_m (K, 3, 3), its columns semi-axes [m]."""

    centre_m: Floats
    axes_m: Floats


def ellipsoid(centre_m: Floats, rotation: Floats, semi_axes_m: tuple[float, float, float]) -> Solid:
    """One ellipsoid with semi-axes [m] along the columns of ``rotation``; a zero makes it a flat ring."""
    return Solid(np.asarray(centre_m, dtype=float)[None], (rotation * np.array(semi_axes_m))[None])


def ball(centre_m: Floats, radius_m: float) -> Solid:
    """A ball."""
    return ellipsoid(centre_m, np.eye(3), (radius_m, radius_m, radius_m))


def hull(*solids: Solid) -> Solid:
    """The convex hull of some solids."""
    return Solid(
        np.concatenate([solid.centre_m for solid in solids]),
        np.concatenate([solid.axes_m for solid in solids]),
    )


@cache
def directions(count: int) -> Floats:
    """Unit vectors evenly round a circle, anticlockwise from the right, (count, 2)."""
    angle = np.arange(count) * (2.0 * np.pi / count)
    return np.stack([np.cos(angle), np.sin(angle)], axis=-1)


def outline(solid: Solid, view: View, count: int) -> Floats:
    """The solid's outline in a view: (count, 2) picture points [m], anticlockwise."""
    direction = directions(count) @ np.stack([view.right, view.up])
    reach = np.einsum("kab,da->kdb", solid.axes_m, direction)
    length = np.linalg.norm(reach, axis=-1)
    support = solid.centre_m @ direction.T + length
    best = np.argmax(support, axis=0)
    row = np.arange(count)
    unit = reach[best, row] / np.maximum(length[best, row], 1e-12)[:, None]
    point = solid.centre_m[best] + np.einsum("dab,db->da", solid.axes_m[best], unit)
    return project(point, view)
