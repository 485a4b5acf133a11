"""RPE by reps in reserve and back."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.effort import EFFORT_SCALE, reserve_of, rpe_of
from leanmark.errors import FieldError


def test_the_rows_of_the_scale() -> None:
    for reserve, rpe in EFFORT_SCALE:
        assert float(rpe_of(reserve)) == rpe
        assert float(reserve_of(rpe)) == reserve


def test_zourdos_2016_half_rows() -> None:
    # Zourdos et al. 2016, from memory: 8.5 is 1 to 2 left, 7.5 is 2 to 3, 5 to 6 is 4 to 6.
    assert reserve_of([8.5, 7.5]).tolist() == [1.5, 2.5]
    assert 4.0 <= float(reserve_of(5.5)) <= 6.0


@given(reserve=st.floats(0.0, 6.0))
def test_a_reserve_comes_back(reserve: float) -> None:
    # Straight lines of slope 1 and 1/2 both ways: rounding alone.
    assert float(reserve_of(rpe_of(reserve))) == pytest.approx(reserve, abs=1e-12)


def test_more_left_is_less_effort() -> None:
    assert (np.diff(rpe_of(np.linspace(0.0, 6.0, 30))) < 0.0).all()


@pytest.mark.parametrize("reserve", [-0.5, 6.5, np.nan])
def test_reserves_off_the_scale_are_refused(reserve: float) -> None:
    with pytest.raises(FieldError, match=r"^reps in reserve = .*allowed: 0 to 6"):
        rpe_of([1.0, reserve])


@pytest.mark.parametrize("rpe", [4.9, 10.5, np.nan])
def test_efforts_off_the_scale_are_refused(rpe: float) -> None:
    with pytest.raises(FieldError, match=r"^RPE = .*allowed: 5 to 10"):
        reserve_of(rpe)
