"""Anatomical angles: the standard's sequences, what each angle does in words, round trips."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from tests.mechanics.scenes import MIRROR

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import (
    ANGLES,
    angle_names,
    angles_from_rotation,
    joint_rotations,
    kind_of,
    rotation_from_angles,
    rotations_of,
    values_of,
)
from leanmark.mechanics.arrays import Floats

ROUNDING = 1e-13  # a few hundred roundings of 2.2e-16 on entries of at most 1
# columns: the standard's axes x forward, y up, z to the right, in ours
ISB = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, -1.0], [0.0, 1.0, 0.0]])

# Right side. Wu et al. 2002, J Biomech 35:543 (hip, ankle, spine; knee after Grood and Suntay 1983) and Wu et
# al. 2005, J Biomech 38:981 (shoulder, elbow, wrist), from memory: axes of the rotation sequence, and our
# angles with the sign that the standard counts them by.
STANDARD = [
    ("right_hip", "ZXY", [("flexion", 1), ("abduction", -1), ("internal_rotation", 1)]),
    ("right_ankle", "ZXY", [("dorsiflexion", 1), ("inversion", 1), ("internal_rotation", 1)]),
    ("lumbar", "ZXY", [("flexion", -1), ("side_bend_right", 1), ("rotation_left", 1)]),
    ("thoracic", "ZXY", [("flexion", -1), ("side_bend_right", 1), ("rotation_left", 1)]),
    ("neck", "ZXY", [("flexion", -1), ("side_bend_right", 1), ("rotation_left", 1)]),
]


def in_our_axes(rotation: Rotation) -> Floats:
    """A rotation written in the standard's axes, in ours."""
    matrix: Floats = ISB @ rotation.as_matrix() @ ISB.T
    return matrix


@pytest.mark.parametrize(("joint", "sequence", "angles"), STANDARD, ids=[row[0] for row in STANDARD])
@given(values=st.tuples(*[st.floats(-1.2, 1.2)] * 3))
def test_isb_sequences(
    joint: str, sequence: str, angles: list[tuple[str, int]], values: tuple[float, ...]
) -> None:
    standard = [sign * value for (_, sign), value in zip(angles, values, strict=True)]
    expected = in_our_axes(Rotation.from_euler(sequence, standard))
    found = rotation_from_angles(joint, {n: v for (n, _), v in zip(angles, values, strict=True)})
    np.testing.assert_allclose(found, expected, rtol=0, atol=ROUNDING)


@given(plane=st.floats(-3.0, 3.0), elevation=st.floats(0.0, 3.1), rotation=st.floats(-3.0, 3.0))
def test_isb_shoulder_is_plane_elevation_and_axial_rotation(
    plane: float, elevation: float, rotation: float
) -> None:
    # Wu et al. 2005, thorax to humerus: Y plane of elevation, X elevation (negative), Y axial rotation;
    # our rotation is counted from the arm swung straight to its place: axial = rotation - plane
    expected = in_our_axes(Rotation.from_euler("YXY", [plane, -elevation, rotation - plane]))
    angles = {"plane": plane, "elevation": elevation, "rotation": rotation}
    found = rotation_from_angles("right_shoulder", angles)
    np.testing.assert_allclose(found, expected, rtol=0, atol=ROUNDING)


FORWARD, BACK, UP, DOWN, LEFT, RIGHT = (
    np.array(v, dtype=float) for v in ((1, 0, 0), (-1, 0, 0), (0, 0, 1), (0, 0, -1), (0, 1, 0), (0, -1, 0))
)
# the joint, its angles [deg], a direction in the moved segment, and where it then points (right side)
IN_WORDS = [
    ("right_shoulder", {"plane": 90, "elevation": 90}, DOWN, FORWARD),
    ("right_shoulder", {"plane": 0, "elevation": 90}, DOWN, RIGHT),
    ("right_shoulder", {"plane": -90, "elevation": 90}, DOWN, BACK),
    ("right_shoulder", {"plane": 90, "elevation": 180}, DOWN, UP),
    ("right_shoulder", {"rotation": 90}, FORWARD, LEFT),
    ("right_shoulder", {"plane": 90, "elevation": 90, "rotation": 0}, FORWARD, UP),
    ("right_elbow", {"flexion": 90}, DOWN, FORWARD),
    ("right_wrist", {"pronation": 90}, FORWARD, LEFT),
    ("right_wrist", {"flexion": 90}, DOWN, FORWARD),
    ("right_wrist", {"radial_deviation": 90}, DOWN, RIGHT),
    ("right_hip", {"flexion": 90}, DOWN, FORWARD),
    ("right_hip", {"abduction": 90}, DOWN, RIGHT),
    ("right_hip", {"internal_rotation": 90}, FORWARD, LEFT),
    ("right_knee", {"flexion": 90}, DOWN, BACK),
    ("right_ankle", {"dorsiflexion": 90}, FORWARD, UP),
    ("right_ankle", {"inversion": 90}, DOWN, LEFT),
    ("right_ankle", {"internal_rotation": 90}, FORWARD, LEFT),
    ("right_toe_joint", {"extension": 90}, FORWARD, UP),
    ("lumbar", {"flexion": 90}, UP, FORWARD),
    ("lumbar", {"side_bend_right": 90}, UP, RIGHT),
    ("lumbar", {"rotation_left": 90}, FORWARD, LEFT),
    ("neck", {"flexion": 90}, UP, FORWARD),
    ("root", {"yaw": 90}, FORWARD, LEFT),
    ("root", {"pitch": 90}, UP, FORWARD),
    ("root", {"roll": 90}, UP, RIGHT),
]


