"""Surface points lie on the body, on their segments, where their names say."""

from __future__ import annotations

import pytest

from leanmark.body.arrays import Floats
from leanmark.body.build import Build
from leanmark.body.points import POINT_INDEX, POINT_SEGMENT, POINTS
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX, side_of
from leanmark.body.tables import TABLES

SEGMENT_OF = {
    "heel": "foot", "ball_medial": "foot", "ball_lateral": "foot", "heel_back": "foot", "instep": "foot",
    "toe_tip": "toes", "toe_base": "toes", "toe_base_medial": "toes", "toe_base_lateral": "toes",
    "knee_front": "shank", "knee_side": "shank", "shank_front_distal": "shank",
    "grip": "hand", "palm_heel": "hand", "palm_ball": "hand",
    "elbow_tip": "forearm", "elbow_side": "forearm", "forearm_distal": "forearm",
    "shoulder_back": "upper_trunk", "shoulder_centre": "upper_trunk", "armpit": "upper_trunk",
    "chest": "upper_trunk", "trunk_front": "upper_trunk",
    "hip_side": "pelvis", "pelvis_back": "pelvis", "back_mid": "lower_trunk",
    "head_back": "head", "head_top": "head",
}  # fmt: skip
MIDDLE = {"chest", "trunk_front", "pelvis_back", "back_mid", "head_back", "head_top"}
BODIES = scale([Build(74.0, 1.78)], TABLES["de_leva_male"])


def at(name: str) -> Floats:
    point: Floats = BODIES.point_m[0, POINT_INDEX[name]]
    return point


def test_every_point_is_there_on_its_segment_and_side() -> None:
    wanted = {name for name in SEGMENT_OF if name in MIDDLE}
    wanted |= {f"{side}_{name}" for side in ("left", "right") for name in SEGMENT_OF if name not in MIDDLE}
    assert set(POINTS) == wanted
    assert list(POINT_INDEX) == list(POINTS)
    for name, point in POINTS.items():
        kind = name.removeprefix("left_").removeprefix("right_")
        assert point.segment.removeprefix("left_").removeprefix("right_") == SEGMENT_OF[kind]
        assert side_of(point.segment) in ("middle", side_of(name))
        assert POINT_SEGMENT[POINT_INDEX[name]] == SEGMENT_INDEX[point.segment]


@pytest.mark.parametrize("name", sorted(name for name in POINTS if name in MIDDLE))
def test_middle_points_lie_in_the_middle(name: str) -> None:
    assert at(name)[1] == 0.0


@pytest.mark.parametrize(
    ("name", "axis", "sign"),
    [
        ("left_hip_side", 1, 1), ("right_hip_side", 1, -1),
        ("left_knee_side", 1, 1), ("left_elbow_side", 1, 1),
        ("left_ball_lateral", 1, 1), ("left_ball_medial", 1, -1), ("left_armpit", 1, 1),
        ("chest", 0, 1), ("trunk_front", 0, 1), ("left_knee_front", 0, 1), ("left_shank_front_distal", 0, 1),
        ("left_palm_heel", 0, 1), ("left_palm_ball", 0, 1), ("left_grip", 0, 1), ("left_instep", 0, 1),
        ("pelvis_back", 0, -1), ("back_mid", 0, -1), ("head_back", 0, -1), ("left_shoulder_back", 0, -1),
        ("left_elbow_tip", 0, -1), ("left_forearm_distal", 0, -1), ("left_heel_back", 0, -1),
        ("left_heel", 2, -1), ("left_toe_tip", 2, -1), ("head_top", 2, 1),
    ],
)  # fmt: skip
def test_points_lie_on_the_side_their_name_says(name: str, axis: int, sign: int) -> None:
    assert sign * at(name)[axis] > 0.0


def test_elbow_and_forearm_end_are_level_when_the_forearm_rests() -> None:
    assert at("left_elbow_tip")[0] == pytest.approx(at("left_forearm_distal")[0], abs=1e-12)


def test_the_grip_lies_between_palm_heel_and_fingertip() -> None:
    hand_m = TABLES["de_leva_male"].parts["hand"].length_share * 1.78
    assert -hand_m < at("left_grip")[2] < at("left_palm_heel")[2] < 0.0


def test_the_crown_is_the_heads_length_above_the_neck() -> None:
    assert at("head_top")[2] == pytest.approx(
        TABLES["de_leva_male"].parts["head"].length_share * 1.78, rel=1e-12
    )


@pytest.mark.parametrize("table", TABLES)
def test_shoulder_points_stay_at_the_shoulders_in_every_table(table: str) -> None:
    bodies = scale([Build(74.0, 1.78)], TABLES[table])
    shoulder_m = bodies.joint_offset_m[0, SEGMENT_INDEX["left_upper_arm"], 2]
    for name in ("left_shoulder_back", "left_armpit"):
        assert 0.0 < bodies.point_m[0, POINT_INDEX[name], 2] < shoulder_m


def test_the_shoulders_centre_is_the_shoulder_joint() -> None:
    joint_m = BODIES.joint_offset_m[0, SEGMENT_INDEX["left_upper_arm"]]
    assert at("left_shoulder_centre") == pytest.approx(joint_m, abs=1e-15)


def test_the_heel_of_the_hand_is_thicker_than_its_ball() -> None:
    assert at("left_palm_heel")[0] > at("left_palm_ball")[0] > 0.0
