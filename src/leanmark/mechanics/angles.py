"""Anatomical joint angles to rotations and back.

Conventions follow the International Society of Biomechanics (Wu et al. 2002, J Biomech 35:543, hip,
ankle, spine; Wu et al. 2005, J Biomech 38:981, shoulder, elbow, wrist; both from memory), read in our
axes: x_isb = x, y_isb = z, z_isb = -y. Angles are zero in the anatomical position (palms forward) and
mean the same movement on either side. Two are turned for the reader: bending the trunk forward is
positive (the standard counts extension), and shoulder rotation is counted from the arm swung straight to
its place, so that the standard's axial rotation is ``rotation - plane``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.rotation import about

Sequence3 = tuple[tuple[str, str, float], ...]

ANGLES: Final[dict[str, Sequence3]] = {
    "root": (("yaw", "z", 1.0), ("pitch", "y", 1.0), ("roll", "x", 1.0)),
    "lumbar": (("flexion", "y", 1.0), ("side_bend_right", "x", 1.0), ("rotation_left", "z", 1.0)),
    "thoracic": (("flexion", "y", 1.0), ("side_bend_right", "x", 1.0), ("rotation_left", "z", 1.0)),
    "neck": (("flexion", "y", 1.0), ("side_bend_right", "x", 1.0), ("rotation_left", "z", 1.0)),
    "hip": (("flexion", "y", -1.0), ("abduction", "x", -1.0), ("internal_rotation", "z", 1.0)),
    "knee": (("flexion", "y", 1.0),),
    "ankle": (("dorsiflexion", "y", -1.0), ("inversion", "x", 1.0), ("internal_rotation", "z", 1.0)),
    "toe_joint": (("extension", "y", -1.0),),
    "shoulder": (("plane", "z", 1.0), ("elevation", "x", -1.0), ("rotation", "z", 1.0)),
    "elbow": (("flexion", "y", -1.0),),
    "wrist": (("pronation", "z", 1.0), ("flexion", "y", -1.0), ("radial_deviation", "x", -1.0)),
}
"""Per joint (right side): angle name, the axis it turns about in order, and the sign about that axis."""

_MIRROR: Final = np.diag([1.0, -1.0, 1.0])


def kind_of(joint: str) -> str:
    """The joint without its side."""
    return joint.removeprefix("left_").removeprefix("right_")


def angle_names(joint: str) -> tuple[str, ...]:
    """The anatomical angles of a joint, in the order of its rotation sequence."""
    return tuple(name for name, _, _ in ANGLES[kind_of(joint)])


def rotation_from_angles(joint: str, angles: Mapping[str, Floats | float]) -> Floats:
    """Child-to-parent rotation of a joint from its angles [rad]; missing angles are zero.

    Values may be arrays of one shape (...,); returns (..., 3, 3). Raises KeyError for an angle the joint
    does not have (callers check names first and say so in the reader's words).
    """
    unknown = set(angles) - set(angle_names(joint))
    if unknown:
        raise KeyError(f"{joint} has no angle {sorted(unknown)}; it has {angle_names(joint)}")
    rotation: Floats = np.eye(3)
    for name, axis, sign in ANGLES[kind_of(joint)]:
        value = np.asarray(angles.get(name, 0.0), dtype=float)
        if kind_of(joint) == "shoulder" and name == "rotation":
            value = value - np.asarray(angles.get("plane", 0.0), dtype=float)
        rotation = rotation @ about(axis, sign * value)
    return _MIRROR @ rotation @ _MIRROR if joint.startswith("left_") else rotation


def angles_from_rotation(joint: str, rotation: Floats) -> dict[str, Floats]:
    """The anatomical angles [rad] of a joint's rotation, each (...,) for (..., 3, 3)."""
    r = _MIRROR @ rotation @ _MIRROR if joint.startswith("left_") else rotation
    kind = kind_of(joint)
    if kind == "shoulder":
        return _shoulder(r)
    sequence = ANGLES[kind]
    if len(sequence) == 1:
        name, _, sign = sequence[0]
        return {name: sign * np.arctan2(r[..., 0, 2], r[..., 0, 0])}
    axes = "".join(axis for _, axis, _ in sequence)
    values = _yxz(r) if axes == "yxz" else _zyx(r)
    return {name: sign * value for (name, _, sign), value in zip(sequence, values, strict=True)}


def _yxz(r: Floats) -> tuple[Floats, Floats, Floats]:
    second = np.arcsin(np.clip(-r[..., 1, 2], -1.0, 1.0))
    return np.arctan2(r[..., 0, 2], r[..., 2, 2]), second, np.arctan2(r[..., 1, 0], r[..., 1, 1])


def _zyx(r: Floats) -> tuple[Floats, Floats, Floats]:
    second = np.arcsin(np.clip(-r[..., 2, 0], -1.0, 1.0))
    return np.arctan2(r[..., 1, 0], r[..., 0, 0]), second, np.arctan2(r[..., 2, 1], r[..., 2, 2])


def _shoulder(r: Floats) -> dict[str, Floats]:
    """Plane is meaningless with the arm hanging or straight overhead, and read as zero; rotation stays
    continuous where the arm hangs. Overhead it cannot: only rotation less twice the plane is defined there.
    """
    elevation = np.arccos(np.clip(r[..., 2, 2], -1.0, 1.0))
    plane = np.arctan2(-r[..., 0, 2], r[..., 1, 2])
    axial = np.arctan2(-r[..., 2, 0], -r[..., 2, 1])
    level = np.sin(elevation) < 1e-6
    plane = np.where(level, 0.0, plane)
    axial = np.where(level, np.arctan2(np.sign(r[..., 2, 2]) * r[..., 1, 0], r[..., 0, 0]), axial)
    return {"plane": plane, "elevation": elevation, "rotation": _wrapped(axial + plane)}


def _wrapped(angle: Floats) -> Floats:
    return (angle + np.pi) % (2.0 * np.pi) - np.pi


def joint_rotations(angles: Mapping[str, Mapping[str, Floats | float]]) -> Floats:
    """Rotations of all 18 joints from angles by joint name; joints left out are in the anatomical position.

    Values may be arrays of one length N; returns (N, 18, 3, 3), N = 1 for plain numbers.
    """
    parts = [np.atleast_3d(rotation_from_angles(joint, angles.get(joint, {}))) for joint in JOINTS]
    matrices = [part.reshape(-1, 3, 3) for part in parts]
    count = max(len(matrix) for matrix in matrices)
    return np.stack([np.broadcast_to(matrix, (count, 3, 3)) for matrix in matrices], axis=1)
