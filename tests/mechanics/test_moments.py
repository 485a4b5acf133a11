"""Joint moments against lever arms worked by hand and against the change of height of the weights."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import people, posed, wild_poses

from leanmark.body.points import POINT_INDEX, POINT_SEGMENT
from leanmark.body.segments import JOINT_INDEX, JOINTS, PARENT, SEGMENT_COUNT, SEGMENT_INDEX, is_hinge
from leanmark.mechanics.angles import angles_from_rotation, kind_of
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.moments import (
    MOMENT_AXES,
    moment_axes,
    needed_moments,
    push_moments,
    weight_wrenches,
)
from leanmark.mechanics.rotation import rotation_from_vector
from leanmark.mechanics.supports import Pushes

ROUNDING_NM = 1e-10  # sums of eighteen products of up to 1000 N and 2 m, 2.2e-16 each
seeds = st.integers(0, 2**32 - 1)


def weight_moments(pose: Pose) -> Floats:
    """Anatomical joint moments (18, 3) of one pose against gravity, nothing helping."""
    bodies = people()
    placed = place(bodies, pose)
    world, _ = needed_moments(placed, *weight_wrenches(bodies, placed.com_m(bodies)))
    axes = moment_axes(placed, pose.rotation)
    moments: Floats = np.einsum("jik,ji->jk", axes[0], world[0])
    return moments


def lever_sum(*pairs: tuple[str, float]) -> float:
    """Sum of m g d over segments by name at level distances d [m]."""
    mass = people().mass_kg[0]
    return float(sum(mass[SEGMENT_INDEX[name]] * GRAVITY_M_S2 * d for name, d in pairs))


def along(segment: str) -> float:
    """Distance [m] from a segment's joint down to its mass centre."""
    return float(-people().com_m[0, SEGMENT_INDEX[segment], 2])


def length(child: str) -> float:
    """Length [m] of the segment above ``child``."""
    return float(-people().joint_offset_m[0, SEGMENT_INDEX[child], 2])


