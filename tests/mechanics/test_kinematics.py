"""Forward kinematics against a plain walk down the tree."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import MIRROR, SWAP, mirrored, people, posed, wild_poses

from leanmark.body.points import POINT_INDEX, POINT_SEGMENT
from leanmark.body.segments import JOINTS, PARENT, SEGMENT_COUNT, SEGMENT_INDEX
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import DESCENDS, HINGE_SEGMENTS, LEVELS, Pose, place
from leanmark.mechanics.rotation import rotation_from_vector

ROUNDING_M = 1e-13  # a chain of at most seven turns of lengths below 2 m, 2.2e-16 each
seeds = st.integers(0, 2**32 - 1)
ALL_POINTS = np.arange(len(POINT_SEGMENT))


def walked(pose: Pose, row: int) -> Floats:
    """World transforms (18, 4, 4) of one pose by walking down the tree, one segment after another."""
    bodies = people()
    world = np.tile(np.eye(4), (SEGMENT_COUNT, 1, 1))
    for segment in range(SEGMENT_COUNT):
        local = np.eye(4)
        local[:3, :3] = pose.rotation[row, segment]
        local[:3, 3] = pose.root_m[row] if segment == 0 else bodies.joint_offset_m[0, segment]
        world[segment] = local if segment == 0 else world[PARENT[segment]] @ local
    return world


@given(seeds)
def test_placement_is_a_walk_down_the_tree(seed: int) -> None:
    pose, bodies = wild_poses(seed, 2), people()
    placed = place(bodies, pose)
    for row in range(2):
        world = walked(pose, row)
        np.testing.assert_allclose(placed.joint_m[row], world[:, :3, 3], rtol=0, atol=ROUNDING_M)
        np.testing.assert_allclose(placed.rotation[row], world[:, :3, :3], rtol=0, atol=ROUNDING_M)
        com = np.einsum("sij,sj->si", world[:, :3, :3], bodies.com_m[0]) + world[:, :3, 3]
        np.testing.assert_allclose(placed.com_m(bodies)[row], com, rtol=0, atol=ROUNDING_M)
        own = world[POINT_SEGMENT]
        points = np.einsum("pij,pj->pi", own[:, :3, :3], bodies.point_m[0]) + own[:, :3, 3]
        found = placed.point_m(bodies, ALL_POINTS)[row]
        np.testing.assert_allclose(found, points, rtol=0, atol=ROUNDING_M)


@given(seeds)
def test_moving_the_pelvis_moves_everything_alike(seed: int) -> None:
    pose, bodies = wild_poses(seed, 1), people()
    turn, shift = rotation_from_vector(np.array([0.3, -0.8, 1.1])), np.array([0.5, -2.0, 0.7])
    moved_rotation = pose.rotation.copy()
    moved_rotation[:, 0] = turn @ pose.rotation[:, 0]
    moved = place(bodies, Pose(pose.root_m @ turn.T + shift, moved_rotation))
    before = place(bodies, pose).point_m(bodies, ALL_POINTS)
    found = moved.point_m(bodies, ALL_POINTS)
    np.testing.assert_allclose(found, before @ turn.T + shift, rtol=0, atol=ROUNDING_M)


@given(seeds)
def test_a_mirrored_pose_is_placed_as_the_mirror_image(seed: int) -> None:
    pose, bodies = wild_poses(seed, 1), people()
    here, there = place(bodies, pose), place(bodies, mirrored(pose))
    np.testing.assert_allclose(there.joint_m, here.joint_m[:, SWAP] @ MIRROR, rtol=0, atol=ROUNDING_M)
    expected = here.com_m(bodies)[:, SWAP] @ MIRROR
    np.testing.assert_allclose(there.com_m(bodies), expected, rtol=0, atol=ROUNDING_M)


def test_standing_stacks_the_lengths() -> None:
    bodies = people()
    placed = place(bodies, posed({}, (0.0, 0.0, 0.9)))
    ankle = placed.joint_m[0, SEGMENT_INDEX["left_foot"]]
    offset = bodies.joint_offset_m[0]
    expected = 0.9 + sum(offset[SEGMENT_INDEX[f"left_{part}"], 2] for part in ("thigh", "shank", "foot"))
    assert ankle[2] == pytest.approx(expected, abs=ROUNDING_M)
    assert (
        placed.joint_m[0, SEGMENT_INDEX["left_hand"], 1]
        > 0.0
        > placed.joint_m[0, SEGMENT_INDEX["right_hand"], 1]
    )


def test_one_body_serves_many_poses_as_its_repeats_do() -> None:
    pose, bodies = wild_poses(3, 4), people()
    one, repeated = place(bodies, pose), place(bodies.take(np.zeros(4, dtype=np.intp)), pose)
    np.testing.assert_array_equal(one.joint_m, repeated.joint_m)


def test_a_batch_of_people_gives_what_single_people_give() -> None:
    pose, bodies = wild_poses(4, 3), people(3)
    together = place(bodies, pose)
    for row in range(3):
        alone = place(bodies.take(slice(row, row + 1)), pose.take(slice(row, row + 1)))
        np.testing.assert_allclose(together.joint_m[row], alone.joint_m[0], rtol=0, atol=ROUNDING_M)


def test_descends_says_who_moves_with_a_joint() -> None:
    for segment in range(SEGMENT_COUNT):
        forebears, joint = set(), segment
        while joint >= 0:
            forebears.add(joint)
            joint = PARENT[joint]
        assert set(np.flatnonzero(DESCENDS[:, segment]).tolist()) == forebears


def test_levels_hold_every_segment_but_the_pelvis_once_and_after_its_parent() -> None:
    seen = {0}
    for members, parents in LEVELS:
        assert set(parents.tolist()) <= seen
        assert not seen & set(members.tolist())
        seen |= set(members.tolist())
    assert seen == set(range(SEGMENT_COUNT))


def test_hinge_axes_point_left_in_the_anatomical_position_and_turn_with_the_limb() -> None:
    bodies = people()
    assert {JOINTS[k].split("_", 1)[1] for k in HINGE_SEGMENTS} == {"elbow", "knee", "toe_joint"}
    standing = place(bodies, posed({})).hinge_axis()[0]
    np.testing.assert_allclose(standing, np.tile([0.0, 1.0, 0.0], (6, 1)), rtol=0, atol=ROUNDING_M)
    turned_in = place(bodies, posed({"left_hip": {"internal_rotation": 90.0}})).hinge_axis()[0]
    knee = [JOINTS[k] for k in HINGE_SEGMENTS].index("left_knee")
    # the left thigh turned inward brings its left side to the front
    np.testing.assert_allclose(turned_in[knee], [1.0, 0.0, 0.0], rtol=0, atol=ROUNDING_M)


def test_points_lie_on_the_segments_that_carry_them() -> None:
    bodies = people()
    bent = place(bodies, posed({"left_elbow": {"flexion": 90.0}}))
    straight = place(bodies, posed({}))
    grips = np.array([POINT_INDEX["left_grip"], POINT_INDEX["right_grip"]])
    moved = np.abs(bent.point_m(bodies, grips) - straight.point_m(bodies, grips)).max(axis=-1)[0]
    assert moved[0] > 0.2 > 1e-12 > moved[1]
