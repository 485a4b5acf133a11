from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.figures import poses
from tests.figures.mannequin import BODY_WEIGHT_N

from leanmark.figures.draw import frame_for
from leanmark.figures.forces import floor_labels, strap_labels, strap_words
from leanmark.figures.layout import WEIGHT_ARROW_M, force_tips_m
from leanmark.figures.project import VIEWS
from leanmark.figures.scene import Scene, StrapLine
from leanmark.figures.style import Style
from leanmark.figures.theme import THEMES


def _style(scene: Scene, view: str = "side") -> Style:
    look = VIEWS[view]  # type: ignore[index]
    return Style(look, frame_for([scene], look, 480.0, None, 12.0, True), THEMES["light"], "metric", 12.0)


def _strap(tension_n: float, low_n: float, high_n: float, side: str = "left") -> StrapLine:
    return StrapLine(np.array([0.0, 0.0, 2.4]), np.array([-0.4, 0.1, 1.2]), side, tension_n, low_n, high_n)


def test_strap_words_give_force_interval_and_share() -> None:
    # 98.0665 N is 10 kg-force exactly; of 720 N it is 13.6 %, and 88.3 and 107.9 N are 12.3 and 15.0 %
    words = strap_words([_strap(98.0665, 88.26, 107.87)], BODY_WEIGHT_N, "metric")
    assert words == (("10 (9–11) kg-force", "strap"), ("14 % (12–15)", "of body weight"))


def test_two_straps_share_the_weight_they_carry_together() -> None:
    pair = [_strap(180.0, 180.0, 180.0), _strap(180.0, 180.0, 180.0, "right")]
    assert strap_words(pair, 720.0, "metric")[1] == ("50 %", "of body weight")


def test_an_interval_no_wider_than_what_is_shown_is_left_out() -> None:
    assert strap_words([_strap(98.0, 97.9, 98.1)], 0.0, "metric") == (("10 kg-force", "strap"),)


def test_a_negative_share_has_a_true_minus() -> None:
    assert strap_words([_strap(-20.0, -20.0, -20.0)], 720.0, "metric")[1][0] == "−3 %"


def test_equal_straps_are_named_once_and_unequal_ones_each() -> None:
    scene = poses.row()
    assert len(strap_labels(scene, _style(scene))) == 1
    left, right = scene.straps
    uneven = replace(scene, straps=(left, replace(right, tension_n=3.0 * right.tension_n)))
    assert len(strap_labels(uneven, _style(uneven))) == 2


def test_equal_feet_are_named_once_from_the_side_and_each_from_the_front() -> None:
    scene = poses.row()
    (both,) = floor_labels(scene, _style(scene))
    assert both.layouts[0][0].startswith("each foot 28 kg-force")
    assert [one.layouts[0][0] for one in floor_labels(scene, _style(scene, "front"))] == [
        "left foot 28 kg-force",
        "right foot 28 kg-force",
    ]


def test_arrows_are_as_long_as_their_share_of_body_weight() -> None:
    scene = poses.lunge()
    (force,) = scene.floor_forces
    (tip,) = force_tips_m(scene, VIEWS["side"])
    drawn_m = np.hypot(tip[0] - force.point_m[0], tip[1] - force.point_m[2])
    size_n = np.hypot(force.force_n[0], force.force_n[2])
    assert drawn_m == pytest.approx(WEIGHT_ARROW_M * size_n / BODY_WEIGHT_N)


def test_without_a_body_weight_there_is_no_arrow() -> None:
    assert force_tips_m(replace(poses.row(), body_weight_n=0.0), VIEWS["side"]).shape == (0, 2)
