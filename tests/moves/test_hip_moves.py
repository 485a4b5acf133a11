"""What makes each move with heels in the cradles, each hinge and each side-on move the move it is.

Where a trade fact states a right angle or a straight line without a tolerance, five degrees are allowed: what
two readings with a goniometer differ by (common practice). Other allowances say their own ground.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.facts import assert_harder_from_far_to_near
from tests.moves.floor_people import ANCHORS_M, Seen, seen

from leanmark.body.segments import JOINTS
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.measure import peak_over_rep
from leanmark.moves.library import load_move

GONIOMETER_DEG = 5.0
FINGER_M = 0.02
ON_BOTH_LEGS = [
    (name, rung.rung)
    for name in ("straight-leg bridge", "bridge hold")
    for rung in load_move(name).rungs
    if not rung.rung.startswith("one leg")
]
ON_THE_BACK = [
    (name, rung.rung)
    for name in (
        "hamstring curl",
        "hip press",
        "straight-leg bridge",
        "bridge hold",
        "bridge with leg opening",
        "single-leg hamstring curl",
    )
    for rung in load_move(name).rungs
]
ALTERNATING = [rung.rung for rung in load_move("hamstring curl").rungs if rung.rung.startswith("alternating")]
SIDE_ON = ("standing trunk rotation", "anti-rotation press", "low-to-high chop", "side-on lean hold")


def rungs_of(*names: str) -> list[tuple[str, str]]:
    return [(name, rung.rung) for name in names for rung in load_move(name).rungs]


def angle_deg(at: Seen, side: str, joint: str) -> Floats:
    segment = {"knee": "shank", "hip": "thigh"}[joint]
    return at.angle_deg(f"{side}_{joint}", f"{side}_{segment}", "flexion")


def off_line_deg(at: Seen, low: str, middle: str, high: str) -> Floats:
    """How far (N, K) [deg] three joints are from one straight line, seen from the side."""
    down, up = ((at.joint_m(end) - at.joint_m(middle)) * np.array([1.0, 0.0, 1.0]) for end in (low, high))
    cosine = (down * up).sum(-1) / np.linalg.norm(down, axis=-1) / np.linalg.norm(up, axis=-1)
    bend: Floats = 180.0 - np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))
    return bend


def chest_turned_deg(at: Seen) -> Floats:
    """Which way the chest points (N, K) [deg]: 0 straight ahead, positive towards the left."""
    across = at.joint_m("left_upper_arm") - at.joint_m("right_upper_arm")
    turned: Floats = np.degrees(np.arctan2(-across[..., 0], across[..., 1]))
    return turned


def trunk_rotation_share(at: Seen) -> Floats:
    """Largest rotation moment in the trunk over the rep (N,), as a share of reference strength."""
    rotation = np.abs(at.loads.strength_share[:, [JOINTS.index("lumbar"), JOINTS.index("thoracic")], 2])
    return peak_over_rep(rotation.max(axis=1), len(at.rep.nodes))


@pytest.mark.parametrize(("name", "rung"), ON_THE_BACK)
def test_moves_on_the_back_rest_on_the_shoulders_hips_off_the_floor(name: str, rung: str) -> None:
    at = seen(name, rung)
    np.testing.assert_allclose(at.point_m("head_back")[..., 2], 0.0, rtol=0, atol=1e-6)
    assert at.point_m("pelvis_back")[..., 2].min() > 0.0
    assert {contact.patch.split(" ", 1)[1] for contact in at.rep.supports.contacts} == {"shoulder back"}


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize(("name", "rung"), ON_BOTH_LEGS)
def test_bridges_end_in_one_line_from_knee_to_shoulder(name: str, rung: str, anchor_m: float) -> None:
    at = seen(name, rung, anchor_m)
    assert at.bend_deg("shank", "thigh", "upper_arm")[:, -1].max() < GONIOMETER_DEG


@pytest.mark.parametrize(("name", "rung"), rungs_of("straight-leg bridge", "bridge with leg opening"))
def test_straight_leg_bridges_keep_the_knee_straight(name: str, rung: str) -> None:
    assert np.abs(angle_deg(seen(name, rung), "left", "knee")).max() < GONIOMETER_DEG


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("straight-leg bridge").rungs])
def test_straight_leg_bridge_lifts_the_hips_from_just_above_the_floor(rung: str) -> None:
    height_m = seen("straight-leg bridge", rung).point_m("pelvis_back")[..., 2]
    assert (np.diff(height_m, axis=1) > 0.0).all()
    assert height_m[:, 0].max() < 0.10  # a hand's breadth
    assert (height_m[:, -1] - height_m[:, 0]).min() > 0.05  # seen by eye across a room: own figure


def test_bridge_with_leg_opening_keeps_the_hips_at_one_height_and_opens_both_legs_alike() -> None:
    for rung in load_move("bridge with leg opening").rungs:
        at = seen("bridge with leg opening", rung.rung)
        # two fingers' breadth, which a coach's hand under the seat would feel: own figure
        assert np.ptp(at.point_m("pelvis_back")[..., 2], axis=1).max() < 2 * FINGER_M
        left_m, right_m = (at.point_m(f"{side}_heel_back") for side in ("left", "right"))
        np.testing.assert_allclose(left_m, right_m * [1.0, -1.0, 1.0], rtol=0, atol=1e-4)
        apart_m = left_m[..., 1] - right_m[..., 1]
        assert (np.diff(apart_m, axis=1) < 0.0).all()
        assert (apart_m[:, 0] > 2.0 * apart_m[:, -1]).all()


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("single-leg hamstring curl").rungs])
def test_single_leg_curl_hangs_on_one_strap_in_one_line_from_knee_to_shoulder(rung: str) -> None:
    at = seen("single-leg hamstring curl", rung)
    assert at.loads.strap_tension_n.shape[1] == 1
    assert (np.diff(angle_deg(at, "left", "knee"), axis=1) > 0.0).all()
    assert np.ptp(angle_deg(at, "right", "knee"), axis=1).max() < GONIOMETER_DEG
    assert off_line_deg(at, "left_shank", "left_thigh", "left_upper_arm").max() < GONIOMETER_DEG


@pytest.mark.parametrize("rung", ALTERNATING)
def test_alternating_curls_keep_the_straps_level(rung: str) -> None:
    at = seen("hamstring curl", rung)
    gap_m = at.point_m("left_heel_back")[..., 2] - at.point_m("right_heel_back")[..., 2]
    assert np.abs(gap_m).max() < 0.05  # half a shoe's height, own figure


@pytest.mark.parametrize("rung", ["hips turned in, arms flat", "hips turned in, arms straight up"])
def test_hip_press_with_hips_turned_in_has_the_heels_wider_than_the_knees(rung: str) -> None:
    at = seen("hip press", rung)
    heels_m = at.point_m("left_heel_back")[..., 1] - at.point_m("right_heel_back")[..., 1]
    knees_m = at.joint_m("left_shank")[..., 1] - at.joint_m("right_shank")[..., 1]
    assert (heels_m > 1.5 * knees_m).all()
    assert (knees_m > 0.0).all()


@pytest.mark.parametrize("rung", ["balls of the feet, arms flat", "balls of the feet, arms across the chest"])
def test_hip_press_on_the_balls_of_the_feet_keeps_the_right_angle_and_nears_the_line(rung: str) -> None:
    at = seen("hip press", rung)
    np.testing.assert_allclose(angle_deg(at, "left", "knee"), 90.0, rtol=0, atol=GONIOMETER_DEG)
    # one strap setting serves all statures and hangs high for short people: own figure
    assert at.bend_deg("shank", "thigh", "upper_arm")[:, -1].max() < 15.0
    assert (np.diff(angle_deg(at, "left", "hip"), axis=1) < 0.0).all()


def test_hip_press_on_one_leg_ends_in_one_line_on_that_side() -> None:
    at = seen("hip press", "one leg, arms flat")
    np.testing.assert_allclose(angle_deg(at, "left", "knee"), 90.0, rtol=0, atol=GONIOMETER_DEG)
    assert off_line_deg(at, "left_shank", "left_thigh", "left_upper_arm")[:, -1].max() < GONIOMETER_DEG


@pytest.mark.parametrize("anchor_m", ANCHORS_M)
@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("reverse plank").rungs])
def test_reverse_plank_is_one_line_face_up_over_elbows_or_hands(rung: str, anchor_m: float) -> None:
    at = seen("reverse plank", rung, anchor_m)
    assert off_line_deg(at, "left_foot", "left_thigh", "left_upper_arm")[:, -1].max() < GONIOMETER_DEG
    assert (at.point_m("chest")[..., 2] > at.middle_m("upper_arm")[..., 2]).all()
    # over the elbow: within a forearm's breadth; a wrist does not bend back to a right angle, so the shoulder
    # stays up to a hand's length behind the heel of the hand: own figures
    support, most_m = ("palm_heel", 0.15) if "hands" in rung else ("elbow_tip", 0.06)
    over_m = at.middle_m("upper_arm")[:, -1, 0] - at.point_m(f"left_{support}")[:, -1, 0]
    assert np.abs(over_m).max() < most_m


@pytest.mark.parametrize(("name", "rung"), rungs_of("hip hinge", "single-leg deadlift"))
def test_hinges_fold_at_the_hips_over_still_shins_with_a_flat_back(name: str, rung: str) -> None:
    at = seen(name, rung)
    shank = at.joint_m("right_shank") - at.joint_m("right_foot")
    assert np.abs(np.degrees(np.arctan2(shank[..., 0], shank[..., 2]))).max() < 20.0  # "upright" by eye
    for joint, segment in (("lumbar", "lower_trunk"), ("thoracic", "upper_trunk")):
        assert np.abs(at.angle_deg(joint, segment, "flexion")).max() < GONIOMETER_DEG
    assert (at.middle_m("thigh")[:, 0, 0] < at.point_m("right_heel")[:, 0, 0]).all()
    assert (np.diff(angle_deg(at, "right", "hip"), axis=1) < 0.0).all()


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("single-leg deadlift").rungs])
def test_single_leg_deadlift_keeps_the_hips_level_and_the_free_leg_in_line_with_the_trunk(rung: str) -> None:
    at = seen("single-leg deadlift", rung)
    gap_m = at.joint_m("left_thigh")[..., 2] - at.joint_m("right_thigh")[..., 2]
    assert np.abs(gap_m).max() < 0.05  # what an eye calls level over a hip's breadth: own figure
    bend = off_line_deg(at, "left_foot", "left_thigh", "left_upper_arm")[:, 0]
    assert bend.max() < 25.0  # knee soft and hip not pushed past straight: own figure


@pytest.mark.parametrize(("name", "rung"), rungs_of(*SIDE_ON))
def test_side_on_moves_hold_one_handle_with_both_hands_and_weight_the_far_foot(name: str, rung: str) -> None:
    at = seen(name, rung)
    np.testing.assert_allclose(at.point_m("left_grip"), at.point_m("right_grip"), rtol=0, atol=1e-6)
    assert at.loads.strap_tension_n.shape[1] == 1
    feet = {side: [c.patch == f"{side} sole" for c in at.rep.supports.contacts] for side in ("left", "right")}
    force_n = at.loads.contact_force_n[..., 2]
    assert (force_n[:, feet["right"]].sum(axis=1) > force_n[:, feet["left"]].sum(axis=1)).all()


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("anti-rotation press").rungs])
def test_anti_rotation_press_keeps_the_chest_straight_ahead_as_the_hands_go_out(rung: str) -> None:
    at = seen("anti-rotation press", rung)
    # each shoulder's place is read once, so the line between them may miss by two readings
    assert np.abs(chest_turned_deg(at)).max() < 2 * GONIOMETER_DEG
    ahead_m = at.point_m("left_grip")[..., 0] - at.point_m("chest")[..., 0]
    assert (ahead_m > 0.0).all()
    if rung != "hands at the chest":
        assert (np.diff(ahead_m, axis=1) > 0.0).all()
        assert ahead_m[:, -1].min() > 0.35  # most of an arm's length of the shortest, own figure


@pytest.mark.parametrize("rung", [rung.rung for rung in load_move("low-to-high chop").rungs])
def test_chop_sweeps_the_hands_up_and_away_while_the_chest_turns_away(rung: str) -> None:
    at = seen("low-to-high chop", rung)
    hands_m = at.point_m("left_grip")
    assert (np.diff(hands_m[..., 2], axis=1) > -FINGER_M).all()  # they may start level, as a sweep does
    assert (np.diff(hands_m[..., 1], axis=1) < 0.0).all()
    assert (np.diff(chest_turned_deg(at), axis=1) < 0.0).all()
    assert (hands_m[:, 0, 2] < at.point_m("chest")[:, 0, 2]).all()
    assert (hands_m[:, -1, 2] > at.point_m("chest")[:, -1, 2]).all()


@pytest.mark.parametrize(
    ("name", "easier", "harder"),
    [
        ("standing trunk rotation", "elbows bent", "arms straight"),
        ("standing trunk rotation", "leaning, elbows bent", "leaning, arms straight"),
        ("standing trunk rotation", "leaning, arms straight", "deeper lean"),
        ("anti-rotation press", "near upright", "leaning"),
        ("low-to-high chop", "leaning, arms long", "deeper lean, arms long"),
    ],
)
def test_longer_arms_and_deeper_leans_turn_the_trunk_harder(name: str, easier: str, harder: str) -> None:
    assert (trunk_rotation_share(seen(name, easier)) < trunk_rotation_share(seen(name, harder))).all()


@pytest.mark.parametrize(
    ("name", "rung", "far_m", "near_m"),
    [
        ("standing trunk rotation", "leaning, elbows bent", -1.1, -0.7),
        ("standing trunk rotation", "deeper lean", -1.2, -1.0),
        ("anti-rotation press", "leaning", -1.0, -0.75),
    ],
)
def test_nearer_the_anchor_is_harder_side_on(name: str, rung: str, far_m: float, near_m: float) -> None:
    assert_harder_from_far_to_near(name, rung, far_m, near_m)


def test_lean_hold_with_the_near_foot_lifted_stands_on_the_far_foot_alone() -> None:
    at = seen("side-on lean hold", "near foot lifted")
    assert {contact.patch for contact in at.rep.supports.contacts} == {"right sole"}
    assert at.point_m("left_heel")[..., 2].min() > FINGER_M
    assert at.point_m("left_toe_tip")[..., 2].min() > FINGER_M
