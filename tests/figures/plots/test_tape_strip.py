"""The tape strip: to scale, ruled in the squad's units, labels apart."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.figures.plots.reading import placed_words, said, words_of

from leanmark.figures.plots.look import Look
from leanmark.figures.plots.tape_strip import spread, tape_strip

ENDS = ("behind", "ahead")
LOOK = Look(190.0, 9.0)


def test_lone_labels_stand_at_their_place_to_scale() -> None:
    places = [-1.2, -0.7, 0.0, 0.9]
    svg = tape_strip(places, ["a", "b", "c", "d"], ENDS, LOOK, 600.0)
    heights = [y for words, _, y in placed_words(svg) if words in "abcd"]
    per_m = (heights[0] - heights[-1]) / (places[-1] - places[0])
    for place, height in zip(places, heights, strict=True):
        # The SVG rounds to a thousandth of a pixel.
        assert (heights[0] - height) / per_m == pytest.approx(place - places[0], abs=1e-4)


def test_the_ruling_is_in_the_units_of_the_squad() -> None:
    metric, us = (tape_strip([-0.7, 0.4], ["a", "b"], ENDS, LOOK, 400.0, units) for units in ("metric", "us"))  # type: ignore[arg-type]
    assert {"−100 cm", "−50 cm", "plumb", "50 cm"} <= {*words_of(metric)}
    assert {"−2 ft", "−1 ft", "plumb", "1 ft"} <= {*words_of(us)}


def test_those_who_hear_it_are_told_every_tape() -> None:
    title, words = said(tape_strip([-0.7, 0.4], ["tape 1", "tape 2"], ENDS, LOOK, 400.0))
    assert title == "Tapes on the floor"
    assert "tape 1: −70 cm. tape 2: 40 cm." in words


@given(st.lists(st.floats(0.0, 10.0), min_size=1, max_size=20).map(sorted), st.floats(0.01, 0.4))
def test_labels_keep_their_order_their_gap_and_the_page(places: list[float], gap: float) -> None:
    found = spread(places, gap, (0.0, 10.0))
    # Rounding of sums of a few doubles of size 10.
    assert np.all(np.diff(found) >= gap - 1e-12)
    assert found[-1] <= 10.0 + 1e-12
    assert found[0] >= min(places[0], 10.0 - gap * (len(places) - 1)) - 1e-12


def test_labels_that_are_apart_do_not_move() -> None:
    assert spread([0.0, 1.0, 2.5], 0.5, (0.0, 3.0)) == [0.0, 1.0, 2.5]


def test_what_cannot_be_taped_is_refused() -> None:
    with pytest.raises(ValueError, match="a label for each"):
        tape_strip([0.1], [], ENDS, LOOK, 400.0)
    with pytest.raises(ValueError, match="must rise"):
        tape_strip([0.1, 0.1], ["a", "b"], ENDS, LOOK, 400.0)
