"""How large a picture is and where in it the world's metres lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.figures.body import body_outline_m
from leanmark.figures.project import Frame, View, project
from leanmark.figures.scene import Scene, Surface, mark_point_m
from leanmark.mechanics.arrays import Floats

WEIGHT_ARROW_M: Final = 0.5  # drawn length of a force as large as body weight [m], own figure
BEAM_M: Final = (0.26, 0.07)  # drawn breadth and height of the piece of beam above an anchor, own figure
BEAM_GAP_M: Final = 0.03  # from the anchor up to the beam, own figure
TALLEST: Final = 1.15  # height over width that an unbounded picture may reach, own figure


@dataclass(frozen=True)
class Margins:
    """Blank pixels round the drawn world; the bottom holds the ruler."""

    side_px: float
    top_px: float
    bottom_px: float


def surface_rect_m(surface: Surface, view: View) -> tuple[Floats, Floats]:
    """Lowest and highest corner of a box as seen in a view, each (2,) [m]."""
    corners = np.array(
        [
            [x, y, z]
            for x in (surface.x_low_m, surface.x_high_m)
            for y in (surface.y_low_m, surface.y_high_m)
            for z in (0.0, surface.height_m)
        ]
    )
    flat = project(corners, view)
    return flat.min(axis=0), flat.max(axis=0)


def force_tips_m(scene: Scene, view: View) -> Floats:
    """Where the arrows of the floor's forces end in a view, (M, 2) [m]; forces start at their points."""
    if not scene.floor_forces or scene.body_weight_n <= 0.0:
        return np.zeros((0, 2))
    start = np.array([project(force.point_m, view) for force in scene.floor_forces])
    force_n = np.array([project(force.force_n, view) for force in scene.floor_forces])
    return start + force_n * (WEIGHT_ARROW_M / scene.body_weight_n)


def extent_m(scenes: Sequence[Scene], view: View, with_forces: bool) -> tuple[Floats, Floats]:
    """Lowest and highest right and up coordinates [m] of all that is drawn to scale, the floor included."""
    points = [np.zeros((1, 2))]
    for scene in scenes:
        points.append(body_outline_m(scene, view))
        points.extend(_rig_points(scene, view))
        if with_forces:
            points.append(force_tips_m(scene, view))
    everything = np.concatenate(points)
    return everything.min(axis=0), everything.max(axis=0)


def _rig_points(scene: Scene, view: View) -> list[Floats]:
    found = []
    for strap in scene.straps:
        half_breadth, top = 0.5 * BEAM_M[0], BEAM_GAP_M + BEAM_M[1]
        found.append(project(strap.anchor_m, view) + np.array([[-half_breadth, top], [half_breadth, top]]))
        found.append(project(strap.body_m, view)[None])
    for surface in scene.surfaces:
        found.append(np.stack(surface_rect_m(surface, view)))
    if scene.floor_mark_m is not None:
        found.append(project(mark_point_m(scene)[None], view))
    return found


def fit(low_m: Floats, high_m: Floats, width_px: float, height_px: float | None, margins: Margins) -> Frame:
    """The largest exact scale at which the extent fits between the margins, centred sideways, floor below.

    Without a height the picture is as tall as its content needs, but at most ``TALLEST`` times its width.

    Raises:
        ValueError: the picture is too small to leave room between its margins.
    """
    across_m, up_m = (float(size) for size in high_m - low_m)
    room_px = width_px - 2.0 * margins.side_px
    limit_px = TALLEST * width_px if height_px is None else height_px
    upright_px = limit_px - margins.top_px - margins.bottom_px
    if room_px <= 0.0 or upright_px <= 0.0:
        raise ValueError(
            f"a picture of {width_px:g} by {limit_px:g} px leaves no room for the figure; make it larger"
        )
    scale = min(room_px / across_m, upright_px / up_m)
    total_px = up_m * scale + margins.top_px + margins.bottom_px if height_px is None else height_px
    left_px = 0.5 * (width_px - across_m * scale) - float(low_m[0]) * scale
    floor_px = total_px - margins.bottom_px + float(low_m[1]) * scale
    return Frame(scale, (left_px, floor_px), width_px, total_px)
