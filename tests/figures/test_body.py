from __future__ import annotations

from xml.etree import ElementTree

import pytest
from tests.figures import pictures, poses

from leanmark.figures.body import body_outline_m, paint_body, paint_ghost
from leanmark.figures.draw import frame_for
from leanmark.figures.project import VIEWS
from leanmark.figures.scene import Scene
from leanmark.figures.style import Style
from leanmark.figures.theme import THEMES


def _style(scene: Scene, view: str, width_px: float = 480.0) -> Style:
    look = VIEWS[view]  # type: ignore[index]
    return Style(look, frame_for([scene], look, width_px, None, 12.0, True), THEMES["light"], "metric", 12.0)


@pytest.mark.parametrize("view", list(VIEWS))
def test_outlines_bound_all_that_is_painted(view: str) -> None:
    scene = poses.squat()
    style = _style(scene, view)
    bounds = style.frame.to_px(body_outline_m(scene, style.view))
    low, high = (
        bounds.min(axis=0) - 1.5,
        bounds.max(axis=0) + 1.5,
    )  # facets of the coarser outline, and rounding
    for one in paint_body(scene, style):
        for path in ElementTree.fromstring(f"<g>{one.markup}</g>"):
            for x, y in pictures.path_points(path):
                assert low[0] <= x <= high[0]
                assert low[1] <= y <= high[1]


def test_painting_runs_from_far_to_near() -> None:
    scene = poses.row()
    depths = [one.depth_m for one in paint_body(scene, _style(scene, "side"))]
    assert depths == sorted(depths)


def test_an_elbow_seam_is_painted_out_in_the_limbs_own_colour() -> None:
    scene = poses.row(bent=True)
    markup = [one.markup for one in paint_body(scene, _style(scene, "side")) if one.markup.count("<path") > 1]
    assert markup
    for one in markup:
        first, *mends = ElementTree.fromstring(f"<g>{one}</g>")
        assert {mend.attrib["fill"] for mend in mends} == {first.attrib["fill"]}
        assert not any("stroke" in mend.attrib for mend in mends)


def test_a_ghost_is_one_quiet_shape() -> None:
    scene = poses.row()
    shape = ElementTree.fromstring(paint_ghost(scene, _style(scene, "side")))
    assert shape.attrib["fill"] == THEMES["light"].ghost
    assert shape.attrib["stroke"] == THEMES["light"].ghost_line


def test_small_figures_are_lighter_files() -> None:
    scene = poses.row()
    small, large = (
        sum(len(one.markup) for one in paint_body(scene, _style(scene, "side", width)))
        for width in (110.0, 900.0)
    )
    assert small < 0.4 * large
