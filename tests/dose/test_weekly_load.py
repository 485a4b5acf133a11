"""Sums over sets and weeks: refusals, limit cases, properties. Published examples: tests/outside."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from leanmark.dose.weekly_load import (
    NO_LOAD,
    NO_SPREAD,
    density,
    mean_load,
    session_load,
    volume_load,
    weekly_load,
)
from leanmark.errors import FieldError

DAYS = st.lists(st.integers(0, 1000), min_size=7, max_size=7)


def test_equal_days_have_no_monotony_and_say_why() -> None:
    week = weekly_load([300.0] * 7)
    assert (week.load, week.deviation, week.monotony, week.strain) == (2100.0, 0.0, None, None)
    assert week.reason == NO_SPREAD


def test_equal_days_whose_mean_is_not_exact_have_none_either() -> None:
    # Seven times 0.1 do not add up to 0.7 exactly, so a deviation computed from the mean would not be 0.
    assert weekly_load([0.1] * 7).monotony is None


def test_a_week_of_rest_says_that_there_is_no_load() -> None:
    week = weekly_load([0.0] * 7)
    assert (week.load, week.monotony, week.reason) == (0.0, None, NO_LOAD)


@given(days=DAYS)
def test_the_samples_deviation_gives_less_monotony_by_a_known_factor(days: list[int]) -> None:
    assume(len(set(days)) > 1)
    whole, sample = weekly_load(days), weekly_load(days, "sample")
    assert whole.monotony is not None
    assert sample.monotony is not None
    # Their ratio is the root of 6 / 7: rounding alone.
    assert sample.monotony / whole.monotony == pytest.approx(np.sqrt(6 / 7), rel=1e-12)


@given(days=DAYS, order=st.permutations(range(7)), factor=st.floats(0.1, 10.0))
def test_order_does_not_matter_and_monotony_has_no_unit(
    days: list[int], order: list[int], factor: float
) -> None:
    assume(len(set(days)) > 1)
    week, other = weekly_load(days), weekly_load([factor * days[day] for day in order])
    assert other.load == pytest.approx(factor * week.load)
    assert other.monotony == pytest.approx(week.monotony)
    assert other.strain == pytest.approx(factor * week.strain)


@pytest.mark.parametrize("days", [[], [100.0] * 6, [100.0] * 8])
def test_a_week_has_seven_days(days: list[float]) -> None:
    with pytest.raises(FieldError, match=r"days = .*allowed: 7 loads"):
        weekly_load(days)


@pytest.mark.parametrize("wrong", [-1.0, float("nan"), float("inf")])
def test_loads_below_nothing_are_refused(wrong: float) -> None:
    with pytest.raises(FieldError, match="give a day of rest as 0"):
        weekly_load([wrong, 1, 2, 3, 4, 5, 6])


def test_no_reps_have_no_mean_load() -> None:
    assert volume_load([]) == 0.0
    assert mean_load([(3, 0, 50.0)]) is None


def test_entries_below_nothing_are_refused() -> None:
    with pytest.raises(FieldError, match=r"^sets = "):
        volume_load([(3, -8, 50.0)])
    with pytest.raises(FieldError, match=r"^minutes = 0 .*allowed: above 0"):
        density(100.0, 0.0)


def test_session_load_is_effort_times_minutes() -> None:
    assert session_load(5, 45) == 225
    with pytest.raises(FieldError, match=r"^RPE = 11 .*allowed: 0 to 10"):
        session_load(11, 45)
    with pytest.raises(FieldError, match=r"^minutes = -1 "):
        session_load(5, -1)
