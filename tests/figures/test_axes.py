from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.figures.axes import Axis, round_step, shown_number, span

CM = Axis("floor mark", "cm", 100.0)


@given(st.floats(1e-3, 1e4), st.integers(1, 12))
def test_round_steps_are_one_two_or_five_and_few_enough(size: float, most: int) -> None:
    step = round_step(size, most)
    digits = f"{step:e}".split("e")[0].rstrip("0").rstrip(".")
    assert digits in ("1", "2", "5")
    assert size / step <= most * (1.0 + 1e-6)
    # the next smaller round step, at least two fifths of this one, would be too many
    assert size / (0.4 * step) > most * (1.0 - 1e-6)


@pytest.mark.parametrize(("value", "places", "shown"), [(-0.2, 0, "0"), (-3.0, 0, "−3"), (0.25, 2, "0.25")])
def test_numbers_have_a_true_minus_and_no_negative_zero(value: float, places: int, shown: str) -> None:
    assert shown_number(value, places) == shown


def test_ticks_are_in_the_axis_unit_and_at_its_places() -> None:
    laid = span(CM, -1.3, 0.4, 0.0, 170.0, 30.0, widen=False)
    assert [shown for _, shown in laid.ticks()] == ["−100", "−50", "0"]
    assert [x for x, _ in laid.ticks()] == pytest.approx([30.0, 80.0, 130.0])


def test_widening_ends_on_whole_ticks() -> None:
    laid = span(Axis("load", "%", 100.0), 0.0, 0.47, 200.0, 0.0, 25.0, widen=True)
    assert (laid.low, laid.high) == pytest.approx((0.0, 0.5))
    assert laid.to_px(0.0) == 200.0
    assert laid.to_px(laid.high) == pytest.approx(0.0)


def test_a_single_value_still_has_a_span() -> None:
    laid = span(CM, 0.5, 0.5, 0.0, 100.0, 20.0, widen=False)
    assert laid.high == pytest.approx(0.51)


def test_axis_words() -> None:
    assert CM.words == "floor mark, cm"
    assert Axis("share", "").words == "share"
