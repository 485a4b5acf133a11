"""What makes each move on handles, cradle or under-arm straps the move it is, on short and tall people.

Where a trade fact states a right angle or a straight line without a tolerance, five degrees are allowed: what
two readings with a goniometer differ by (common practice). Other allowances say their own ground.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.facts import assert_harder_from_far_to_near, assert_one_line_from_ankle_to_shoulder
from tests.moves.floor_people import ANCHORS_M, PEOPLE, Seen, seen

from leanmark.mechanics.arrays import Bools, Floats
from leanmark.mechanics.measure import measured, peak_over_rep
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.stand import stand
from leanmark.rig.rig import standard_rig

GONIOMETER_DEG = 5.0
STRAIGHT = [
    (name, rung.rung)
    for name in ("row", "chest press", "fly", "biceps curl", "triceps press")
    for rung in load_move(name).rungs
    if not rung.rung.startswith(("knees bent", "staggered"))
]
"""Moves in which the body stays one line from ankle to shoulder."""
STEEPER = [
    ("row", "leaning", -1.0, -0.3),
    ("chest press", "leaning", 0.9, 0.1),
    ("fly", "leaning", 1.2, 0.6),
    ("biceps curl", "leaning", -1.0, -0.1),
    ("triceps press", "leaning", 0.8, 0.2),
    ("sprint start", "leaning", 0.4, 0.1),
]
"""Move, rung, and a range of marks [m] from far to near the plumb point."""


def elbow_deg(at: Seen, side: str = "left") -> Floats:
    return at.angle_deg(f"{side}_elbow", f"{side}_forearm", "flexion")


def tilt_deg(low_m: Floats, high_m: Floats) -> Floats:
    """Forward tilt (N, K) [deg] of the line from a low to a high point, seen from the side."""
    line = high_m - low_m
    return np.degrees(np.arctan2(line[..., 0], line[..., 2]))


def knee_over_foot(at: Seen) -> Bools:
    """Whether the right knee, seen from the front, is between the edges of its foot; (N, K)."""
    knee_m = at.joint_m("right_shank")[..., 1]
    inner_m, outer_m = (at.point_m(f"right_ball_{edge}")[..., 1] for edge in ("medial", "lateral"))
    over: Bools = (knee_m < inner_m) & (knee_m > outer_m)
    return over


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize(("name", "rung"), STRAIGHT)
def test_body_stays_one_line_from_ankle_to_shoulder(name: str, rung: str, anchor_m: float) -> None:
    assert_one_line_from_ankle_to_shoulder(name, rung, anchor_m)


@pytest.mark.parametrize(("name", "rung", "far_m", "near_m"), STEEPER)
def test_nearer_the_anchor_is_harder(name: str, rung: str, far_m: float, near_m: float) -> None:
    assert_harder_from_far_to_near(name, rung, far_m, near_m)


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("row").rungs])
def test_row_pulls_straight_arms_until_the_elbows_are_beside_the_ribs(rung: str) -> None:
    at = seen("row", rung)
    np.testing.assert_allclose(elbow_deg(at)[:, 0], 0.0, rtol=0, atol=2 * GONIOMETER_DEG)
    trunk = at.middle_m("upper_arm") - at.middle_m("thigh")
    ahead = np.cross([0.0, 1.0, 0.0], trunk / np.linalg.norm(trunk, axis=-1, keepdims=True))
    elbow_m, chest_m = (
        ((at.joint_m("left_forearm") - at.middle_m("upper_arm")) * ahead).sum(-1),
        ((at.point_m("chest") - at.middle_m("upper_arm")) * ahead).sum(-1),
    )
    assert (elbow_m[:, 0] > chest_m[:, 0]).all()
    assert (elbow_m[:, -1] < chest_m[:, -1]).all()


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("chest press").rungs])
def test_chest_press_goes_from_right_angles_at_the_elbows_to_straight_arms(rung: str) -> None:
    at = seen("chest press", rung)
    np.testing.assert_allclose(elbow_deg(at)[:, 0], 90.0, rtol=0, atol=2 * GONIOMETER_DEG)
    np.testing.assert_allclose(elbow_deg(at)[:, -1], 0.0, rtol=0, atol=2 * GONIOMETER_DEG)
    if rung != "near upright":  # the ankle cannot follow, so the heel is off the floor at the bottom
        assert at.point_m("left_heel")[:, 0, 2].min() > 0.0


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("fly").rungs])
def test_fly_keeps_the_bend_of_the_elbows_and_brings_the_hands_together(rung: str) -> None:
    at = seen("fly", rung)
    bend_deg = elbow_deg(at)
    assert np.ptp(bend_deg, axis=1).max() < GONIOMETER_DEG
    apart_m = (at.point_m("left_grip") - at.point_m("right_grip"))[..., 1]
    assert (np.diff(apart_m, axis=1) < 0.0).all()
    assert apart_m[:, -1].min() > 0.0
    assert apart_m[:, -1].max() < 0.5 * apart_m[:, 0].min()


@pytest.mark.parametrize("name", ["biceps curl", "triceps press"])
def test_arm_moves_keep_the_upper_arms_while_the_elbows_bend(name: str) -> None:
    for rung in load_move(name).rungs:
        at = seen(name, rung.rung)
        raised_deg = at.angle_deg("left_shoulder", "left_upper_arm", "elevation")
        assert np.ptp(raised_deg, axis=1).max() < 25.0  # less than a third of what the elbow does: own figure
        assert np.ptp(elbow_deg(at), axis=1).min() > 75.0


def test_biceps_curl_brings_the_hands_to_the_head() -> None:
    at = seen("biceps curl", "leaning")
    gap_m = np.linalg.norm(at.point_m("left_grip") - at.point_m("head_top"), axis=-1)
    assert gap_m[:, -1].max() < 0.35  # a hand's length and a half
    assert (gap_m[:, 0] > 2.0 * gap_m[:, -1]).all()


def test_single_leg_squat_ends_down_with_shank_and_trunk_nearly_parallel_and_the_knee_over_the_foot() -> None:
    at = seen("single-leg squat", "free")
    shank_deg = tilt_deg(at.joint_m("right_foot"), at.joint_m("right_shank"))[:, 0]
    trunk_deg = tilt_deg(at.middle_m("thigh"), at.middle_m("upper_arm"))[:, 0]
    # common practice says "nearly"; 15 degrees is what an eye calls parallel, own figure
    np.testing.assert_allclose(shank_deg, trunk_deg, rtol=0, atol=15.0)
    assert knee_over_foot(at).all()
    assert at.point_m("left_heel")[..., 2].min() > 0.05


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("rear-foot split squat").rungs])
def test_split_squat_hangs_the_rear_foot_upright_and_takes_the_rear_knee_down_and_back(rung: str) -> None:
    at = seen("rear-foot split squat", rung)
    np.testing.assert_allclose(at.point_m("left_instep")[..., :2], 0.0, rtol=0, atol=1e-6)
    hip_m, knee_m = at.joint_m("left_thigh"), at.joint_m("left_shank")
    assert (np.diff(hip_m[..., 2], axis=1) > 0.0).all()
    assert (np.diff(knee_m[..., 2], axis=1) > 0.0).all()
    assert knee_m[..., 2].min() > 0.05  # the knee stays a hand's breadth off the floor
    assert rung == "supported hand" or knee_over_foot(at).all()


def test_a_longer_split_stance_loads_the_rear_foot_more() -> None:
    # direction only: Aguilera-Castells et al. 2019, Aloma 37(1):57 (abstract)
    move = load_move("rear-foot split squat")
    standing = stand(move, find_rung(move, "free"), standard_rig(2.4), PEOPLE)
    marks_m = np.array([0.6, 0.75, 0.9])
    for person in range(len(PEOPLE)):
        load, _ = standing.profile(marks_m, np.full(3, person))
        assert (np.diff(load) > 0.0).all()


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("sprint start").rungs])
def test_sprint_start_taps_the_back_foot_and_draws_its_knee_through(rung: str, anchor_m: float) -> None:
    at = seen("sprint start", rung, anchor_m)
    apart_m = (at.point_m("left_toe_base") - at.point_m("right_toe_base"))[:, 0, 0]
    assert apart_m.min() >= 0.30  # common practice: front to back foot 0.30 to 0.45 m
    assert apart_m.max() <= 0.45
    tip_m = at.point_m("right_toe_tip")[..., 2]
    np.testing.assert_allclose(tip_m[:, 0], 0.0, rtol=0, atol=1e-5)
    assert tip_m[:, -1].min() > 0.05
    knee_ahead_m = (at.joint_m("right_shank") - at.middle_m("thigh"))[..., 0]
    assert (np.diff(knee_ahead_m, axis=1) > 0.0).all()
    assert {contact.patch for contact in at.rep.supports.contacts} == {"left forefoot"}
    straight_deg = np.abs(
        tilt_deg(at.joint_m("left_foot"), at.joint_m("left_thigh"))
        - tilt_deg(at.joint_m("left_thigh"), at.joint_m("left_upper_arm"))
    )[:, -1]
    assert straight_deg.max() < 2 * GONIOMETER_DEG


def test_rotation_turns_the_chest_away_from_the_anchor_with_both_hands_on_one_handle() -> None:
    for rung in load_move("standing trunk rotation").rungs:
        at = seen("standing trunk rotation", rung.rung)
        np.testing.assert_allclose(at.point_m("left_grip"), at.point_m("right_grip"), rtol=0, atol=1e-6)
        across = (at.joint_m("left_upper_arm") - at.joint_m("right_upper_arm"))[..., :2]
        turned_deg = np.degrees(np.arctan2(-across[..., 0], across[..., 1]))
        assert (np.diff(turned_deg, axis=1) < 0.0).all()
        assert at.loads.strap_tension_n.shape[1] == 1


def test_rotation_with_bent_elbows_is_easier_at_the_same_mark() -> None:
    move = load_move("standing trunk rotation")
    rig = standard_rig(2.4)
    who = np.arange(len(PEOPLE))
    shares = []
    for rung in ("elbows bent", "arms straight"):
        rep, _ = stand(move, find_rung(move, rung), rig, PEOPLE).rep(np.full(len(PEOPLE), -1.2), who, 3)
        shares.append(peak_over_rep(measured(rep.static_loads(), rep.supports, "largest share"), 3))
    assert (shares[0] < shares[1]).all()
