from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.figures import poses
from tests.figures.mannequin import mirror

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.limbs import foot_solids, grip_m, hand_solids, heel_m, limb_solid
from leanmark.figures.project import VIEWS
from leanmark.figures.solids import outline

SIDE, FRONT = VIEWS["side"], VIEWS["front"]


def test_a_limb_reaches_from_joint_to_joint_and_its_radius_beyond() -> None:
    scene = poses.standing()
    index = SEGMENT_INDEX["right_shank"]
    edge = outline(limb_solid(scene, "right_shank"), SIDE, 72)
    top = scene.joint_m[index, 2] + scene.radius_m[index, 0]
    bottom = scene.tip_m[index, 2] - scene.radius_m[index, 1]
    assert edge[:, 1].max() == pytest.approx(top, abs=1e-9)
    assert edge[:, 1].min() == pytest.approx(bottom, abs=1e-9)


def test_the_calf_bulges_backward() -> None:
    scene = poses.standing()
    edge = outline(limb_solid(scene, "left_shank"), SIDE, 72)
    knee_x = scene.joint_m[SEGMENT_INDEX["left_shank"], 0]
    assert knee_x - edge[:, 0].min() > edge[:, 0].max() - knee_x


def test_a_hand_on_a_handle_closes_round_the_straps_end() -> None:
    scene = poses.row()
    for strap in scene.straps:
        held = grip_m(scene, strap.side)
        assert held is not None
        np.testing.assert_array_equal(held, strap.body_m)
        assert len(hand_solids(scene, strap.side)) == 1


def test_a_hand_that_holds_nothing_is_open() -> None:
    scene = poses.row()
    assert grip_m(replace(scene, kit="cradles"), "left") is None
    assert grip_m(poses.one_arm_row(), "right") is None
    assert len(hand_solids(poses.one_arm_row(), "right")) == 3


def test_hands_mirror_each_other() -> None:
    scene = poses.standing()
    left, right = (hand_solids(scene, side) for side in ("left", "right"))
    for one, other in zip(left, right, strict=True):
        np.testing.assert_allclose(one.centre_m * [1.0, -1.0, 1.0], other.centre_m, atol=1e-12)
        for axes, twin in zip(one.axes_m, other.axes_m, strict=True):
            np.testing.assert_allclose(np.abs(mirror(axes)), np.abs(twin), atol=1e-12)


def test_a_shoe_stands_flat_on_the_floor() -> None:
    scene = poses.standing()
    for side in ("left", "right"):
        edges = [outline(solid, SIDE, 72) for solid in foot_solids(scene, side)]
        lowest = [edge[:, 1].min() for edge in edges]
        # heel, instep and toe cap all touch zero; the collar does not
        assert [row for row, low in enumerate(lowest) if abs(low) < 1e-3] == [0, 1, 3]


def test_toes_point_forward_of_the_heel() -> None:
    scene = poses.standing()
    toe = max(outline(solid, SIDE, 36)[:, 0].max() for solid in foot_solids(scene, "left"))
    assert toe - heel_m(scene, "left")[0] > 0.12 * scene.stature_m


def test_a_scene_without_surface_points_still_has_a_heel_under_the_ankle() -> None:
    scene = replace(poses.standing(), point_m={})
    ankle = scene.joint_m[SEGMENT_INDEX["left_foot"]]
    assert heel_m(scene, "left")[2] == pytest.approx(ankle[2] - 0.039 * scene.stature_m)