def straight_arm(side: str) -> float:
    upper, fore = length(f"{side}_forearm"), length(f"{side}_hand")
    return lever_sum(
        (f"{side}_upper_arm", along(f"{side}_upper_arm")),
        (f"{side}_forearm", upper + along(f"{side}_forearm")),
        (f"{side}_hand", upper + fore + along(f"{side}_hand")),
    )


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(("plane", "axis"), [(90.0, "flexion"), (0.0, "abduction")])
def test_an_arm_held_level_takes_sum_of_m_g_d_at_the_shoulder(side: str, plane: float, axis: str) -> None:
    moments = weight_moments(posed({f"{side}_shoulder": {"plane": plane, "elevation": 90.0}}))
    expected = dict.fromkeys(MOMENT_AXES["shoulder"], 0.0) | {axis: straight_arm(side)}
    found = moments[JOINT_INDEX[f"{side}_shoulder"]]
    np.testing.assert_allclose(found, list(expected.values()), rtol=0, atol=ROUNDING_NM)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_forearm_held_level_takes_the_same_at_elbow_and_shoulder(side: str) -> None:
    moments = weight_moments(posed({f"{side}_elbow": {"flexion": 90.0}}))
    forearm, hand = f"{side}_forearm", f"{side}_hand"
    lever = lever_sum((forearm, along(forearm)), (hand, length(hand) + along(hand)))
    for joint in ("elbow", "shoulder"):
        found = moments[JOINT_INDEX[f"{side}_{joint}"]]
        np.testing.assert_allclose(found, [lever, 0.0, 0.0], rtol=0, atol=ROUNDING_NM)
    wrist = moments[JOINT_INDEX[f"{side}_wrist"]]
    # the palm faces up
    np.testing.assert_allclose(wrist, [lever_sum((hand, along(hand))), 0.0, 0.0], rtol=0, atol=ROUNDING_NM)


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(
    ("pronation", "axis", "sign"),
    [(0.0, "flexion", 1.0), (180.0, "flexion", -1.0), (90.0, "radial_deviation", 1.0)],
)
def test_a_level_hand_is_held_up_by_what_its_palm_faces(
    side: str, pronation: float, axis: str, sign: float
) -> None:
    """Palm up, the wrist's flexors hold the hand's weight; palm down, its extensors; thumb up, those that
    tilt the hand towards the thumb."""
    pose = posed({f"{side}_elbow": {"flexion": 90.0}, f"{side}_wrist": {"pronation": pronation}})
    hand = f"{side}_hand"
    expected = dict.fromkeys(MOMENT_AXES["wrist"], 0.0) | {axis: sign * lever_sum((hand, along(hand)))}
    found = weight_moments(pose)[JOINT_INDEX[f"{side}_wrist"]]
    np.testing.assert_allclose(found, list(expected.values()), rtol=0, atol=ROUNDING_NM)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_straight_leg_held_level_ahead_needs_hip_flexion_and_knee_extension(side: str) -> None:
    moments = weight_moments(posed({f"{side}_hip": {"flexion": 90.0}}))
    thigh, shank, foot, toes = (f"{side}_{part}" for part in ("thigh", "shank", "foot", "toes"))
    # the foot stands upright at the leg's end: its own mass centre lies below the ankle, along the leg
    below_foot = -people().com_m[0, SEGMENT_INDEX[foot], 2]
    below_toes = (
        -people().joint_offset_m[0, SEGMENT_INDEX[toes], 2] - people().com_m[0, SEGMENT_INDEX[toes], 2]
    )
    knee_to_ankle, hip_to_knee = length(foot), length(shank)
    beyond_knee = [
        (shank, along(shank)),
        (foot, knee_to_ankle + below_foot),
        (toes, knee_to_ankle + below_toes),
    ]
    knee = lever_sum(*beyond_knee)
    hip = lever_sum((thigh, along(thigh)), *((name, hip_to_knee + d) for name, d in beyond_knee))
    assert moments[JOINT_INDEX[f"{side}_knee"], 0] == pytest.approx(-knee, abs=ROUNDING_NM)
    assert moments[JOINT_INDEX[f"{side}_hip"], 0] == pytest.approx(hip, abs=ROUNDING_NM)


def test_bending_forward_needs_extension_of_the_spine_and_leaning_right_a_bend_to_the_left() -> None:
    forward = weight_moments(posed({"root": {"pitch": 40.0}}))
    right = weight_moments(posed({"root": {"roll": 20.0}}))
    for joint in ("lumbar", "thoracic", "neck"):
        assert forward[JOINT_INDEX[joint], 0] < -1.0
        assert right[JOINT_INDEX[joint], 1] < -0.5


@given(seeds)
def test_moments_are_the_slopes_of_the_weights_height(seed: int) -> None:
    # virtual work: turning everything beyond a joint by a small angle lifts the weights by moment times angle
    pose, bodies = wild_poses(seed, 1), people()
    placed = place(bodies, pose)
    world, force_n = needed_moments(placed, *weight_wrenches(bodies, placed.com_m(bodies)))
    step = 1e-5
    joint = seed % SEGMENT_COUNT
    for axis in range(3):
        energy = []
        for sign in (1.0, -1.0):
            turn = rotation_from_vector(sign * step * np.eye(3)[axis])
            local = np.swapaxes(placed.rotation[0, joint], 0, 1) @ turn @ placed.rotation[0, joint]
            rotation = pose.rotation.copy()
            rotation[0, joint] = pose.rotation[0, joint] @ local
            height = place(bodies, Pose(pose.root_m, rotation)).com_m(bodies)[0, :, 2]
            energy.append(float(bodies.mass_kg[0] @ height) * GRAVITY_M_S2)
        slope = (energy[0] - energy[1]) / (2.0 * step)
        # central difference: third derivative (at most 1500 J) times step^2 / 6, and 1e-13 / step of rounding
        assert world[0, joint, axis] == pytest.approx(slope, abs=1e-5)
    np.testing.assert_allclose(
        force_n[0], [0.0, 0.0, bodies.body_mass_kg[0] * GRAVITY_M_S2], rtol=1e-12, atol=1e-9
    )


