"""What makes jumps, hops, the leaning march, calf and foot moves what they are, on short and tall people.

Where a trade fact states a straight line or a right angle without a tolerance, five degrees are allowed: what
two readings with a goniometer differ by (common practice). Other allowances say their own ground.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.floor_people import ANCHORS_M, PEOPLE, Seen, seen

from leanmark.mechanics.arrays import Bools, Floats
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.schema import Stage
from leanmark.moves.stand import stand
from leanmark.rig.rig import standard_rig

GONIOMETER_DEG = 5.0
CLEAR_M = 0.02  # off the floor for the eye: a finger's breadth
HOPS = ("sprint start", "leaning march", "squat jump", "split jump", "ankle hop", "side hop")
CALVES = ("calf raise", "bent-knee calf raise", "ankle hop")
ONE_FOOT = ("side hop", "single-leg balance with reach")


def rungs(*names: str) -> list[tuple[str, str]]:
    return [(name, rung.rung) for name in names for rung in load_move(name).rungs]


def tilt_deg(low_m: Floats, high_m: Floats) -> Floats:
    """Forward tilt [deg] of the line from a low to a high point, seen from the side."""
    line = high_m - low_m
    return np.degrees(np.arctan2(line[..., 0], line[..., 2]))


def trunk_deg(at: Seen) -> Floats:
    return tilt_deg(at.middle_m("thigh"), at.middle_m("upper_arm"))


def knee_over_foot(at: Seen, side: str) -> Bools:
    """Whether a knee, seen from the front, is between the edges of its foot; (N, K)."""
    knee_m = at.joint_m(f"{side}_shank")[..., 1]
    edges_m = np.stack([at.point_m(f"{side}_ball_{edge}")[..., 1] for edge in ("medial", "lateral")])
    over: Bools = (knee_m > edges_m.min(axis=0)) & (knee_m < edges_m.max(axis=0))
    return over


def stages(name: str, rung: str) -> tuple[Stage, ...]:
    move = load_move(name)
    return find_rung(move, rung).stages or move.stages


BALLISTIC = [(name, rung) for name, rung in rungs(*HOPS) if "ballistic" in stages(name, rung)]


@pytest.mark.parametrize(("name", "rung"), BALLISTIC)
def test_a_ballistic_rung_opens_only_after_reps_that_are_clean_at_speed(name: str, rung: str) -> None:
    """Common practice: ballistic only after clean controlled and fast reps."""
    gates = find_rung(load_move(name), rung).gates
    assert {gate.stage for gate in gates} & {"fast", "ballistic"}
    for gate in gates:
        assert gate.stage in stages(gate.move or name, gate.rung)


def test_sprint_start_draws_the_heel_through_low_or_kicks_it_up_behind() -> None:
    for rung in ("high", "leaning", "low"):
        at = seen("sprint start", rung)
        assert (at.point_m("right_heel") - at.joint_m("right_shank"))[:, 2, 2].max() < 0.0
    at = seen("sprint start", "heel kicked up")
    heel_m, knee_m = at.point_m("right_heel"), at.joint_m("right_shank")
    assert (heel_m - knee_m)[:, 2, 2].min() > 0.1  # clearly up: more than a hand's breadth, own figure
    assert (heel_m - at.middle_m("thigh"))[:, 2, 0].max() < 0.0


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("leaning march").rungs])
def test_leaning_march_lifts_a_knee_to_hip_height_from_one_straight_line(rung: str, anchor_m: float) -> None:
    at = seen("leaning march", rung, anchor_m)
    standing_deg = tilt_deg(at.joint_m("left_foot"), at.joint_m("left_thigh"))
    assert np.abs(standing_deg - trunk_deg(at)).max() < GONIOMETER_DEG
    assert at.angle_deg("left_knee", "left_shank", "flexion").max() < GONIOMETER_DEG
    np.testing.assert_allclose(at.point_m("right_toe_tip")[:, 0, 2], 0.0, rtol=0, atol=1e-5)
    assert at.point_m("right_toe_tip")[:, -1, 2].min() > CLEAR_M
    # hip height is met by an eye within a hand's breadth: a quarter of the thigh's length, own figure
    rise_m = (at.joint_m("right_shank") - at.joint_m("right_thigh"))[:, -1, 2]
    thigh_m = np.linalg.norm(at.joint_m("right_shank") - at.joint_m("right_thigh"), axis=-1)[:, -1]
    lean_deg = trunk_deg(at)[:, -1]
    raised_deg = np.degrees(np.arcsin(rise_m / thigh_m)) + lean_deg  # from square to the body line
    np.testing.assert_allclose(raised_deg, 0.0, rtol=0, atol=np.degrees(np.arcsin(0.25)))


@pytest.mark.parametrize("name", CALVES)
def test_calf_moves_lift_the_heels_and_keep_the_knees(name: str) -> None:
    for rung in load_move(name).rungs:
        at = seen(name, rung.rung)
        heel_m = at.point_m("left_heel")[..., 2]
        assert (np.diff(heel_m, axis=1) > 0.0).all()
        assert (heel_m[:, -1] - heel_m[:, 0]).min() > 0.04  # a full rise is three fingers or more: own figure
        assert heel_m[:, 0].min() >= 0.0
        knee_deg = at.angle_deg("left_knee", "left_shank", "flexion")
        if name != "ankle hop":
            assert np.ptp(knee_deg, axis=1).max() < GONIOMETER_DEG
        if name == "calf raise":
            assert knee_deg.max() < GONIOMETER_DEG
        if name == "bent-knee calf raise":
            assert knee_deg.min() > 30.0  # bent by a third of a right angle at least: own figure
        if name == "ankle hop":
            assert knee_deg.max() < 30.0  # nearly straight: less than a third of a right angle, own figure
        if rung.rung.startswith("one"):
            assert {contact.patch for contact in at.rep.supports.contacts} == {"left forefoot"}
            assert at.point_m("right_toe_tip")[..., 2].min() > CLEAR_M


@pytest.mark.parametrize("name", ["calf raise", "bent-knee calf raise", "ankle hop", "leaning march"])
def test_nearer_the_anchor_the_straps_carry_more(name: str) -> None:
    move = load_move(name)
    standing = stand(move, move.rungs[1], standard_rig(2.4), PEOPLE)
    marks_m = np.linspace(0.8, 0.4, 5)
    for person in range(len(PEOPLE)):
        load, _ = standing.profile(marks_m, np.full(len(marks_m), person))
        assert (np.diff(load) > 0.0).all()


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("toe raise").rungs])
def test_toe_raise_lifts_the_forefeet_from_heels_that_stay_down(rung: str, anchor_m: float) -> None:
    at = seen("toe raise", rung, anchor_m)
    tip_m = at.point_m("left_toe_tip")[..., 2]
    np.testing.assert_allclose(tip_m[:, 0], 0.0, rtol=0, atol=1e-5)
    assert (np.diff(tip_m, axis=1) > 0.0).all()
    assert tip_m[:, -1].min() > CLEAR_M
    np.testing.assert_allclose(at.point_m("left_heel")[..., 2], 0.0, rtol=0, atol=1e-5)
    assert at.bend_deg("foot", "thigh", "upper_arm").max() < GONIOMETER_DEG
    assert {contact.patch for contact in at.rep.supports.contacts} == {"left heel", "right heel"}


def test_squat_jump_goes_deeper_rung_by_rung_with_the_knees_over_the_feet() -> None:
    deep_m = []
    for rung in load_move("squat jump").rungs:
        at = seen("squat jump", rung.rung)
        for side in ("left", "right"):
            assert knee_over_foot(at, side)[:, 0].all()
        assert (np.diff(at.middle_m("thigh")[..., 2], axis=1) > 0.0).all()
        assert at.angle_deg("left_knee", "left_shank", "flexion")[:, -1].max() < 15.0  # tall: own figure
        deep_m.append(at.middle_m("thigh")[:, 0, 2])
    assert (deep_m[2] < deep_m[1]).all()
    assert (deep_m[3] < deep_m[2]).all()
    at = seen("squat jump", "deep jump")
    level_deg = 90.0 - np.abs(tilt_deg(at.joint_m("left_shank"), at.joint_m("left_thigh"))[:, 0])
    assert np.abs(level_deg).max() < 15.0  # what an eye calls level: own figure


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("split jump").rungs])
def test_split_jump_goes_straight_up_from_a_split_stance(rung: str) -> None:
    at = seen("split jump", rung)
    assert np.abs(trunk_deg(at)).max() < 15.0  # what an eye calls upright: own figure
    hip_m = at.middle_m("thigh")
    assert (np.diff(hip_m[..., 2], axis=1) > 0.0).all()
    # straight to an eye: a quarter of what the hips rise, own figure
    assert (np.ptp(hip_m[..., 0], axis=1) < 0.25 * np.ptp(hip_m[..., 2], axis=1)).all()
    assert at.joint_m("left_shank")[..., 2].min() > 0.05  # the rear knee keeps a hand's breadth off the floor
    toes_m = at.point_m("right_toe_tip")[..., 0]
    assert (at.joint_m("right_shank")[..., 0] < toes_m).all()
    assert knee_over_foot(at, "right").all()


@pytest.mark.parametrize(("name", "rung"), rungs(*ONE_FOOT))
def test_moves_on_one_foot_keep_the_knee_over_it_and_the_other_foot_off_the_floor(
    name: str, rung: str
) -> None:
    at = seen(name, rung)
    assert knee_over_foot(at, "right").all()
    assert {contact.patch for contact in at.rep.supports.contacts} == {"right sole"}
    for point in ("heel", "ball_medial", "ball_lateral", "toe_tip"):
        assert at.point_m(f"left_{point}")[..., 2].min() > 0.0


def test_the_free_foot_reaches_ahead_aside_behind_and_across() -> None:
    def reach_m(rung: str) -> Floats:
        at = seen("single-leg balance with reach", rung)
        return (at.point_m("left_heel") - at.point_m("right_heel"))[:, 0]

    ahead, aside, behind, across = (
        reach_m(rung.rung) for rung in load_move("single-leg balance with reach").rungs
    )
    far_m = 0.35  # about a foot's length and a half: own figure
    assert ahead[:, 0].min() > far_m
    assert aside[:, 1].min() > far_m
    assert behind[:, 0].max() < -far_m
    assert across[:, 0].max() < -far_m
    assert across[:, 1].max() < 0.0
