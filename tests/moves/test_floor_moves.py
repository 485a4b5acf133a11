"""What makes each move on the floor the move it is, on short and tall, light and heavy people.

Where a trade fact states a right angle or a straight line without a tolerance, five degrees are allowed: what
two readings with a goniometer differ by (common practice). Other allowances say their own ground.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.floor_people import ANCHORS_M, Seen, seen

from leanmark.body.points import POINTS
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.measure import measured
from leanmark.moves.library import load_move

GONIOMETER_DEG = 5.0
NEAR_M = 0.02  # placed by eye: a finger's breadth
SUPINE = [(name, rung.rung) for name in ("hip press", "hamstring curl") for rung in load_move(name).rungs]
PLANKS = [(name, rung.rung) for name in ("front plank", "side plank") for rung in load_move(name).rungs]
TUCKS = [rung.rung for rung in load_move("knee tuck").rungs]
PUSH_UPS = (
    "hands on a high box",
    "hands on a low box",
    "from the knees, shanks up",
    "from the knees, shanks resting",
    "from the toes",
    "feet on a low box",
    "feet on a high box",
)


def knee_deg(at: Seen, side: str = "left") -> Floats:
    return at.angle_deg(f"{side}_knee", f"{side}_shank", "flexion")


def hip_deg(at: Seen, side: str = "left") -> Floats:
    return at.angle_deg(f"{side}_hip", f"{side}_thigh", "flexion")


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize(
    "rung",
    [rung.rung for rung in load_move("hip press").rungs if not rung.rung.startswith(("balls", "one leg"))],
)
def test_hip_press_keeps_the_right_angle_at_the_knee_and_ends_straight(rung: str, anchor_m: float) -> None:
    at = seen("hip press", rung, anchor_m)
    np.testing.assert_allclose(knee_deg(at), 90.0, rtol=0, atol=GONIOMETER_DEG)
    assert at.bend_deg("shank", "thigh", "upper_arm")[:, -1].max() < GONIOMETER_DEG
    # one strap setting serves all statures, so the hips' right angle is met only about: own figure
    np.testing.assert_allclose(hip_deg(at)[:, 0], 90.0, rtol=0, atol=15.0)
    assert (np.diff(hip_deg(at), axis=1) < 0.0).all()


@pytest.mark.parametrize(("name", "rung"), SUPINE)
def test_lying_moves_keep_head_and_shoulders_down_and_hips_up(name: str, rung: str) -> None:
    at = seen(name, rung)
    np.testing.assert_allclose(at.point_m("head_back")[..., 2], 0.0, rtol=0, atol=1e-6)
    np.testing.assert_allclose(at.point_m("left_shoulder_back")[..., 2], 0.0, rtol=0, atol=1e-6)
    assert at.point_m("pelvis_back")[..., 2].min() > 0.0
    np.testing.assert_allclose(at.middle_m("upper_arm")[..., 1], 0.0, rtol=0, atol=NEAR_M)


@pytest.mark.parametrize(("name", "rung"), [("hip press", "arms flat"), ("hamstring curl", "hips up")])
def test_arms_that_lie_flat_touch_the_floor_from_elbow_to_hand(name: str, rung: str) -> None:
    at = seen(name, rung)
    for point in ("elbow_tip", "forearm_distal", "palm_heel", "palm_ball"):
        heights_m = at.point_m(f"left_{point}")[..., 2]
        assert heights_m.min() > -0.005
        assert heights_m.max() < NEAR_M


@pytest.mark.parametrize("rung", ["hips up", "arms across the chest"])
def test_hamstring_curl_with_hips_up_stays_one_line_from_knee_to_shoulder(rung: str) -> None:
    at = seen("hamstring curl", rung)
    assert at.bend_deg("shank", "thigh", "upper_arm").max() < GONIOMETER_DEG
    assert (np.diff(knee_deg(at), axis=1) > 0.0).all()


def test_hamstring_curl_with_hips_low_bends_hips_and_knees_near_the_floor() -> None:
    at = seen("hamstring curl", "hips low")
    assert at.point_m("pelvis_back")[..., 2].max() < 0.10  # a hand's breadth
    assert (np.diff(hip_deg(at), axis=1) > 0.0).all()
    assert (np.diff(knee_deg(at), axis=1) > 0.0).all()


def test_alternating_curl_ends_as_the_mirror_image_of_its_start() -> None:
    at = seen("hamstring curl", "alternating")
    for name in POINTS:
        other = name.replace("left_", "*").replace("right_", "left_").replace("*", "right_")
        mirrored = at.point_m(other)[:, -1] * [1.0, -1.0, 1.0]
        # mark and straps are alike on both sides, so only the solver's closure is left
        np.testing.assert_allclose(at.point_m(name)[:, 0], mirrored, rtol=0, atol=1e-4)
    tension_n = at.loads.strap_tension_n.reshape(at.rep.count, -1, 2)
    np.testing.assert_allclose(tension_n[:, 0], tension_n[:, -1, ::-1], rtol=1e-3)


def test_alternating_curl_keeps_the_straps_level() -> None:
    at = seen("hamstring curl", "alternating")
    gap_m = at.point_m("left_heel_back")[..., 2] - at.point_m("right_heel_back")[..., 2]
    assert np.abs(gap_m).max() < 0.05  # half a shoe's height, own figure
    assert np.abs(knee_deg(at, "left") - knee_deg(at, "right"))[:, 0].min() > 60.0


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize(("name", "rung"), PLANKS)
def test_planks_are_one_line_and_hips_never_sag_below_it(name: str, rung: str, anchor_m: float) -> None:
    at = seen(name, rung, anchor_m)
    if rung not in ("hand down", "reach-through"):  # there the chest turns, and the line's upper end with it
        assert at.bend_deg("foot", "thigh", "upper_arm").max() < GONIOMETER_DEG
    shoulder, hip, ankle = (at.middle_m(part) for part in ("upper_arm", "thigh", "foot"))
    length_m = np.linalg.norm(shoulder - ankle, axis=-1)
    along = ((hip - ankle) * (shoulder - ankle)).sum(-1) / length_m**2
    line_m = ankle[..., 2] + along * (shoulder - ankle)[..., 2]
    sag_deg = np.degrees((line_m - hip[..., 2]) / (0.5 * length_m))
    assert sag_deg.max() < GONIOMETER_DEG


def test_plank_elbows_stand_under_the_shoulders_or_ahead_of_them() -> None:
    for rung, ahead_m in (("from the elbows", 0.0), ("elbows ahead", 0.12)):
        at = seen("front plank", rung)
        gap_m = (at.point_m("left_elbow_tip") - at.point_m("left_shoulder_centre"))[..., 0]
        assert np.abs(gap_m - ahead_m).max() < 0.04  # two fingers' breadth


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("side plank").rungs])
def test_side_plank_stands_under_the_shoulder_with_the_feet_under_the_anchor(rung: str) -> None:
    at = seen("side plank", rung)
    support = "right_palm_heel" if rung == "from the hand" else "right_elbow_tip"
    gap_m = at.point_m(support) - at.joint_m("right_upper_arm")
    assert np.abs(gap_m[..., 1]).max() < 0.05  # seen from the front: within a forearm's breadth
    feet_m = 0.5 * (at.point_m("left_instep") + at.point_m("right_instep"))
    assert np.abs(feet_m[..., 0]).max() < 0.15  # half a foot's length: no strap pulls the body round


@pytest.mark.parametrize("rung", TUCKS)
def test_knee_tuck_starts_as_a_plank_and_draws_the_knees_in(rung: str) -> None:
    at = seen("knee tuck", rung)
    assert at.bend_deg("foot", "thigh", "upper_arm")[:, 0].max() < GONIOMETER_DEG
    assert (np.diff(hip_deg(at), axis=1) > 0.0).all()
    assert (np.diff(at.middle_m("shank")[..., 0], axis=1) > 0.0).all()
    support = "left_palm_heel" if "hands" in rung else "left_elbow_tip"
    over_m = at.middle_m("upper_arm")[..., 0] - at.point_m(support)[..., 0]
    assert np.abs(over_m).max() < 0.06  # shoulders over the hands or elbows, within a wrist's breadth


def test_push_ups_are_laid_out_from_easier_to_harder() -> None:
    move = load_move("push-up")
    assert tuple(rung.rung for rung in move.rungs) == PUSH_UPS
    assert move.kit == "none"
    shares = []
    for rung in PUSH_UPS:
        at = seen("push-up", rung)
        shares.append(measured(at.loads, at.rep.supports, "hands").reshape(at.rep.count, -1).max(axis=1))
    assert (np.diff(shares, axis=0) > 0.0).all()


@pytest.mark.parametrize("rung", PUSH_UPS)
def test_push_ups_are_straight_with_bent_elbows_below_and_straight_ones_above(rung: str) -> None:
    at = seen("push-up", rung)
    assert at.bend_deg("shank", "thigh", "upper_arm").max() < GONIOMETER_DEG
    elbow_deg = at.angle_deg("left_elbow", "left_forearm", "flexion")
    np.testing.assert_allclose(elbow_deg[:, 0], 90.0, rtol=0, atol=GONIOMETER_DEG)
    np.testing.assert_allclose(elbow_deg[:, -1], 0.0, rtol=0, atol=GONIOMETER_DEG)
    hand_m = at.point_m("left_palm_heel")
    np.testing.assert_allclose(hand_m, np.repeat(hand_m[:, -1:], 5, axis=1), rtol=0, atol=1e-5)
    np.testing.assert_allclose(at.middle_m("upper_arm")[..., 1], 0.0, rtol=0, atol=1e-3)


@pytest.mark.parametrize("rung", PUSH_UPS)
def test_push_up_hands_end_under_the_shoulders_or_square_to_the_trunk(rung: str) -> None:
    at = seen("push-up", rung)
    arm = (at.point_m("left_palm_heel") - at.point_m("left_shoulder_centre"))[:, -1]
    if rung.startswith("hands on"):
        trunk = (at.middle_m("upper_arm") - at.middle_m("thigh"))[:, -1]
        cosine = (arm * trunk).sum(-1) / np.linalg.norm(arm, axis=-1) / np.linalg.norm(trunk, axis=-1)
        np.testing.assert_allclose(np.degrees(np.arccos(cosine)), 90.0, rtol=0, atol=2 * GONIOMETER_DEG)
    else:
        np.testing.assert_allclose(arm[:, 0], 0.0, rtol=0, atol=1e-3)


@pytest.mark.parametrize(
    ("rung", "point", "height_m"),
    [
        ("hands on a high box", "left_palm_heel", 0.6096),
        ("hands on a low box", "left_palm_heel", 0.3048),
        ("from the knees, shanks up", "left_knee_front", 0.0),
        ("from the knees, shanks resting", "left_toe_tip", 0.0),
        ("from the toes", "left_toe_base", 0.0),
        ("feet on a low box", "left_toe_base", 0.3048),
        ("feet on a high box", "left_toe_base", 0.6096),
    ],
)
def test_push_ups_bear_at_the_studied_heights(rung: str, point: str, height_m: float) -> None:
    # box heights of Ebben et al. 2011, J Strength Cond Res 25(10):2891: 30.48 and 60.96 cm
    at = seen("push-up", rung).point_m(point)[..., 2]
    np.testing.assert_allclose(at, height_m, rtol=0, atol=1e-6)
