"""What holds a person up, laid out as unit pushes and known forces."""

from __future__ import annotations

import numpy as np
from tests.mechanics.leaning import ANCHOR_M, GRIPS, held_by, leaning_pose
from tests.mechanics.scenes import people, wild_poses

from leanmark.body.points import POINT_INDEX, POINT_SEGMENT
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.supports import (
    ContactPoint,
    KnownForce,
    StrapHold,
    Supports,
    known_wrenches,
    unit_pushes,
)

ROUNDING = 1e-12  # products of up to 1000 N and 2 m, 2.2e-16 each


def test_tensions_come_first_and_pull_from_the_hand_towards_the_anchor() -> None:
    pose, supports = leaning_pose(-0.6), held_by()
    placed = place(people(), pose)
    pushes = unit_pushes(supports, people(), placed)
    assert pushes.direction.shape == (1, supports.unknown_count, 3) == (1, 2 + 3 * 6, 3)
    hands = placed.point_m(people(), np.array(GRIPS))[0]
    for k in range(2):
        line = ANCHOR_M - hands[k]
        np.testing.assert_allclose(pushes.point_m[0, k], hands[k], rtol=0, atol=ROUNDING)
        expected = line / np.linalg.norm(line)
        np.testing.assert_allclose(pushes.direction[0, k], expected, rtol=0, atol=ROUNDING)
        assert pushes.segment[k] == POINT_SEGMENT[GRIPS[k]]


def test_every_contact_point_can_push_along_each_world_axis() -> None:
    pose, supports = leaning_pose(-0.6), held_by()
    placed = place(people(), pose)
    pushes = unit_pushes(supports, people(), placed)
    for k, contact in enumerate(supports.contacts):
        own = slice(2 + 3 * k, 5 + 3 * k)
        np.testing.assert_array_equal(pushes.direction[0, own], np.eye(3))
        at = placed.point_m(people(), np.array([contact.point]))[0, 0]
        np.testing.assert_allclose(pushes.point_m[0, own], np.tile(at, (3, 1)), rtol=0, atol=ROUNDING)
        assert set(pushes.segment[own]) == {POINT_SEGMENT[contact.point]}


def test_two_hands_on_one_handle_pull_at_the_point_between_them_each_on_its_own_segment() -> None:
    pose = leaning_pose(-0.6)
    placed = place(people(), pose)
    both = Supports((StrapHold(GRIPS, ANCHOR_M, "both"),))
    pushes = unit_pushes(both, people(), placed)
    middle = placed.point_m(people(), np.array(GRIPS))[0].mean(axis=0)
    assert both.tension_count == both.unknown_count == 2
    np.testing.assert_allclose(pushes.point_m[0], np.tile(middle, (2, 1)), rtol=0, atol=ROUNDING)
    assert pushes.segment.tolist() == [SEGMENT_INDEX["left_hand"], SEGMENT_INDEX["right_hand"]]


def test_known_forces_add_up_by_segment_with_their_moments_about_the_origin() -> None:
    pose, bodies = wild_poses(1, 2), people()
    placed = place(bodies, pose)
    chest, grip = POINT_INDEX["chest"], POINT_INDEX["left_grip"]
    pushes = np.array([[10.0, -20.0, 30.0], [1.0, 2.0, 3.0]])
    supports = Supports(
        known=(
            KnownForce(chest, pushes),
            KnownForce(chest, np.array([5.0, 0.0, 0.0])),
            KnownForce(grip, np.array([0.0, 0.0, -7.0])),
        )
    )
    force, moment = known_wrenches(supports, bodies, placed)
    at = placed.point_m(bodies, np.array([chest, grip]))
    on_chest = pushes + np.array([5.0, 0.0, 0.0])
    trunk, hand = SEGMENT_INDEX["upper_trunk"], SEGMENT_INDEX["left_hand"]
    np.testing.assert_allclose(force[:, trunk], on_chest, rtol=0, atol=ROUNDING)
    np.testing.assert_allclose(moment[:, trunk], np.cross(at[:, 0], on_chest), rtol=0, atol=ROUNDING)
    np.testing.assert_allclose(moment[:, hand], np.cross(at[:, 1], [0.0, 0.0, -7.0]), rtol=0, atol=ROUNDING)
    others = [k for k in range(18) if k not in (trunk, hand)]
    assert not force[:, others].any()
    assert not moment[:, others].any()


def test_picked_positions_keep_their_own_anchors_and_pushes() -> None:
    anchors, pushes = np.arange(9.0).reshape(3, 3), np.arange(9.0, 18.0).reshape(3, 3)
    supports = Supports(
        (StrapHold(GRIPS[:1], anchors, "left"), StrapHold(GRIPS[1:], ANCHOR_M, "right")),
        (ContactPoint(POINT_INDEX["left_heel"], 0.5, "left heel"),),
        (KnownForce(POINT_INDEX["chest"], pushes),),
        1.4,
    )
    picked = supports.take(np.array([2, 0]))
    np.testing.assert_array_equal(picked.straps[0].anchor_m, anchors[[2, 0]])
    np.testing.assert_array_equal(picked.straps[1].anchor_m, ANCHOR_M)
    np.testing.assert_array_equal(picked.known[0].force_n, pushes[[2, 0]])
    assert (picked.contacts, picked.loop_ratio) == (supports.contacts, 1.4)
