from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.figures import pictures, poses
from tests.figures.mannequin import ANCHOR_M

from leanmark.figures.draw import draw, frame_for
from leanmark.figures.project import VIEWS, project
from leanmark.figures.rig import YOKE_M, yoke_m
from leanmark.figures.theme import THEMES

OCHRE = THEMES["light"].ochre


def test_the_strap_divides_a_hands_length_above_the_grip() -> None:
    (strap, _) = poses.row().straps
    gap = yoke_m(strap) - strap.body_m
    assert np.linalg.norm(gap) == pytest.approx(YOKE_M)
    assert np.linalg.norm(np.cross(gap, strap.anchor_m - strap.body_m)) == pytest.approx(0.0, abs=1e-12)


def test_a_strap_shorter_than_its_yoke_divides_half_way() -> None:
    (strap, _) = poses.row().straps
    short = replace(strap, anchor_m=strap.body_m + np.array([0.0, 0.0, 0.1]))
    np.testing.assert_allclose(yoke_m(short), strap.body_m + np.array([0.0, 0.0, 0.05]))


@pytest.mark.parametrize("name", ["row", "plank", "one_arm_row", "under_arms"])
def test_every_strap_runs_from_its_anchor_to_the_body(name: str) -> None:
    scene = poses.ALL[name]()
    frame = frame_for([scene], VIEWS["side"], 480.0, None, 12.0, True)
    root = pictures.parsed(draw([scene], "side", 480.0))
    strokes = [
        point
        for one in root.iter(f"{pictures.SVG}path")
        if one.attrib.get("stroke") == OCHRE
        for point in pictures.path_points(one)
    ]
    for strap in scene.straps:
        for place in (ANCHOR_M, yoke_m(strap)):
            goal = frame.to_px(project(place, VIEWS["side"]))
            assert min(np.hypot(x - goal[0], y - goal[1]) for x, y in strokes) < 0.1  # paths keep a tenth


def test_no_strap_no_anchor_no_plumb_line() -> None:
    root = pictures.parsed(draw([poses.standing()], "side", 480.0))
    assert not list(root.iter(f"{pictures.SVG}circle"))
    assert not any("stroke-dasharray" in one.attrib for one in root.iter(f"{pictures.SVG}line"))


def test_two_anchors_side_by_side_are_one_from_the_side_and_two_from_the_front() -> None:
    scene = poses.row()
    apart = replace(
        scene,
        straps=tuple(
            replace(strap, anchor_m=ANCHOR_M + np.array([0.0, 0.3 if strap.side == "left" else -0.3, 0.0]))
            for strap in scene.straps
        ),
    )
    for view, anchors in (("side", 1), ("front", 2)):
        root = pictures.parsed(draw([apart], view, 480.0))
        assert len(list(root.iter(f"{pictures.SVG}circle"))) == anchors
