from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.figures import poses

from leanmark.figures.layout import TALLEST, Margins, extent_m, fit, surface_rect_m
from leanmark.figures.project import VIEWS

MARGINS = Margins(8.0, 6.0, 30.0)


@given(st.floats(0.2, 5.0), st.floats(0.2, 4.0), st.floats(80.0, 900.0), st.floats(80.0, 900.0))
def test_a_fitted_extent_touches_its_margins_and_never_crosses(
    across: float, up: float, width: float, height: float
) -> None:
    low, high = np.array([-0.3, 0.0]), np.array([across - 0.3, up])
    frame = fit(low, high, width, height, MARGINS)
    (left, bottom), (right, top) = frame.to_px(np.stack([low, high])).tolist()
    slack = (left - 8.0, width - 8.0 - right, top - 6.0)
    assert all(one > -1e-6 for one in slack)  # double rounding
    assert bottom == pytest.approx(height - 30.0)
    assert min(slack[0], slack[2]) == pytest.approx(0.0, abs=1e-6)


def test_without_a_height_the_picture_is_as_tall_as_its_content() -> None:
    flat = fit(np.array([-1.0, 0.0]), np.array([1.0, 0.5]), 416.0, None, MARGINS)
    assert flat.px_per_m == pytest.approx(200.0)
    assert flat.height_px == pytest.approx(100.0 + 36.0)
    tall = fit(np.array([0.0, 0.0]), np.array([0.5, 2.5]), 400.0, None, MARGINS)
    assert tall.height_px == pytest.approx(TALLEST * 400.0)


def test_the_extent_holds_plumb_point_anchor_and_mark() -> None:
    scene = poses.row()
    low, high = extent_m([scene], VIEWS["side"], True)
    assert low[0] < scene.floor_mark_m < high[0]  # type: ignore[operator]
    assert low[1] <= 0.0
    assert high[1] > 2.45


def test_a_box_is_seen_by_its_breadth_from_the_front() -> None:
    (box,) = poses.box_press().surfaces
    low, high = surface_rect_m(box, VIEWS["front"])
    assert low.tolist() == [-0.3, 0.0]
    assert high.tolist() == [0.3, 0.42]
