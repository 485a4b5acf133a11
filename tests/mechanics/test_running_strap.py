"""One strap through a loop that runs while its sides pull in turn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mechanics.scenes import ROW_MARK_M, row_stand

from leanmark.body.points import POINT_INDEX
from leanmark.mechanics.angles import joint_rotations
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.pose import CLOSURE_TOLERANCE_M
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import STRAP_SHORT
from leanmark.moves.stand import Stand

GRIPS = np.array([POINT_INDEX["left_grip"], POINT_INDEX["right_grip"]])


def one_arm_in(strap_mode: str, strap_runs: bool, mark_m: float = ROW_MARK_M) -> tuple[Rep, Stand]:
    """The row's start with the left arm drawn in and the right arm long."""
    standing = row_stand(strap_mode=strap_mode)
    bent = joint_rotations(
        {"left_shoulder": {"plane": 0.0, "elevation": 0.3}, "left_elbow": {"flexion": 1.7}}
    )
    start = standing.task.start.copy()
    for joint in (4, 5):
        start[joint] = bent[0, joint]
    holds = tuple(replace(hold, in_line=()) for hold in standing.task.holds)
    task = replace(standing.task, start=start, end=start, holds=holds, strap_runs=strap_runs)
    bodies = standing.people.bodies
    return solve_rep(task, bodies, standing.geometry(np.array([mark_m])), np.zeros(1)), standing


def reaches(rep: Rep) -> Floats:
    """Anchor to each grip [m], (2,)."""
    at = place(rep.bodies, rep.solution.pose).point_m(rep.bodies, GRIPS)[0]
    return np.asarray(np.linalg.norm(at - rep.geometry.anchor_m[0], axis=1))


def test_only_the_whole_length_is_held() -> None:
    rep, standing = one_arm_in("slipping loop", strap_runs=True)
    side_m = standing.strap_m + standing.rig.handle_offset_m
    left, right = reaches(rep)
    assert left + right == pytest.approx(2.0 * side_m, abs=2.0 * CLOSURE_TOLERANCE_M)
    assert abs(left - right) > 0.1


@pytest.mark.parametrize(("mode", "runs"), [("independent", True), ("slipping loop", False)])
def test_sides_keep_their_lengths_on_two_straps_or_when_kept_level(mode: str, runs: bool) -> None:
    rep, standing = one_arm_in(mode, runs)
    side_m = standing.strap_m + standing.rig.handle_offset_m
    assert reaches(rep) == pytest.approx([side_m, side_m], abs=CLOSURE_TOLERANCE_M)


def test_a_running_strap_can_be_too_short_as_well() -> None:
    rep, _ = one_arm_in("slipping loop", strap_runs=True, mark_m=-4.0)
    assert rep.reason.tolist() == [[STRAP_SHORT]]