@pytest.mark.parametrize(("joint", "degrees", "local", "world"), IN_WORDS)
def test_each_angle_moves_the_segment_as_its_name_says(
    joint: str, degrees: dict[str, float], local: Floats, world: Floats
) -> None:
    angles = {name: np.radians(value) for name, value in degrees.items()}
    np.testing.assert_allclose(rotation_from_angles(joint, angles) @ local, world, rtol=0, atol=ROUNDING)
    if joint.startswith("right_"):
        left = rotation_from_angles(joint.replace("right_", "left_"), angles)
        np.testing.assert_allclose(left @ (MIRROR @ local), MIRROR @ world, rtol=0, atol=ROUNDING)


def largest(joint: str, name: str) -> float:
    """How far an angle may go in a round trip: the second of three stops short of where it locks."""
    names = angle_names(joint)
    return 1.45 if len(names) == 3 and name == names[1] and kind_of(joint) != "shoulder" else 3.1


@pytest.mark.parametrize("joint", JOINTS)
@given(data=st.data())
def test_angles_to_rotation_and_back(joint: str, data: st.DataObject) -> None:
    angles = {n: data.draw(st.floats(-largest(joint, n), largest(joint, n))) for n in angle_names(joint)}
    if kind_of(joint) == "shoulder":
        angles["elevation"] = data.draw(st.floats(0.05, 3.09))
    back = angles_from_rotation(joint, rotation_from_angles(joint, angles))
    assert list(back) == list(angles)
    for name, value in angles.items():
        # read from a cosine or sine of at least 0.05, so roundings grow by up to 20
        assert back[name] == pytest.approx(value, abs=20 * ROUNDING)


@pytest.mark.parametrize("elevation_deg", [0.0, 1e-7, 90.0, 180.0 - 1e-7, 180.0, 185.0])
@pytest.mark.parametrize("plane_deg", [-120.0, 0.0, 35.0, 90.0])
@pytest.mark.parametrize("side", ["left", "right"])
def test_a_shoulder_read_where_its_plane_is_undefined_still_gives_the_same_rotation(
    side: str, plane_deg: float, elevation_deg: float
) -> None:
    angles = {"plane": plane_deg, "elevation": elevation_deg, "rotation": 25.0}
    rotation = rotation_from_angles(f"{side}_shoulder", {n: np.radians(v) for n, v in angles.items()})
    read = angles_from_rotation(f"{side}_shoulder", rotation)
    # within 1e-6 of hanging or overhead the plane counts as zero, which may turn the arm by that much
    again = rotation_from_angles(f"{side}_shoulder", read)
    np.testing.assert_allclose(again, rotation, rtol=0, atol=3e-6)


def test_rotation_of_a_hanging_arm_is_continuous() -> None:
    elevations = np.array([0.0, 1e-8, 1e-5, 1e-3])
    angles = {"plane": np.full(4, 1.1), "elevation": elevations, "rotation": np.full(4, 0.4)}
    read = angles_from_rotation("right_shoulder", rotation_from_angles("right_shoulder", angles))
    np.testing.assert_allclose(read["rotation"], 0.4, rtol=0, atol=1e-9)


def test_every_joint_has_angles_and_is_turned_by_them() -> None:
    assert {kind_of(joint) for joint in JOINTS} == set(ANGLES)


def test_an_unknown_angle_is_refused_by_name() -> None:
    with pytest.raises(KeyError, match=r"left_knee has no angle \['bend'\].*flexion"):
        rotation_from_angles("left_knee", {"bend": 0.1})


def test_joints_left_out_stay_anatomical_and_arrays_broadcast() -> None:
    flexion = np.array([0.1, 0.2, 0.3])
    rotations = joint_rotations({"left_knee": {"flexion": flexion}, "lumbar": {"flexion": 0.2}})
    assert rotations.shape == (3, 18, 3, 3)
    knee, lumbar = JOINTS.index("left_knee"), JOINTS.index("lumbar")
    for row, angle in enumerate(flexion):
        expected = rotation_from_angles("left_knee", {"flexion": angle})
        np.testing.assert_allclose(rotations[row, knee], expected, rtol=0, atol=ROUNDING)
    others = [k for k in range(18) if k not in (knee, lumbar)]
    np.testing.assert_array_equal(rotations[:, others], np.broadcast_to(np.eye(3), (3, len(others), 3, 3)))


@given(st.integers(0, 2**32 - 1))
def test_all_joints_at_once_are_each_joint_alone(seed: int) -> None:
    rotation = Rotation.random(4 * len(JOINTS), rng=seed).as_matrix().reshape(4, -1, 3, 3)
    values = values_of(rotation)
    for index, joint in enumerate(JOINTS):
        alone = angles_from_rotation(joint, rotation[:, index])
        for slot, value in enumerate(alone.values()):
            np.testing.assert_allclose(values[:, index, slot], value, rtol=0, atol=1e-12)
        turned = rotation_from_angles(joint, alone)
        np.testing.assert_allclose(rotations_of(values)[:, index], turned, rtol=0, atol=1e-12)
