from __future__ import annotations

from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.figures import pictures

from leanmark.figures.labels import Label, hatch, place_labels, text, text_width_px
from leanmark.figures.theme import THEMES

LIGHT = THEMES["light"]
BOUNDS = (0.0, 0.0, 300.0, 200.0)


def _set(labels: list[Label], obstacles: np.ndarray) -> list[tuple[str, float, float, float, float]]:
    markup = place_labels(labels, obstacles, BOUNDS, 10.0, LIGHT)
    root = ElementTree.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{markup}</svg>')
    return pictures.text_boxes(root, letter=0.58)


def test_a_label_keeps_off_a_crowded_place() -> None:
    crowd = np.stack(np.meshgrid(np.linspace(160.0, 300.0, 30), np.linspace(60.0, 140.0, 30)), -1).reshape(
        -1, 2
    )
    ((_, left, _, right, _),) = _set(
        [Label((("twelve words",),), np.array([[150.0, 100.0]]), "#000000")], crowd
    )
    assert right <= 160.0
    assert left >= 0.0


def test_labels_at_one_spot_are_set_apart() -> None:
    spot = np.array([[150.0, 100.0]])
    labels = [Label(((f"label {row}",),), spot, "#000000") for row in range(4)]
    boxes = _set(labels, np.zeros((0, 2)))
    for row, first in enumerate(boxes):
        for second in boxes[row + 1 :]:
            apart = (
                first[3] <= second[1]
                or second[3] <= first[1]
                or first[4] <= second[2]
                or second[4] <= first[2]
            )
            assert apart, (first, second)


def test_a_narrow_layout_is_taken_where_the_wide_one_would_cover() -> None:
    wall = np.stack([np.full(200, 200.0), np.linspace(0.0, 200.0, 200)], axis=1)
    label = Label(
        (("eleven kg-force each strap",), ("eleven", "kg-force", "each strap")),
        np.array([[200.0, 90.0]]),
        "#000000",
    )
    narrow = [one[0] for one in _set([label], np.concatenate([wall, wall - [40.0, 0.0], wall - [80.0, 0.0]]))]
    assert narrow == ["eleven", "kg-force", "each strap"]
    assert [one[0] for one in _set([label], np.zeros((0, 2)))] == ["eleven kg-force each strap"]


def test_a_label_too_wide_for_the_picture_starts_at_its_edge() -> None:
    ((_, left, _, _, _),) = _set(
        [Label((("word " * 30,),), np.array([[290.0, 10.0]]), "#000000")], np.zeros((0, 2))
    )
    assert left == pytest.approx(0.0, abs=0.01)  # written to a hundredth


@given(
    st.floats(0.0, 100.0),
    st.floats(0.0, 100.0),
    st.floats(1.0, 90.0),
    st.floats(1.0, 90.0),
    st.floats(2.0, 12.0),
)
def test_hatching_never_leaves_its_rectangle(
    left: float, top: float, width: float, height: float, step: float
) -> None:
    markup = hatch((left, top, left + width, top + height), step, "#000000", 1.0)
    if not markup:
        assert width + height <= 2.0 * step
        return
    # half of the tenth to which paths are written
    for x, y in pictures.path_points(ElementTree.fromstring(markup)):
        assert left - 0.051 <= x <= left + width + 0.051
        assert top - 0.051 <= y <= top + height + 0.051


def test_text_has_a_halo_and_is_escaped() -> None:
    one = ElementTree.fromstring(text("<&>", 1.0, 2.0, 10.0, LIGHT))
    assert one.text == "<&>"
    assert one.attrib["stroke"] == LIGHT.ground
    assert one.attrib["paint-order"] == "stroke"


def test_width_grows_with_letters_and_size() -> None:
    assert text_width_px("abcd", 10.0) == 2.0 * text_width_px("ab", 10.0) == 2.0 * text_width_px("abcd", 5.0)
