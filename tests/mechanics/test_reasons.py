"""Reasons against a position, first as a pose and then to hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mechanics.leaning import hanging, held_by, leaning_pose
from tests.mechanics.scenes import people, posed

from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.distribution import FALLS, HOLDS, LOOP_SLIPS, SLIPS
from leanmark.mechanics.kinematics import Pose
from leanmark.mechanics.loads import statics
from leanmark.mechanics.pose import PoseSolution
from leanmark.mechanics.reasons import (
    CONTACT,
    FINE,
    FLOOR,
    LOOP,
    RANGE,
    REASONS,
    SLACK,
    SLIP,
    STRAP_LONG,
    STRAP_SHORT,
    TIPS,
    load_reasons,
    pose_reasons,
)

ROWS = hanging(np.zeros(1))
STRAPS = slice(len(ROWS.planted), len(ROWS.planted) + 2)
STANDING = posed({}, (0.0, 0.0, 1.0))


def solved(pose: Pose = STANDING, strap_m: float = 0.0, planted_m: float = 0.0) -> PoseSolution:
    """A made-up answer of the solver with rows left open."""
    rows_m = np.zeros((1, len(ROWS.planted) + 6))
    rows_m[0, 0], rows_m[:, STRAPS] = planted_m, [0.0, strap_m]
    largest = np.abs(rows_m).max(axis=1)
    return PoseSolution(pose, largest, rows_m, largest <= 1e-6, np.ones(1, dtype=np.intp))


def why(solution: PoseSolution, rows: Constraints = ROWS) -> int:
    return int(pose_reasons(people(), solution, rows)[0])


def test_every_code_has_words_but_the_first() -> None:
    assert sorted(REASONS) == list(range(len(REASONS)))
    assert [code for code, words in REASONS.items() if not words] == [FINE]


def test_an_open_strap_is_too_short_or_too_long_and_other_open_rows_are_contacts() -> None:
    assert why(solved(strap_m=0.2)) == STRAP_SHORT
    assert why(solved(strap_m=-0.2)) == STRAP_LONG
    assert why(solved(planted_m=0.3)) == CONTACT
    assert why(solved(strap_m=0.2, planted_m=0.3)) == STRAP_SHORT
    assert why(solved(planted_m=0.3), Constraints(ROWS.planted)) == CONTACT
    assert why(solved()) == FINE


def test_a_pose_below_the_floor_or_past_a_joints_range_says_so_and_the_joint_comes_first() -> None:
    sunk = Pose(STANDING.root_m - [0.0, 0.0, 0.2], STANDING.rotation)
    bent = posed({"left_knee": {"flexion": -20.0}}, (0.0, 0.0, 1.2))
    assert why(solved(sunk)) == FLOOR
    assert why(solved(bent)) == RANGE
    assert why(solved(Pose(bent.root_m - [0.0, 0.0, 0.5], bent.rotation))) == RANGE
    assert why(solved(bent, strap_m=0.1)) == STRAP_SHORT


@pytest.mark.parametrize(
    ("outcome", "reason"), [(HOLDS, FINE), (SLIPS, SLIP), (LOOP_SLIPS, LOOP), (FALLS, TIPS)]
)
def test_each_outcome_has_its_reason_unless_a_strap_is_slack(outcome: int, reason: int) -> None:
    loads = replace(statics(people(), leaning_pose(-0.6), held_by()), outcome=np.array([outcome]))
    assert load_reasons(loads).tolist() == [reason]
    limp = replace(loads, strap_tension_n=np.array([[100.0, 0.0]]))
    assert load_reasons(limp).tolist() == [SLACK]


def test_a_position_that_nothing_can_balance_tips() -> None:
    loads = statics(people(), leaning_pose(-0.6), held_by(straps=(), patches=(("heel", "left"),)))
    assert load_reasons(loads).tolist() == [TIPS]
