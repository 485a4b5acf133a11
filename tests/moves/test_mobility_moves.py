"""What makes each stretch the stretch it is, on short and tall people: which joints go how far, and that the
next rung goes further.

Where a trade fact states a straight line without a tolerance, five degrees are allowed: what two readings
with a goniometer differ by (common practice). Other allowances say their own ground.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.floor_people import ANCHORS_M, PEOPLE, Seen, seen

from leanmark.mechanics.arrays import Floats
from leanmark.moves.library import load_move
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import standard_rig

GONIOMETER_DEG = 5.0
UPRIGHT_DEG = 15.0  # what an eye calls upright or level: own figure
MOBILITY = (
    "adductor rock",
    "chest opener",
    "deep squat sit",
    "hamstring stretch",
    "hip-flexor stretch",
    "overhead lat stretch",
    "side-bend stretch",
    "trunk turn stretch",
)


def all_rungs(name: str, anchor_m: float = 2.4) -> list[Seen]:
    return [seen(name, rung.rung, anchor_m) for rung in load_move(name).rungs]


def tilt_deg(low_m: Floats, high_m: Floats) -> Floats:
    """Forward tilt [deg] of the line from a low to a high point, seen from the side."""
    line = high_m - low_m
    return np.degrees(np.arctan2(line[..., 0], line[..., 2]))


def trunk_deg(at: Seen) -> Floats:
    return tilt_deg(at.middle_m("thigh"), at.middle_m("upper_arm"))


def angle_deg(first: Floats, second: Floats) -> Floats:
    """Angle [deg] between vectors."""
    cosine = (first * second).sum(-1) / np.linalg.norm(first, axis=-1) / np.linalg.norm(second, axis=-1)
    angle: Floats = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))
    return angle


def rises(values: list[Floats]) -> bool:
    """Whether every person's value rises from each rung to the next."""
    return bool((np.diff(np.stack(values), axis=0) > 0.0).all())


@pytest.mark.parametrize("name", MOBILITY)
def test_a_stretch_is_done_slowly_and_goes_further_rung_by_rung(name: str) -> None:
    move = load_move(name)
    assert move.stages == ("controlled",)
    assert all(rung.harder_by == "range" for rung in move.rungs[1:])
    assert all(rung.stages in (None, ("controlled",)) for rung in move.rungs)


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
def test_chest_opener_holds_the_hands_wide_and_higher_rung_by_rung(anchor_m: float) -> None:
    raised = []
    for at in all_rungs("chest opener", anchor_m):
        apart_m = (at.point_m("left_grip") - at.point_m("right_grip"))[:, 0, 1]
        shoulders_m = (at.joint_m("left_upper_arm") - at.joint_m("right_upper_arm"))[:, 0, 1]
        assert (apart_m > 2.5 * shoulders_m).all()  # wide: two and a half shoulder breadths, own figure
        assert at.bend_deg("foot", "thigh", "upper_arm").max() < GONIOMETER_DEG
        raised.append(at.angle_deg("left_shoulder", "left_upper_arm", "elevation")[:, 0])
    assert rises(raised)
    np.testing.assert_allclose(raised[2], 90.0, rtol=0, atol=UPRIGHT_DEG)


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
def test_overhead_lat_stretch_sinks_the_chest_between_arms_in_line_with_the_straps(anchor_m: float) -> None:
    overhead, tipped = [], []
    for at in all_rungs("overhead lat stretch", anchor_m):
        anchor = np.array([0.0, 0.0, anchor_m])
        elbow_m, grip_m = at.joint_m("left_forearm")[:, 0], at.point_m("left_grip")[:, 0]
        assert angle_deg(anchor - grip_m, grip_m - elbow_m).max() < 2 * GONIOMETER_DEG
        assert at.angle_deg("left_elbow", "left_forearm", "flexion").max() < 2 * GONIOMETER_DEG
        trunk = (at.joint_m("left_upper_arm") - at.joint_m("left_thigh"))[:, 0]
        arm = (at.joint_m("left_hand") - at.joint_m("left_upper_arm"))[:, 0]
        overhead.append(180.0 - angle_deg(trunk, arm))
        tipped.append(trunk_deg(at)[:, 0])
        assert (at.middle_m("thigh")[:, 0, 0] < at.point_m("left_heel")[:, 0, 0]).all()
    assert rises(overhead)
    assert rises(tipped)
    assert overhead[-1].min() > 150.0  # overhead to an eye: within 30 degrees of the trunk's line, own figure


def test_hamstring_stretch_keeps_the_raised_knee_straight_and_closes_the_hip() -> None:
    closed = []
    for at in all_rungs("hamstring stretch"):
        assert at.angle_deg("left_knee", "left_shank", "flexion").max() < 2 * GONIOMETER_DEG
        assert at.angle_deg("right_knee", "right_shank", "flexion").max() < 20.0  # soft, not bent: own figure
        closed.append(at.angle_deg("left_hip", "left_thigh", "flexion")[:, 0])
    low, low_tipped, high, high_tipped = closed
    assert rises([low, low_tipped])
    assert rises([low, high, high_tipped])
    high_at = seen("hamstring stretch", "heel high, standing tall")
    assert np.abs(trunk_deg(high_at)).max() < UPRIGHT_DEG


