"""The trunk as a chain of rings from the seat to the neck, and the head with its hair and nose."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.scene import Scene
from leanmark.figures.solids import Solid, ball, ellipsoid, hull
from leanmark.mechanics.arrays import Floats


@dataclass(frozen=True)
class Ring:
    """One rounded level of the trunk, sizes as shares of stature.

    segment: the one that carries it; along: its place from the segment's origin (0) to its end (1);
    half_breadth: None for what the hips span; forward: of the line between the joints.
    """

    segment: str
    along: float
    half_breadth: float | None
    half_depth: float
    half_height: float
    forward: float


RINGS: Final[dict[str, Ring]] = {  # own figures, judged by eye on the drawing
    "seat": Ring("pelvis", -0.15, 0.078, 0.047, 0.030, -0.010),
    "hips": Ring("pelvis", 0.35, None, 0.052, 0.042, -0.008),
    "belly": Ring("lower_trunk", 0.15, 0.078, 0.053, 0.045, 0.004),
    "waist": Ring("lower_trunk", 0.65, 0.076, 0.052, 0.045, 0.005),
    "ribs": Ring("upper_trunk", 0.18, 0.084, 0.059, 0.045, 0.004),
    "chest": Ring("upper_trunk", 0.48, 0.091, 0.062, 0.050, 0.004),
    "collar": Ring("upper_trunk", 0.80, 0.062, 0.040, 0.028, -0.001),
    "nape": Ring("upper_trunk", 0.98, 0.030, 0.028, 0.010, 0.002),
}
HULLS: Final[tuple[tuple[str, ...], ...]] = (
    ("seat", "hips", "belly"),
    ("belly", "waist"),
    ("waist", "ribs", "chest"),
    ("ribs", "chest", "collar", "yoke"),
    ("yoke", "nape"),
)
"""Which rings each convex part of the trunk spans; ``yoke`` is the bar between the shoulders."""
SHOULDER_DEPTH: Final = 0.034  # half depth and half height of the yoke, shares of stature, own figures
SHOULDER_HEIGHT: Final = 0.024

HEAD: Final[dict[str, tuple[float, float, float]]] = {  # semi-axes as shares of stature; own figures but the
    "skull": (0.053, 0.043, 0.052),  # whole height of 0.130, Drillis & Contini 1966 from memory
    "jaw": (0.030, 0.034, 0.026),
    "bridge": (0.004, 0.003, 0.004),
    "nose": (0.006, 0.006, 0.005),
    "hair": (0.048, 0.047, 0.049),
}
HEAD_PLACE: Final[dict[str, tuple[float, float]]] = {  # forward and down from the crown, shares of stature,
    "skull": (0.002, 0.052),  # own figures
    "jaw": (0.020, 0.101),
    "bridge": (0.047, 0.060),
    "nose": (0.060, 0.077),
    "hair": (-0.009, 0.044),
}
NECK_RADIUS: Final = 0.031  # share of stature, own figure


def trunk_solids(scene: Scene) -> tuple[Solid, ...]:
    """The trunk from seat to shoulders as a few convex parts that share rings."""
    rings = {name: _ring(scene, ring) for name, ring in RINGS.items()}
    rings["yoke"] = _yoke(scene)
    return tuple(hull(*(rings[name] for name in names)) for names in HULLS)


def _ring(scene: Scene, ring: Ring) -> Solid:
    index = SEGMENT_INDEX[ring.segment]
    turn = scene.rotation[index]
    centre = scene.joint_m[index] + (scene.tip_m[index] - scene.joint_m[index]) * ring.along
    centre = centre + turn[:, 0] * (ring.forward * scene.stature_m)
    half_breadth_m = _hip_half_breadth_m(scene)
    if ring.half_breadth is not None:
        half_breadth_m = ring.half_breadth * scene.stature_m
    size = (ring.half_depth * scene.stature_m, half_breadth_m, ring.half_height * scene.stature_m)
    return ellipsoid(centre, turn, size)


def _hip_half_breadth_m(scene: Scene) -> float:
    left, right = SEGMENT_INDEX["left_thigh"], SEGMENT_INDEX["right_thigh"]
    gap = float(np.linalg.norm(scene.joint_m[left] - scene.joint_m[right]))
    return 0.5 * gap + 0.9 * float(scene.radius_m[left, 0])


def _yoke(scene: Scene) -> Solid:
    """The shoulders: a flattened bar between the two shoulder joints."""
    turn = scene.rotation[SEGMENT_INDEX["upper_trunk"]]
    height = SHOULDER_HEIGHT * scene.stature_m
    size = (SHOULDER_DEPTH * scene.stature_m, 0.35 * height, height)
    ends = [scene.joint_m[SEGMENT_INDEX[f"{side}_upper_arm"]] for side in ("left", "right")]
    return hull(*(ellipsoid(end, turn, size) for end in ends))


def neck_solid(scene: Scene) -> Solid:
    """The neck, from the top of the trunk into the skull."""
    radius = NECK_RADIUS * scene.stature_m
    base = scene.joint_m[SEGMENT_INDEX["head"]]
    base = base - scene.rotation[SEGMENT_INDEX["upper_trunk"]][:, 2] * (0.3 * radius)
    return hull(ball(base, 1.1 * radius), ball(_head_place_m(scene, "skull"), 0.95 * radius))


def _head_place_m(scene: Scene, part: str) -> Floats:
    index = SEGMENT_INDEX["head"]
    ahead, down = HEAD_PLACE[part]
    local = np.array([ahead, 0.0, -down]) * scene.stature_m
    return np.asarray(scene.tip_m[index] + scene.rotation[index] @ local)


def _head_part(scene: Scene, part: str) -> Solid:
    thick, wide, high = (share * scene.stature_m for share in HEAD[part])
    return ellipsoid(_head_place_m(scene, part), scene.rotation[SEGMENT_INDEX["head"]], (thick, wide, high))


def face_solid(scene: Scene) -> Solid:
    """Skull and jaw."""
    return hull(_head_part(scene, "skull"), _head_part(scene, "jaw"))


def nose_solid(scene: Scene) -> Solid:
    """The nose, which tells the way the face looks."""
    return hull(_head_part(scene, "bridge"), _head_part(scene, "nose"))


def hair_solid(scene: Scene) -> Solid:
    """The hair, behind and above the face."""
    return _head_part(scene, "hair")
