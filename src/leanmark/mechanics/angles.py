"""Anatomical joint angles to rotations and back.

Conventions follow the International Society of Biomechanics (Wu et al. 2002, J Biomech 35:543, hip,
ankle, spine; Wu et al. 2005, J Biomech 38:981, shoulder, elbow, wrist; both from memory), read in our
axes: x_isb = x, y_isb = z, z_isb = -y. Angles are zero in the anatomical position (palms forward) and
mean the same movement on either side. Two are turned for the reader: bending the trunk forward is
positive (the standard counts extension), and shoulder rotation is counted from the arm swung straight to
its place, so that the standard's axial rotation is ``rotation - plane``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.rotation import rotation_from_vector

_Reader = Callable[[Floats], tuple[Floats, ...]]
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

_MIRRORED: Final = np.outer([1.0, -1.0, 1.0], [1.0, -1.0, 1.0])
"""Signs that turn a rotation into its mirror image across the body's middle."""


@cache
def kind_of(joint: str) -> str:
    """The joint without its side."""
    return joint.removeprefix("left_").removeprefix("right_")


def angle_names(joint: str) -> tuple[str, ...]:
    """The anatomical angles of a joint, in the order of its rotation sequence."""
    return tuple(name for name, _, _ in ANGLES[kind_of(joint)])


def _check_names(joint: str, angles: Mapping[str, Floats | float]) -> None:
    unknown = set(angles) - set(angle_names(joint))
    if unknown:
        raise KeyError(f"{joint} has no angle {sorted(unknown)}; it has {angle_names(joint)}")


def rotation_from_angles(joint: str, angles: Mapping[str, Floats | float]) -> Floats:
    """Child-to-parent rotation of a joint from its angles [rad]; missing angles are zero.

    Values may be arrays of one shape (...,); returns (..., 3, 3). Raises KeyError for an angle the joint
    does not have (callers check names first and say so in the reader's words).
    """
    _check_names(joint, angles)
    given = [np.asarray(angles.get(name, 0.0), dtype=float) for name in angle_names(joint)]
    values = np.zeros((*np.broadcast_shapes(*(value.shape for value in given)), 1, 3))
    for slot, value in enumerate(given):
        values[..., 0, slot] = value
    rotation: Floats = _turned(np.array([JOINTS.index(joint)]), values)[..., 0, :, :]
    return rotation


def _sequences() -> tuple[Floats, Floats]:
    """Per joint and place in its sequence: the axis with its sign (18, 3, 3); and the signs (18, 3, 3) that
    mirror the left side's rotations."""
    axes = np.zeros((len(JOINTS), 3, 3))
    mirror = np.ones((len(JOINTS), 3, 3))
    for index, joint in enumerate(JOINTS):
        for slot, (_, axis, sign) in enumerate(ANGLES[kind_of(joint)]):
            axes[index, slot, "xyz".index(axis)] = sign
        if joint.startswith("left_"):
            mirror[index] = _MIRRORED
    return axes, mirror


_AXES, _MIRRORS = _sequences()
_SHOULDERS: Final = np.array([kind_of(joint) == "shoulder" for joint in JOINTS])


def _turned(joints: Ints, values: Floats) -> Floats:
    """Rotations (..., J, 3, 3) of J joints, by number, from their angles (..., J, 3) [rad] in the order of
    their sequences."""
    plane = np.where(_SHOULDERS[joints], values[..., 0], 0.0)
    values = np.stack([values[..., 0], values[..., 1], values[..., 2] - plane], axis=-1)
    turns = rotation_from_vector(values[..., None] * _AXES[joints])
    whole = turns[..., 0, :, :] @ turns[..., 1, :, :] @ turns[..., 2, :, :]
    return whole * _MIRRORS[joints]


def angles_from_rotation(joint: str, rotation: Floats) -> dict[str, Floats]:
    """The anatomical angles [rad] of a joint's rotation, each (...,) for (..., 3, 3)."""
    r = rotation * _MIRRORED if joint.startswith("left_") else rotation
    kind = kind_of(joint)
    if kind == "shoulder":
        return _shoulder(r)
    sequence = ANGLES[kind]
    if len(sequence) == 1:
        name, _, sign = sequence[0]
        return {name: sign * _hinge(r)[0]}
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

    Values may be arrays of one length N; returns (N, 18, 3, 3), N = 1 for plain numbers. Raises KeyError as
    ``rotation_from_angles`` does.
    """
    sizes = [np.size(value) for own in angles.values() for value in own.values()]
    values = np.zeros((max(sizes, default=1), len(JOINTS), 3))
    for joint, own in angles.items():
        names = angle_names(joint)
        _check_names(joint, own)
        for name, value in own.items():
            values[:, JOINTS.index(joint), names.index(name)] = value
    return rotations_of(values)


def rotations_of(values: Floats) -> Floats:
    """Rotations (N, 18, 3, 3) of all joints from their angles (N, 18, 3) [rad], each joint's in the order of
    its sequence; places beyond a shorter sequence do not count."""
    return _turned(_ALL, values)


def values_of(rotation: Floats) -> Floats:
    """The anatomical angles (N, 18, 3) [rad] of all joints' rotations (N, 18, 3, 3), each joint's in the
    order of its sequence; zero beyond a shorter sequence."""
    plain = rotation * _MIRRORS
    values = np.zeros(rotation.shape[:-1])
    for joints, read in _READERS:
        found = read(plain[:, joints])
        for slot, value in enumerate(found):
            values[:, joints, slot] = value
    return values


def _hinge(r: Floats) -> tuple[Floats]:
    return (np.arctan2(r[..., 0, 2], r[..., 0, 0]),)


def _shoulder_values(r: Floats) -> tuple[Floats, ...]:
    return tuple(_shoulder(r).values())


def _signed(read: _Reader, signs: Floats) -> _Reader:
    """The reader with each joint's (J, 3) signs put in."""
    return lambda r: tuple(value * signs[:, slot] for slot, value in enumerate(read(r)))


def _readers() -> tuple[tuple[Ints, _Reader], ...]:
    """Joints of one kind of sequence together, with what reads their angles."""
    groups: dict[str, list[int]] = {}
    for index, joint in enumerate(JOINTS):
        sequence = "".join(axis for _, axis, _ in ANGLES[kind_of(joint)])
        groups.setdefault("shoulder" if _SHOULDERS[index] else sequence, []).append(index)
    reading: dict[str, _Reader] = {"shoulder": _shoulder_values, "y": _hinge, "yxz": _yxz, "zyx": _zyx}
    found = []
    for sequence, members in groups.items():
        joints = np.array(members, dtype=np.intp)
        signs = np.ones((len(members), 3)) if sequence == "shoulder" else _AXES[joints].sum(axis=-1)
        found.append((joints, _signed(reading[sequence], signs)))
    return tuple(found)


_ALL: Final = np.arange(len(JOINTS))
_READERS: Final = _readers()
