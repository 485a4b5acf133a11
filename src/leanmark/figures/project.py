"""Flat views of the world: which way a viewer looks, and how metres become pixels."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from leanmark.mechanics.arrays import Floats

ViewName = Literal["side", "front", "back"]


@dataclass(frozen=True)
class View:
    """A viewer infinitely far off: the world directions that point right, up and towards the viewer.

    along: the world axis (0 = x, 1 = y) that runs across the picture, for the ruler.
    """

    name: ViewName
    right: Floats
    up: Floats
    toward: Floats
    along: int


def _view(name: ViewName, right: tuple[float, float, float], along: int) -> View:
    up = np.array([0.0, 0.0, 1.0])
    across = np.array(right)
    return View(name, across, up, np.cross(across, up), along)


VIEWS: Final[dict[ViewName, View]] = {
    "side": _view("side", (1.0, 0.0, 0.0), 0),  # from the person's right, facing right
    "front": _view("front", (0.0, 1.0, 0.0), 1),  # as one who stands face to face: their left on the right
    "back": _view("back", (0.0, -1.0, 0.0), 1),
}


def view_by_name(name: str) -> View:
    """The named view.

    Raises:
        ValueError: there is no view of that name.
    """
    for key, view in VIEWS.items():
        if key == name:
            return view
    raise ValueError(f"view is {name!r}; it must be one of {', '.join(VIEWS)}")


def project(point_m: Floats, view: View) -> Floats:
    """World points [m], (..., 3), as right and up coordinates [m] in the picture, (..., 2)."""
    return np.stack([point_m @ view.right, point_m @ view.up], axis=-1)


def depth(point_m: Floats, view: View) -> Floats:
    """How far world points [m], (..., 3), lie towards the viewer [m], (...); larger is nearer."""
    return np.asarray(point_m @ view.toward)


@dataclass(frozen=True)
class Frame:
    """The exact map from the picture's metres to its pixels: one scale for both directions.

    origin_px: (x, y) of the picture point (0, 0); y runs down in pixels.
    """

    px_per_m: float
    origin_px: tuple[float, float]
    width_px: float
    height_px: float

    def to_px(self, flat_m: Floats) -> Floats:
        """Picture coordinates [m], (..., 2), in pixels, (..., 2)."""
        flip = np.array([self.px_per_m, -self.px_per_m])
        return np.asarray(flat_m * flip + np.array(self.origin_px))
