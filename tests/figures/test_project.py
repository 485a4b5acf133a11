from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.figures.project import VIEWS, Frame, depth, project, view_by_name

FORWARD, LEFT, UP = np.eye(3)


def test_side_view_faces_right_and_shows_the_right_side_near() -> None:
    side = VIEWS["side"]
    assert project(FORWARD, side).tolist() == [1.0, 0.0]
    assert project(UP, side).tolist() == [0.0, 1.0]
    assert depth(-LEFT, side) > depth(LEFT, side)


def test_front_view_is_face_to_face() -> None:
    front = VIEWS["front"]
    assert project(LEFT, front).tolist() == [1.0, 0.0]
    assert depth(FORWARD, front) == 1.0


def test_back_view_mirrors_the_front() -> None:
    assert project(LEFT, VIEWS["back"]).tolist() == [-1.0, 0.0]
    assert depth(FORWARD, VIEWS["back"]) == -1.0


@pytest.mark.parametrize("name", list(VIEWS))
def test_a_view_keeps_lengths_and_handedness(name: str) -> None:
    view = view_by_name(name)
    axes = np.stack([view.right, view.up, view.toward])
    np.testing.assert_array_equal(axes @ axes.T, np.eye(3))
    assert np.linalg.det(axes) == 1.0
    assert view.right[view.along] != 0.0


def test_unknown_view_lists_the_known() -> None:
    with pytest.raises(ValueError, match="view is 'top'; it must be one of side, front, back"):
        view_by_name("top")


@given(st.floats(10.0, 1000.0), st.floats(-5.0, 5.0), st.floats(-5.0, 5.0))
def test_frame_has_one_scale_for_both_directions(scale: float, across: float, up: float) -> None:
    frame = Frame(scale, (31.0, 47.0), 640.0, 480.0)
    x, y = frame.to_px(np.array([across, up])).tolist()
    # exact but for double rounding: two operations on numbers below 1e4
    assert x - 31.0 == pytest.approx(scale * across, abs=1e-9)
    assert 47.0 - y == pytest.approx(scale * up, abs=1e-9)
