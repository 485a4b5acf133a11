"""Facts of the trade that several families share, and what they are read from."""

from __future__ import annotations

import numpy as np
from tests.moves.floor_people import PEOPLE, Seen, seen

from leanmark.mechanics.arrays import Floats
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.stand import stand
from leanmark.rig.rig import standard_rig

GONIOMETER_DEG = 5.0
"""What two readings with a goniometer differ by; common practice, no published source."""


def assert_one_line_from_ankle_to_shoulder(name: str, rung: str, anchor_m: float) -> None:
    assert seen(name, rung, anchor_m).bend_deg("foot", "thigh", "upper_arm").max() < GONIOMETER_DEG


def assert_harder_from_far_to_near(name: str, rung: str, far_m: float, near_m: float) -> None:
    """The load rises at each of five marks from ``far_m`` to ``near_m``, for everyone."""
    move = load_move(name)
    standing = stand(move, find_rung(move, rung), standard_rig(2.4), PEOPLE)
    marks_m = np.linspace(far_m, near_m, 5)
    for person in range(len(PEOPLE)):
        load, _ = standing.profile(marks_m, np.full(len(marks_m), person))
        assert (np.diff(load) > 0.0).all()


def trunk(at: Seen) -> Floats:
    """Direction (N, K, 3) from the hips to the shoulders."""
    line = at.middle_m("upper_arm") - at.middle_m("thigh")
    unit: Floats = line / np.linalg.norm(line, axis=-1, keepdims=True)
    return unit


def between_deg(first: Floats, second: Floats) -> Floats:
    """Angle (N, K) [deg] between directions (N, K, 3)."""
    cosine = (first * second).sum(-1) / np.linalg.norm(first, axis=-1) / np.linalg.norm(second, axis=-1)
    apart: Floats = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))
    return apart


def chest_turn_deg(at: Seen) -> Floats:
    """How far (N, K) [deg] the shoulders are turned to the left of straight ahead."""
    across = (at.joint_m("left_upper_arm") - at.joint_m("right_upper_arm"))[..., :2]
    return np.degrees(np.arctan2(-across[..., 0], across[..., 1]))