def test_hip_flexor_stretch_opens_the_rear_hip_over_a_knee_on_the_floor() -> None:
    opened, bent = [], []
    for at in all_rungs("hip-flexor stretch"):
        np.testing.assert_allclose(at.point_m("left_knee_front")[..., 2], 0.0, rtol=0, atol=1e-5)
        assert np.abs(trunk_deg(at)).max() < UPRIGHT_DEG
        opened.append(-at.angle_deg("left_hip", "left_thigh", "flexion")[:, 0])
        bent.append(at.angle_deg("left_knee", "left_shank", "flexion")[:, 0])
    assert min(hip.min() for hip in opened) > 0.0
    assert rises(opened[1:3])
    assert rises(bent[:2])
    over = seen("hip-flexor stretch", "arm overhead")
    assert (over.point_m("left_grip") - over.point_m("head_top"))[..., 2].min() > 0.0


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
def test_deep_squat_sits_lower_rung_by_rung_with_the_heels_down(anchor_m: float) -> None:
    sunk = []
    for at in all_rungs("deep squat sit", anchor_m):
        np.testing.assert_allclose(at.point_m("left_heel")[..., 2], 0.0, rtol=0, atol=1e-5)
        sunk.append((at.joint_m("left_shank") - at.joint_m("left_thigh"))[:, 0, 2])
        knee_m, inner_m = (at.joint_m("left_shank")[..., 1], at.point_m("left_ball_medial")[..., 1])
        assert (knee_m > inner_m).all()
    assert rises(sunk)
    assert sunk[0].max() < 0.0
    assert sunk[2].min() > 0.0


def test_adductor_rock_sinks_over_one_foot_while_the_other_leg_stays_straight() -> None:
    low_m = []
    for at in all_rungs("adductor rock"):
        assert at.angle_deg("left_knee", "left_shank", "flexion").max() < 2 * GONIOMETER_DEG
        hip_m = at.middle_m("thigh")
        assert (np.diff(hip_m[..., 1], axis=1) > 0.0).all()  # back to the middle: from the right to the left
        inner_m, outer_m = (at.point_m(f"right_ball_{edge}")[:, 0, 1] for edge in ("medial", "lateral"))
        knee_m = at.joint_m("right_shank")[:, 0, 1]
        assert ((knee_m < inner_m + 0.02) & (knee_m > outer_m - 0.02)).all()  # by eye: a finger's breadth
        for side in ("left", "right"):
            np.testing.assert_allclose(at.point_m(f"{side}_heel")[..., 2], 0.0, rtol=0, atol=1e-5)
        low_m.append(-hip_m[:, 0, 2])
    assert rises(low_m)


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
def test_side_bend_stretch_bends_towards_the_anchor_while_the_hips_drift_away(anchor_m: float) -> None:
    bends, drifts_m = [], []
    for at in all_rungs("side-bend stretch", anchor_m):
        bend = at.angle_deg("lumbar", "lower_trunk", "side_bend_right")
        bends.append(-(bend + at.angle_deg("thoracic", "upper_trunk", "side_bend_right"))[:, 0])
        feet_m = 0.5 * (at.point_m("left_heel") + at.point_m("right_heel"))
        drifts_m.append(feet_m[:, 0, 1] - at.middle_m("thigh")[:, 0, 1])
        assert (at.point_m("right_grip") - at.point_m("head_top"))[..., 2].min() > 0.0
        across = (at.joint_m("left_upper_arm") - at.joint_m("right_upper_arm"))[:, 0]
        assert np.degrees(np.abs(np.arctan2(across[:, 0], across[:, 1]))).max() < UPRIGHT_DEG  # faces ahead
    assert rises(bends)
    assert drifts_m[0].min() > 0.0
    assert rises([drifts_m[0], drifts_m[2]])


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
def test_trunk_turn_stretch_turns_the_ribs_over_hips_that_stay_square(anchor_m: float) -> None:
    turned = []
    for at in all_rungs("trunk turn stretch", anchor_m):
        assert np.abs(at.angle_deg("root", "pelvis", "yaw")).max() < GONIOMETER_DEG
        low = at.angle_deg("lumbar", "lower_trunk", "rotation_left")
        turned.append(-(low + at.angle_deg("thoracic", "upper_trunk", "rotation_left"))[:, 0])
        lumbar, thoracic = low, at.angle_deg("thoracic", "upper_trunk", "rotation_left")
        assert (np.abs(thoracic) > np.abs(lumbar)).all()  # from the ribs, not from the low back
    assert rises(turned)


@pytest.mark.parametrize("name", ["overhead lat stretch", "chest opener"])
def test_nearer_the_anchor_the_straps_draw_harder(name: str) -> None:
    move = load_move(name)
    rung = move.rungs[1]
    mark = mark_of(move, rung)
    towards = -np.sign(mark.start_m)
    marks_m = mark.start_m + towards * np.linspace(0.0, 0.2, 4)
    standing = stand(move, rung, standard_rig(2.4), PEOPLE)
    for person in range(len(PEOPLE)):
        load, _ = standing.profile(marks_m, np.full(len(marks_m), person))
        assert (np.diff(load) > 0.0).all()
