"""Joint ranges: told where they are passed, and drawn back to them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import posed, wild_poses

from leanmark.body.segments import JOINT_INDEX, JOINTS
from leanmark.mechanics.angles import ANGLES, angles_from_rotation, joint_rotations, kind_of
from leanmark.mechanics.ranges import RANGES_DEG, REPORT_SLACK_RAD, past_range, within_range

# a joint's other angles at zero, so that each limit can be looked at alone; an arm must be raised for its
# plane to mean anything, and at 185 degrees it is read as 175 from behind
LIMITS = [(k, n, low, high) for (k, n), (low, high, _) in RANGES_DEG.items() if n != "elevation"]


def joint_of(kind: str) -> str:
    return next(joint for joint in JOINTS if kind_of(joint) == kind)


def test_every_range_is_of_an_angle_that_there_is_and_spans_the_anatomical_position() -> None:
    for (kind, name), (low, high, source) in RANGES_DEG.items():
        assert name in [angle for angle, _, _ in ANGLES[kind]]
        assert low <= 0.0 <= high
        assert source


def test_standing_is_within_every_range() -> None:
    standing = posed({}).rotation
    assert past_range(standing) == {}
    inside, moved = within_range(standing)
    assert not moved.any()
    np.testing.assert_array_equal(inside, standing)


@pytest.mark.parametrize(("kind", "name", "low", "high"), LIMITS)
def test_an_angle_is_past_its_range_beyond_one_degree_and_not_before(
    kind: str, name: str, low: float, high: float
) -> None:
    joint = joint_of(kind)
    slack = np.degrees(REPORT_SLACK_RAD)
    degrees = [low - slack - 0.1, low - slack + 0.1, low, high, high + slack - 0.1, high + slack + 0.1]
    angles = {joint: {name: np.radians(degrees)}}
    found = past_range(joint_rotations(angles))
    assert found.keys() == {f"{joint} {name}"}
    assert found[f"{joint} {name}"].tolist() == [True, False, False, False, False, True]


@pytest.mark.parametrize(("kind", "name", "low", "high"), LIMITS)
def test_an_angle_far_past_its_range_is_drawn_to_the_limit(
    kind: str, name: str, low: float, high: float
) -> None:
    joint = joint_of(kind)
    rotation = joint_rotations({joint: {name: np.radians([low - 8.0, high + 8.0, 0.0])}})
    inside, moved = within_range(rotation)
    index = JOINT_INDEX[joint]
    assert moved[:, index].tolist() == [True, True, False]
    assert not np.delete(moved, index, axis=1).any()
    read = np.degrees(angles_from_rotation(joint, inside[:, index])[name])
    np.testing.assert_allclose((read - [low, high, 0.0] + 180.0) % 360.0 - 180.0, 0.0, rtol=0, atol=1e-6)


@given(st.integers(0, 2**32 - 1))
def test_what_was_drawn_back_is_within_range_and_stays_put(seed: int) -> None:
    inside, _ = within_range(wild_poses(seed, 2, 1.5).rotation)
    assert past_range(inside) == {}
    again, _ = within_range(inside)
    np.testing.assert_allclose(again, inside, rtol=0, atol=1e-9)


def test_a_palm_turned_down_reads_in_range_from_either_side_of_half_a_turn() -> None:
    angles = {"left_wrist": {"pronation": np.radians([179.0, 181.0, 189.0])}}
    assert past_range(joint_rotations(angles)) == {}


def test_the_whole_body_may_face_any_way() -> None:
    turned = posed({"root": {"yaw": 170.0, "pitch": 80.0, "roll": -120.0}})
    assert past_range(turned.rotation) == {}
