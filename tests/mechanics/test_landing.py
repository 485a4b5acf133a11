"""Found patches: in which pose they come down, where, and what may slide."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mechanics.scenes import people

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, SEGMENT_INDEX
from leanmark.mechanics.angles import joint_rotations, kind_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.pose import CLOSURE_TOLERANCE_M
from leanmark.mechanics.position import solve_rep
from leanmark.mechanics.ranges import past_range, within_range
from leanmark.mechanics.task import Geometry, PatchUse, Task

SOLES = (PatchUse("sole", "left"), PatchUse("sole", "right"))
BOX_M = 0.85
NODES = np.array([0.0, 0.5, 1.0])
STANDING = joint_rotations({})[0]
LEANING = joint_rotations({"root": {"pitch": 0.3}, "left_shoulder": {"plane": 1.57, "elevation": 0.6}})[0]


def points_m(hand: PatchUse, found_at_end: bool = False) -> dict[str, Floats]:
    """Every body point over the rep (3, 3) of one who leans forward over a box, the left hand on it."""
    firm = np.array([1000.0 if kind_of(joint) in ("knee", "hip", "lumbar") else 1.0 for joint in JOINTS])
    task = Task(STANDING, LEANING, firm, (*SOLES, hand), found_at_end=found_at_end)
    kit = Geometry(np.array([[0.0, 0.0, 2.4]]), np.array([1.2]), np.zeros(1))
    rep = solve_rep(task, people(), kit, NODES)
    assert rep.solution.met.all()
    at = place(rep.bodies, rep.solution.pose).point_m(rep.bodies, np.arange(len(POINT_INDEX)))
    return {name: at[:, index] for name, index in POINT_INDEX.items()}


HAND = PatchUse("hand", "left", height_m=BOX_M, found=True, under="shoulder_centre")


@pytest.mark.parametrize(("found_at_end", "landing"), [(False, 0), (True, 2)])
def test_a_hand_comes_down_under_the_shoulder_in_the_landing_pose_and_stays(
    found_at_end: bool, landing: int
) -> None:
    at = points_m(HAND, found_at_end)
    hand, shoulder = at["left_palm_ball"], at["left_shoulder_centre"]
    # a millimetre: finer than a hand is placed; rows close to 1e-6 m, what the joints share out to less
    assert abs(hand[landing, 0] - shoulder[landing, 0]) < 1e-3
    np.testing.assert_allclose(hand, np.tile(hand[landing], (3, 1)), rtol=0, atol=2 * CLOSURE_TOLERANCE_M)
    other = 2 - landing
    assert abs(hand[other, 0] - shoulder[other, 0]) > 0.02


def test_a_hand_that_slides_touches_all_along_and_stays_nowhere() -> None:
    at = points_m(replace(HAND, touching=True, slides=True, under=""))["left_palm_ball"]
    np.testing.assert_allclose(at[:, 2], BOX_M, rtol=0, atol=CLOSURE_TOLERANCE_M)
    assert abs(at[2, 0] - at[0, 0]) > 0.02


def test_a_palm_turned_down_is_in_range_from_either_side() -> None:
    for degrees in (179.9, 180.0, 180.1, -179.9):
        wrist = {"left_wrist": {"pronation": np.radians(degrees)}}
        rotation = joint_rotations(wrist)
        assert past_range(rotation) == {}
        assert not within_range(rotation)[1].any()


def test_a_palm_turned_past_its_range_is_brought_back_to_the_nearer_end() -> None:
    rotation = joint_rotations({"right_wrist": {"pronation": np.radians(-150.0)}})  # 210: past 190
    clipped, moved = within_range(rotation)
    assert np.flatnonzero(moved[0]).tolist() == [SEGMENT_INDEX["right_hand"]]
    assert list(past_range(rotation)) == ["right_wrist pronation"]
    nearest = joint_rotations({"right_wrist": {"pronation": np.radians(190.0)}})
    np.testing.assert_allclose(clipped, nearest, rtol=0, atol=1e-12)
    assert clipped.shape == (1, SEGMENT_COUNT, 3, 3)
