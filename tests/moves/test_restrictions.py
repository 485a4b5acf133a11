"""What a rung asks of a person follows from its poses, contacts, holds and loads."""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.held_pose import held
from tests.moves.whole_library import MOVES, ladder_of, named

from leanmark.body.segments import JOINTS, SEGMENT_INDEX
from leanmark.mechanics.angles import angles_from_rotation, kind_of
from leanmark.mechanics.kinematics import place
from leanmark.moves.ladder.demand import Solved
from leanmark.moves.restrictions import HEAD_LOW_M, LEVEL, RESTRICTIONS, asks_of
from leanmark.moves.schema import Move


def asks(move: str, rung: str) -> set[str]:
    return next(set(asks_of(one)) for one in ladder_of(move) if one.rung.rung == rung)


def widest_deg(one: Solved, joint: str, angle: str) -> float:
    """The largest angle that a joint of either side takes in any pose of anyone."""
    rotation = one.rep.solution.pose.rotation
    found = [
        np.degrees(angles_from_rotation(name, rotation[:, k])[angle]).max()
        for k, name in enumerate(JOINTS)
        if kind_of(name) == joint
    ]
    return float(max(found))


@pytest.mark.parametrize(
    ("name", "joint", "angle", "limit_deg"),
    [
        ("deep knee bend", "knee", "flexion", 100.0),
        ("deep hip bend", "hip", "flexion", 100.0),
        ("arms overhead", "shoulder", "elevation", 120.0),
    ],
)
@pytest.mark.parametrize("move", MOVES, ids=named)
def test_joints_bent_far_are_told(move: Move, name: str, joint: str, angle: str, limit_deg: float) -> None:
    for one in ladder_of(move):
        assert (name in asks_of(one)) is (widest_deg(one, joint, angle) > limit_deg)


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_the_trunk_lies_one_way_as_its_axes_point(move: Move) -> None:
    """Read off the line from hips to neck and the chest's own forward line, by hand."""
    for one in ladder_of(move):
        where = place(one.rep.bodies, one.rep.solution.pose)
        forward_up = (where.rotation[:, SEGMENT_INDEX["upper_trunk"]] @ np.array([1.0, 0.0, 0.0]))[:, 2]
        neck_m = where.joint_m[:, SEGMENT_INDEX["head"], 2]
        hips_m = where.joint_m[:, [SEGMENT_INDEX["left_thigh"], SEGMENT_INDEX["right_thigh"]], 2].mean(axis=1)
        told = asks_of(one)
        assert ("face down" in told) is bool((forward_up < -LEVEL).any())
        assert ("face up" in told) is bool((forward_up > LEVEL).any())
        if "head low" in told:
            assert (neck_m < hips_m - 0.5 * HEAD_LOW_M).any()


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_straps_that_are_held_are_told_by_their_ends(move: Move) -> None:
    for one in ladder_of(move):
        ends = {hold.end for hold in one.rep.task.holds}
        assert ("gripping" in asks_of(one)) is ("handle" in ends)
        assert ("feet in cradles" in asks_of(one)) is ("cradle" in ends)


@pytest.mark.parametrize(
    ("move", "rung", "told", "not_told"),
    [
        ("row", "leaning", {"gripping"}, {"weight on the hands", "face up", "feet in cradles"}),
        ("row", "knees bent, body level", {"face up"}, {"kneeling", "face down"}),
        ("chest press", "leaning", {"weight on the hands", "gripping"}, {"wrists bent back", "face up"}),
        ("push-up", "from the toes", {"weight on the hands", "wrists bent back", "face down"}, {"gripping"}),
        ("push-up", "from the knees, shanks up", {"kneeling"}, {"single-leg stance"}),
        ("front plank", "from the elbows", {"weight on the forearms", "feet in cradles"}, {"head low"}),
        ("side plank", "hand on hip", {"on the side"}, {"face up", "face down", "single-leg stance"}),
        ("hip press", "arms flat", {"face up", "feet in cradles"}, {"gripping", "weight on the hands"}),
        ("knee tuck", "from the hands", {"deep knee bend", "deep hip bend"}, {"gripping"}),
        ("calf raise", "one leg, near upright", {"single-leg stance"}, {"jumping", "gripping"}),
    ],
)
def test_facts_of_the_trade_are_told(move: str, rung: str, told: set[str], not_told: set[str]) -> None:
    found = asks(move, rung)
    assert told <= found
    assert not not_told & found


def test_a_rung_that_is_only_ballistic_is_jumping() -> None:
    assert "jumping" in asks("sprint start", "leaving the floor")
    assert "jumping" not in asks("sprint start", "low")


def test_every_restriction_says_what_counts_and_some_rung_asks_it() -> None:
    asked = {name for move in MOVES for one in ladder_of(move) for name in asks_of(one)}
    assert all(row.means and row.name == name for name, row in RESTRICTIONS.items())
    assert {*RESTRICTIONS} - asked == {"trunk arched"}  # only moves of a coach's own may ask it


@pytest.mark.parametrize(
    ("back", "told"),
    [
        ({"flexion": -20.0}, "trunk arched"),
        ({"flexion": 35.0}, "trunk bent forward"),
        ({"side_bend_right": -18.0}, "trunk bent sideways"),
        ({"rotation_left": 25.0}, "trunk turned"),
    ],
)
def test_how_the_trunk_is_held_is_told(back: dict[str, float], told: str) -> None:
    assert told in asks_of(held({"lumbar": back}))
    half = {angle: 0.5 * deg for angle, deg in back.items()}
    assert told not in asks_of(held({"lumbar": half}))
