"""A made-up person with round segment lengths, posed by a few angles, for drawing tests only."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leanmark.body.segments import PARENT, SEGMENT_COUNT, SEGMENT_INDEX
from leanmark.figures.scene import FloorForce, Kit, Scene, StrapLine, Surface
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.rotation import about

STATURE_M = 1.76
BODY_WEIGHT_N = 720.0
ANCHOR_M = np.array([0.0, 0.0, 2.45])

OFFSET_M = {  # segment origin in its parent's frame
    "lower_trunk": (0.0, 0.0, 0.11),
    "upper_trunk": (0.0, 0.0, 0.17),
    "head": (-0.01, 0.0, 0.27),
    "upper_arm": (0.0, 0.18, 0.21),
    "forearm": (0.0, 0.0, -0.285),
    "hand": (0.0, 0.0, -0.26),
    "thigh": (0.0, 0.085, 0.0),
    "shank": (0.0, 0.0, -0.43),
    "foot": (0.0, 0.0, -0.43),
    "toes": (0.13, 0.0, -0.052),
}
TIP_M = {  # distal end in the segment's own frame, where no segment follows
    "head": (0.01, 0.0, 0.25),
    "hand": (0.0, 0.0, -0.19),
    "toes": (0.065, 0.0, -0.008),
}
RADIUS_M = {
    "pelvis": (0.11, 0.10),
    "lower_trunk": (0.10, 0.10),
    "upper_trunk": (0.11, 0.11),
    "head": (0.06, 0.09),
    "upper_arm": (0.052, 0.040),
    "forearm": (0.042, 0.028),
    "hand": (0.028, 0.015),
    "thigh": (0.082, 0.058),
    "shank": (0.054, 0.036),
    "foot": (0.035, 0.022),
    "toes": (0.02, 0.015),
}


def _part(name: str) -> str:
    return name.removeprefix("left_").removeprefix("right_")


def _mirrored(vector: tuple[float, float, float], name: str) -> Floats:
    return np.array(vector) * (1.0, -1.0 if name.startswith("right_") else 1.0, 1.0)


def turn(flexion: float = 0.0, out: float = 0.0, twist: float = 0.0) -> Floats:
    """A left-side joint's rotation from degrees: forward, away from the middle, about the long axis."""
    return about("y", -np.radians(flexion)) @ about("x", np.radians(out)) @ about("z", np.radians(twist))


def mirror(rotation: Floats) -> Floats:
    """The same joint rotation on the right side."""
    flip = np.diag([1.0, -1.0, 1.0])
    return flip @ rotation @ flip


def posed(
    turns: Mapping[str, Floats],
    root: Floats | None = None,
    fixed: tuple[str, tuple[float, float, float]] = ("left_toes", (0.0, 0.085, 0.0)),
    kit: Kit = "none",
    straps_from: tuple[str, ...] = (),
    strap_force_n: float = 108.0,
    forces: tuple[FloorForce, ...] = (),
    surfaces: tuple[Surface, ...] = (),
    mark: tuple[float, str] | None = None,
    strap_side: str = "",
) -> Scene:
    """Forward kinematics. A turn named without a side holds for both; ``fixed`` puts a segment's origin, or
    with ``.tip`` its end, or with ``.heel`` a heel, at a world point."""
    joint_m = np.zeros((SEGMENT_COUNT, 3))
    rotation = np.tile(np.eye(3), (SEGMENT_COUNT, 1, 1))
    rotation[0] = np.eye(3) if root is None else root
    for name, index in SEGMENT_INDEX.items():
        if index == 0:
            continue
        parent = PARENT[index]
        joint_m[index] = joint_m[parent] + rotation[parent] @ _mirrored(OFFSET_M[_part(name)], name)
        rotation[index] = rotation[parent] @ _turn_of(name, turns)
    tip_m = np.array([_tip(name, joint_m, rotation) for name in SEGMENT_INDEX])
    points = _points(joint_m, rotation)
    shift = _shift(fixed, joint_m, tip_m, points)
    radius_m = np.array([RADIUS_M[_part(name)] for name in SEGMENT_INDEX])
    joint_m, tip_m = joint_m + shift, tip_m + shift
    points = {name: point + shift for name, point in points.items()}
    straps = tuple(_strap(name, joint_m, rotation, strap_force_n, strap_side) for name in straps_from)
    return Scene(
        joint_m=joint_m,
        rotation=rotation,
        tip_m=tip_m,
        radius_m=radius_m,
        point_m=points,
        straps=straps,
        floor_forces=forces,
        surfaces=surfaces,
        body_weight_n=BODY_WEIGHT_N,
        floor_mark_m=None if mark is None else mark[0],
        mark_label="" if mark is None else mark[1],
        stature_m=STATURE_M,
        kit=kit,
    )


def _turn_of(name: str, turns: Mapping[str, Floats]) -> Floats:
    if name in turns:
        return turns[name]
    shared = turns.get(_part(name), np.eye(3))
    return mirror(shared) if name.startswith("right_") else shared


def _tip(name: str, joint_m: Floats, rotation: Floats) -> Floats:
    index = SEGMENT_INDEX[name]
    part = _part(name)
    if part in TIP_M:
        return joint_m[index] + rotation[index] @ _mirrored(TIP_M[part], name)
    follower = {"pelvis": 1, "lower_trunk": 2, "upper_trunk": 3}.get(name, index + 1)
    return joint_m[follower]


def _points(joint_m: Floats, rotation: Floats) -> dict[str, Floats]:
    points = {}
    for side in ("left", "right"):
        foot = SEGMENT_INDEX[f"{side}_foot"]
        points[f"{side}_heel"] = joint_m[foot] + rotation[foot] @ np.array([-0.05, 0.0, -0.07])
    return points


def _shift(
    fixed: tuple[str, tuple[float, float, float]], joint_m: Floats, tip_m: Floats, points: dict[str, Floats]
) -> Floats:
    name, place = fixed
    stem, _, suffix = name.partition(".")
    if suffix == "heel":
        return np.array(place) - points[f"{stem}_heel"]
    source = tip_m if suffix == "tip" else joint_m
    return np.array(place) - source[SEGMENT_INDEX[stem]]


def _strap(name: str, joint_m: Floats, rotation: Floats, force_n: float, side: str) -> StrapLine:
    index = SEGMENT_INDEX[name]
    local = np.array([0.02, 0.0, -0.075]) if _part(name) == "hand" else np.array([0.02, 0.0, -0.06])
    body_m = joint_m[index] + rotation[index] @ local
    own = "left" if name.startswith("left_") else "right"
    return StrapLine(ANCHOR_M, body_m, side or own, force_n, 0.92 * force_n, 1.09 * force_n)
