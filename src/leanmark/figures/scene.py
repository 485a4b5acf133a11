"""What a figure shows: one solved position of one person on one rig, in the world's coordinates."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, get_args

import numpy as np

from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Floats

Kit = Literal["handles", "cradles", "single handle", "under the arms", "none"]
KITS: tuple[Kit, ...] = get_args(Kit)


@dataclass(frozen=True)
class StrapLine:
    """One taut strap.

    anchor_m, body_m: (3,) world points [m]: where it hangs and the point of the body that it holds.
    side: ``left``, ``right`` or ``both``. Tension and its interval [N].
    """

    anchor_m: Floats
    body_m: Floats
    side: str
    tension_n: float
    tension_low_n: float
    tension_high_n: float


@dataclass(frozen=True)
class FloorForce:
    """The force [N] of the floor or a box on the body, (3,), at its centre of pressure [m], (3,)."""

    point_m: Floats
    force_n: Floats
    label: str


@dataclass(frozen=True)
class Surface:
    """A box that the body stands, sits or leans on: its extent along the floor and its height [m]."""

    x_low_m: float
    x_high_m: float
    y_low_m: float
    y_high_m: float
    height_m: float
    label: str


@dataclass(frozen=True)
class Scene:
    """One solved position, ready to draw.

    joint_m: (18, 3) segment origins; rotation: (18, 3, 3) segment axes; tip_m: (18, 3) distal ends;
    radius_m: (18, 2) half thickness, proximal and distal; point_m: surface points by name, each (3,).
    All in the world, metres. floor_mark_m: signed place of the named contact along the floor, or None;
    mark_axis: the world axis it runs along, 0 ahead or 1 to the left.
    """

    joint_m: Floats
    rotation: Floats
    tip_m: Floats
    radius_m: Floats
    point_m: Mapping[str, Floats] = field(default_factory=dict)
    straps: tuple[StrapLine, ...] = ()
    floor_forces: tuple[FloorForce, ...] = ()
    surfaces: tuple[Surface, ...] = ()
    body_weight_n: float = 0.0
    floor_mark_m: float | None = None
    mark_axis: int = 0
    mark_label: str = ""
    stature_m: float = 1.75
    kit: Kit = "none"


def mark_point_m(scene: Scene) -> Floats:
    """The floor mark in the world, (3,) [m]; the plumb point where there is none."""
    point = np.zeros(3)
    point[scene.mark_axis] = scene.floor_mark_m or 0.0
    return point


_SHAPES = {
    "joint_m": (SEGMENT_COUNT, 3),
    "rotation": (SEGMENT_COUNT, 3, 3),
    "tip_m": (SEGMENT_COUNT, 3),
    "radius_m": (SEGMENT_COUNT, 2),
}


def check_scene(scene: Scene) -> None:
    """Refuse a scene that cannot be drawn.

    Raises:
        ValueError: an array has the wrong shape, a number is not finite, or the kit is unknown; the
            message names the field.
    """
    for name, shape in _SHAPES.items():
        found = np.shape(getattr(scene, name))
        if found != shape:
            raise ValueError(f"scene.{name} has shape {found}; it must be {shape}")
    if scene.kit not in KITS:
        raise ValueError(f"scene.kit is {scene.kit!r}; it must be one of {', '.join(KITS)}")
    for name, value in _numbers(scene):
        if not np.all(np.isfinite(value)):
            raise ValueError(f"scene.{name} holds a value that is not finite; draw solved positions only")


def _numbers(scene: Scene) -> Iterator[tuple[str, Floats | float | tuple[float, ...]]]:
    for name in (*_SHAPES, "body_weight_n", "stature_m"):
        yield name, getattr(scene, name)
    if scene.floor_mark_m is not None:
        yield "floor_mark_m", scene.floor_mark_m
    for name, point in scene.point_m.items():
        yield f"point_m[{name!r}]", point
    for row, strap in enumerate(scene.straps):
        for name in ("anchor_m", "body_m", "tension_n", "tension_low_n", "tension_high_n"):
            yield f"straps[{row}].{name}", getattr(strap, name)
    for row, force in enumerate(scene.floor_forces):
        yield f"floor_forces[{row}].point_m", force.point_m
        yield f"floor_forces[{row}].force_n", force.force_n
    for row, surface in enumerate(scene.surfaces):
        extent = (surface.x_low_m, surface.x_high_m, surface.y_low_m, surface.y_high_m, surface.height_m)
        yield f"surfaces[{row}]", extent
