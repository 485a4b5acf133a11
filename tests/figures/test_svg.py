from __future__ import annotations

from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.figures.svg import attributes, clean, document, element, number, path_data, words


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (-0.001, "0"), (1.5, "1.5"), (-12.345, "-12.35"), (100.0, "100")]
)
def test_numbers_are_short(value: float, shown: str) -> None:
    assert number(value) == shown


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_numbers_that_are_not_finite_are_refused(value: float) -> None:
    with pytest.raises(ValueError, match="must be finite"):
        number(value)
    with pytest.raises(ValueError, match="not finite"):
        path_data(np.array([[0.0, value], [1.0, 1.0]]))


@given(st.lists(st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4)), min_size=1, max_size=20))
def test_a_path_keeps_every_point_to_a_tenth(points: list[tuple[float, float]]) -> None:
    data = path_data(np.array(points), closed=False).removeprefix("M")
    read = [tuple(float(value) for value in pair.split()) for pair in data.split("L")]
    # half of the last printed digit
    assert all(min(abs(x - a) + abs(y - b) for a, b in read) <= 0.1 + 1e-9 for x, y in points)


def test_neighbours_that_print_alike_are_written_once() -> None:
    assert path_data(np.array([[0.0, 0.0], [0.01, 0.02], [5.0, 0.0]])) == "M0 0L5 0Z"


@given(st.text(max_size=80))
def test_any_text_survives_as_words_and_as_attribute(text: str) -> None:
    root = ElementTree.fromstring(element("g", words("text", text), aria_label=text))
    # XML reads a bare return as a line feed and a tab in an attribute as a blank; clean() takes both out
    assert (root[0].text or "") == clean(text)
    assert root.attrib["aria-label"] == clean(text)


def test_left_out_attributes_are_not_written() -> None:
    assert attributes(stroke_width=1.0, fill=None, class_="x") == ' stroke-width="1" class="x"'


def test_a_document_says_what_it_shows() -> None:
    root = ElementTree.fromstring(document(10.0, 5.0, "<Row>", "a & b", "#ffffff", []))
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-label"] == "<Row>"
    assert [one.text for one in root[:2]] == ["<Row>", "a & b"]
