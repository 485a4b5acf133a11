"""The load wave: curves over weeks, told apart by more than colour."""

from __future__ import annotations

import numpy as np
import pytest
from tests.figures.plots.reading import boxes, placed_words, said, words_of

from leanmark.figures.plots.load_wave import load_wave
from leanmark.figures.plots.look import Look

PLACE = np.array([1.25, 1.75, 2.25, 2.75])
CURVES = {"wanted": np.array([0.0, 0.2, 0.4, 0.1]), "demand": np.array([0.5, 0.55, 0.6, 0.4])}


def test_axes_say_weeks_and_shares() -> None:
    words = words_of(load_wave(PLACE, CURVES, 2, Look()))
    assert {"wanted", "demand", "week", "1", "2", "0 %", "60 %"} <= {*words}


def test_weeks_stand_at_equal_distances() -> None:
    svg = load_wave(np.array([1.5, 4.5]), {"wanted": np.array([0.1, 0.9])}, 4, Look())
    across = [x for words, x, _ in placed_words(svg) if words in ("1", "2", "3", "4")]
    # The SVG rounds to a thousandth of a pixel.
    assert np.diff(across) == pytest.approx(np.full(3, across[1] - across[0]), abs=2e-3)


def test_curves_differ_in_dash_and_in_the_shape_of_their_points() -> None:
    svg = load_wave(PLACE, CURVES, 2, Look())
    assert "stroke-dasharray" in svg
    assert "symbol" in svg


def test_a_deload_week_is_hatched_over_its_whole_length_and_named() -> None:
    look = Look()
    svg = load_wave(PLACE, CURVES, 2, look, (2,))
    ((left, _, width, _),) = boxes(svg, look.fill("barred"))
    assert left == pytest.approx(width, abs=2e-3)  # the second of two weeks; rounding as above
    assert "hatched: deload (week 2)" in words_of(svg)


def test_those_who_hear_it_are_told_where_curves_begin_end_and_peak() -> None:
    title, words = said(load_wave(PLACE, CURVES, 2, Look(), (2,)))
    assert title == "Load wave"
    assert "wanted: 0 % at first, 10 % at last, 40 % at most." in words
    assert "Deload: week 2." in words


def test_what_cannot_be_drawn_is_refused() -> None:
    with pytest.raises(ValueError, match="one to 4 curves"):
        load_wave(PLACE, {}, 2, Look())
    with pytest.raises(ValueError, match="curve 'wanted'"):
        load_wave(PLACE, {"wanted": PLACE[:2]}, 2, Look())
    with pytest.raises(ValueError, match="finite"):
        load_wave(PLACE, {"wanted": np.full(4, np.nan)}, 2, Look())
