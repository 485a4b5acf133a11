"""From solved reps to scenes and charts."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.from_rep import rep_scenes
from leanmark.figures.load_charts import mark_chart, rep_chart
from leanmark.figures.scene import Scene, check_scene, mark_point_m
from leanmark.mechanics.dynamics import Tempo
from leanmark.moves.curves import MarkCurve, mark_curve, rep_curve
from leanmark.moves.library import load_move, move_names
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, stand
from leanmark.rig.rig import standard_rig

PEOPLE = people_of([Build(75.0, 1.78, "male")])
RIG = standard_rig(2.4)


def standing_in(name: str, number: int = 0) -> Stand:
    move = load_move(name)
    return stand(move, move.rungs[number], RIG, PEOPLE)


def scenes_of(standing: Stand) -> tuple[Scene, ...]:
    mark = standing.rung.mark or standing.move.mark
    rep, _ = standing.rep(np.array([mark.start_m]), np.zeros(1, dtype=np.intp), 3)
    return rep_scenes(standing, rep, 0)


@pytest.mark.parametrize("name", move_names())
def test_every_rung_of_the_library_can_be_drawn(name: str) -> None:
    for number in range(len(load_move(name).rungs)):
        for scene in scenes_of(standing_in(name, number)):
            check_scene(scene)


def test_a_scene_is_the_solved_position() -> None:
    start, end = scenes_of(standing_in("row", 1))
    assert len(end.straps) == 2
    for strap in (*start.straps, *end.straps):
        assert strap.anchor_m == pytest.approx([0.0, 0.0, 2.4])
        assert strap.tension_low_n <= strap.tension_n <= strap.tension_high_n
    upright = sum(force.force_n[2] for force in end.floor_forces)
    pulled = sum(
        strap.tension_n * (strap.anchor_m - strap.body_m)[2] / np.linalg.norm(strap.anchor_m - strap.body_m)
        for strap in end.straps
    )
    assert upright + pulled == pytest.approx(end.body_weight_n)
    for upper, lower in (("left_thigh", "left_shank"), ("upper_trunk", "head"), ("right_foot", "right_toes")):
        assert end.tip_m[SEGMENT_INDEX[upper]] == pytest.approx(end.joint_m[SEGMENT_INDEX[lower]])


def test_moves_across_mark_the_floor_to_the_side() -> None:
    scene = scenes_of(standing_in("side plank"))[-1]
    assert scene.mark_axis == 1
    assert mark_point_m(scene)[0] == 0.0
    assert mark_point_m(scene)[1] == scene.floor_mark_m


def test_boxes_stand_under_what_is_raised() -> None:
    rungs = [rung.rung for rung in load_move("push-up").rungs]
    (box,) = scenes_of(standing_in("push-up", rungs.index("hands on a high box")))[-1].surfaces
    assert box.height_m == pytest.approx(0.6096)  # Ebben et al. 2011: 60.96 cm
    assert not scenes_of(standing_in("push-up", rungs.index("from the toes")))[-1].surfaces


def test_a_stated_support_is_drawn_as_a_force() -> None:
    labels = {force.label for force in scenes_of(standing_in("single-leg squat"))[-1].floor_forces}
    assert "given" in labels


def test_charts_say_what_the_load_is_a_share_of() -> None:
    straps, strength = (
        mark_chart(mark_curve(standing_in(name, 1)), "metric") for name in ("row", "knee tuck")
    )
    assert "% of body weight" in straps
    assert "% of reference strength" in strength
    rep = rep_curve(standing_in("row", 1), -0.6, Tempo(2.0, 1.0, 1.0, 0.0))
    assert rep is not None
    assert "moving at tempo" in rep_chart(rep)


def test_a_curve_breaks_where_marks_are_barred_and_each_reason_is_told() -> None:
    load = [0.2, 0.3, 0.4, 0.5, 0.6]
    curve = MarkCurve("straps", [0.0, 0.1, 0.2, 0.3, 0.4], load, load, load, ["", "slips", "slack", "", ""])
    drawn = mark_chart(curve, "metric")
    assert "slips" in drawn
    assert "slack" in drawn