@given(seeds)
def test_needed_moments_are_sums_over_what_lies_beyond(seed: int) -> None:
    placed = place(people(), wild_poses(seed, 1))
    draw = np.random.default_rng(seed)
    force, moment = draw.normal(size=(2, 1, SEGMENT_COUNT, 3)) * 100.0
    found, total = needed_moments(placed, force, moment)
    for joint in range(SEGMENT_COUNT):
        expected = np.zeros(3)
        for segment in range(SEGMENT_COUNT):
            up = segment
            while up not in (joint, -1):
                up = PARENT[up]
            if up == joint:
                expected += moment[0, segment] - np.cross(placed.joint_m[0, joint], force[0, segment])
        np.testing.assert_allclose(found[0, joint], expected, rtol=0, atol=ROUNDING_NM)
    np.testing.assert_allclose(total[0], force[0].sum(axis=0), rtol=0, atol=ROUNDING_NM)


def test_a_push_has_a_moment_about_the_joints_it_lies_beyond_and_no_other() -> None:
    pose, bodies = posed({}), people()
    placed = place(bodies, pose)
    grip = POINT_INDEX["left_grip"]
    at = placed.point_m(bodies, np.array([grip]))
    push = Pushes(at, POINT_SEGMENT[[grip]], np.array([[[1.0, 0.0, 0.0]]]))
    moment = push_moments(placed, push)[0, :, :, 0]
    beyond = {"left_shoulder", "left_elbow", "left_wrist", "thoracic", "lumbar", "root"}
    for index, joint in enumerate(JOINTS):
        lever = at[0, 0] - placed.joint_m[0, index]
        expected = np.cross(lever, [1.0, 0.0, 0.0]) if joint in beyond else np.zeros(3)
        np.testing.assert_allclose(moment[index], expected, rtol=0, atol=ROUNDING_NM)


# what a positive moment drives, and with which sign our angle of the joint counts it
COUNTED_AS = {"eversion": ("inversion", -1.0), "external_rotation": ("internal_rotation", -1.0)}


@pytest.mark.parametrize("joint", [j for j in JOINTS if j != "root" and kind_of(j) != "shoulder"])
def test_a_positive_moment_drives_the_angle_of_its_name(joint: str) -> None:
    bodies, index = people(), JOINT_INDEX[joint]
    pose = posed({})
    axes = moment_axes(place(bodies, pose), pose.rotation)[0, index]
    for column, name in enumerate(MOMENT_AXES[kind_of(joint)]):
        if is_hinge(joint) and column > 0:
            continue  # a hinge has no such angle: ligament and bone carry that moment
        angle, sign = COUNTED_AS.get(name, (name, 1.0))
        turned = rotation_from_vector(1e-3 * axes[:, column])
        assert angles_from_rotation(joint, turned)[angle] == pytest.approx(sign * 1e-3, abs=1e-9)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_positive_shoulder_moment_raises_the_arm_forward_and_sideways_and_turns_it_in(side: str) -> None:
    bodies, index = people(), JOINT_INDEX[f"{side}_shoulder"]
    pose, out = posed({}), 1.0 if side == "left" else -1.0
    axes = moment_axes(place(bodies, pose), pose.rotation)[0, index]
    down, palm = np.array([0.0, 0.0, -1.0]), np.array([1.0, 0.0, 0.0])
    for column, local, towards in ((0, down, [1, 0, 0]), (1, down, [0, out, 0]), (2, palm, [0, -out, 0])):
        moved = rotation_from_vector(1e-3 * axes[:, column]) @ local - local
        np.testing.assert_allclose(moved, 1e-3 * np.array(towards), rtol=0, atol=1e-6)


@given(seeds)
def test_moment_axes_are_square_to_each_other(seed: int) -> None:
    pose = wild_poses(seed, 1)
    axes = moment_axes(place(people(), pose), pose.rotation)[0]
    np.testing.assert_allclose(
        np.swapaxes(axes, 1, 2) @ axes, np.broadcast_to(np.eye(3), (18, 3, 3)), atol=1e-12
    )
