"""How points and the mass centre move with a pose's small motions, against central differences."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.mechanics.plain_rows import moved
from tests.mechanics.scenes import people, wild_poses

from leanmark.body.points import POINT_INDEX, POINT_SEGMENT
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.motions import (
    MOTIONS,
    mass_centre,
    mass_centre_motions,
    moved_points,
    point_motions,
)

STEP = 1e-5
# third derivatives of at most 2 m times STEP^2 / 6, and 2 m x 2.2e-16 / STEP of rounding
SLOPE_TOLERANCE = 1e-9
USED = np.array([POINT_INDEX[name] for name in ("left_grip", "right_toe_tip", "head_top", "left_knee_front")])


def at(pose: Pose) -> tuple[Floats, Floats]:
    placed = place(people(), pose)
    return placed.point_m(people(), USED)[0].reshape(-1), mass_centre(people(), placed)[0]


@settings(max_examples=15)
@given(st.integers(0, 2**32 - 1))
def test_points_and_mass_centre_move_as_central_differences_say(seed: int) -> None:
    pose, bodies = wild_poses(seed, 1), people()
    placed = place(bodies, pose)
    pairs = moved_points(tuple(int(segment) for segment in POINT_SEGMENT[USED]))
    points = point_motions(pairs, placed, placed.point_m(bodies, USED))[0]
    centre = mass_centre_motions(bodies, placed)[0]
    assert (points.shape, centre.shape) == ((3 * len(USED), MOTIONS), (3, MOTIONS))
    for number, motion in enumerate(STEP * np.eye(MOTIONS)):
        (ahead, ahead_com), (back, back_com) = (at(moved(pose, bodies, s * motion)) for s in (1.0, -1.0))
        np.testing.assert_allclose(
            points[:, number], (ahead - back) / (2 * STEP), rtol=0, atol=SLOPE_TOLERANCE
        )
        slope = (ahead_com - back_com) / (2 * STEP)
        np.testing.assert_allclose(centre[:, number], slope, rtol=0, atol=SLOPE_TOLERANCE)


def test_points_on_one_segment_share_their_joints() -> None:
    pairs = moved_points((2, 2))
    assert pairs.count == 2
    assert pairs.joint.tolist() == [0, 1, 2, 0, 1, 2]
    assert not len(pairs.hinged)
