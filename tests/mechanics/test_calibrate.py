"""Narrowing a person's unknowns: a linear model in closed form, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.calibrate import (
    MOST_COM_SHARE,
    PRIOR,
    SCALE_ERROR_N,
    Calibration,
    Predict,
    calibrated,
)

# tensions [N] of five positions at no offset, and their slopes per share of stature and per pressure
LEVEL_N = np.array([150.0, 220.0, 300.0, 360.0, 410.0])
SLOPE_N = np.array([[2500.0, 20.0], [3000.0, 35.0], [3600.0, 30.0], [4100.0, 15.0], [4300.0, 40.0]])
TRUTH = np.array([0.006, -0.3])


def straight(rows: int = 5) -> Predict:
    """Readings that are straight lines in both unknowns."""
    return lambda unknowns: LEVEL_N[:rows] + unknowns @ SLOPE_N[:rows].T


def closed_form(reading_n: Floats, error_n: float, prior: Calibration) -> Calibration:
    """Normal prior, linear readings, normal errors: posterior by the gain form of the update."""
    slope = SLOPE_N[: len(reading_n)]
    spread = slope @ prior.covariance @ slope.T + error_n**2 * np.eye(len(reading_n))
    gain = prior.covariance @ slope.T @ np.linalg.inv(spread)
    mean = prior.mean + gain @ (reading_n - LEVEL_N[: len(reading_n)] - slope @ prior.mean)
    return Calibration(mean, prior.covariance - gain @ slope @ prior.covariance)


readings = st.lists(st.floats(-15.0, 15.0), min_size=1, max_size=5).map(np.array)


@given(noise_n=readings, error_n=st.floats(1.0, 20.0))
def test_a_linear_model_has_the_closed_form_posterior(noise_n: Floats, error_n: float) -> None:
    rows = len(noise_n)
    reading = LEVEL_N[:rows] + SLOPE_N[:rows] @ TRUTH + noise_n
    expected = closed_form(reading, error_n, PRIOR)
    found = calibrated(straight(rows), reading, error_n)
    # slopes of a straight line by differences are exact but for roundings; the last step is below 1e-6 of the
    # prior's deviations
    np.testing.assert_allclose(found.covariance, expected.covariance, rtol=1e-6)
    if abs(expected.mean[1]) < 1.0:
        np.testing.assert_allclose(found.mean, expected.mean, rtol=0, atol=1e-6)


def test_another_prior_is_taken_as_given() -> None:
    prior = Calibration(np.array([0.01, 0.2]), np.array([[4e-5, 1e-3], [1e-3, 0.09]]))
    reading = LEVEL_N + SLOPE_N @ TRUTH
    expected = closed_form(reading, 5.0, prior)
    found = calibrated(straight(), reading, 5.0, prior)
    np.testing.assert_allclose(found.mean, expected.mean, rtol=0, atol=1e-6)
    np.testing.assert_allclose(found.covariance, expected.covariance, rtol=1e-6)


def test_each_further_reading_narrows_both_unknowns() -> None:
    deviations = [PRIOR.deviation]
    for rows in range(1, 6):
        reading = LEVEL_N[:rows] + SLOPE_N[:rows] @ TRUTH
        deviations.append(calibrated(straight(rows), reading).deviation)
    assert (np.diff(np.stack(deviations), axis=0) < 0.0).all()


def test_readings_of_a_better_scale_recover_the_truth_more_closely() -> None:
    reading = LEVEL_N + SLOPE_N @ TRUTH
    misses = [np.abs(calibrated(straight(), reading, error).mean - TRUTH) for error in (20.0, 5.0, 1.0, 0.01)]
    assert (np.diff(np.stack(misses), axis=0) < 0.0).all()
    np.testing.assert_allclose(calibrated(straight(), reading, 1e-3).mean, TRUTH, rtol=0, atol=1e-5)


def test_a_bent_model_is_followed_to_its_mode() -> None:
    # two unknowns, two exact readings of a model with a bend: the mode is where both are met
    def bent(unknowns: Floats) -> Floats:
        com, pressure = unknowns[:, 0], unknowns[:, 1]
        return np.stack(
            [
                200.0 + 3000.0 * com + 20.0 * pressure**3,
                300.0 + 4000.0 * com + 2e4 * com**2 - 30.0 * pressure,
            ],
            axis=1,
        )

    truth = np.array([0.01, 0.6])
    found = calibrated(bent, bent(truth[None])[0], 1e-3)
    np.testing.assert_allclose(found.mean, truth, rtol=0, atol=1e-4)


def test_the_pressure_stays_within_the_patches_and_the_mass_centre_makes_the_best_of_it() -> None:
    # readings that only a pressure of -2 would meet
    reading = LEVEL_N + SLOPE_N @ np.array([0.0, -2.0])
    found = calibrated(straight(), reading, 0.1)
    assert found.mean[1] == -1.0

    def cost(com: float) -> float:
        miss = reading - LEVEL_N - SLOPE_N @ np.array([com, -1.0])
        return float(miss @ miss / 0.1**2 + (com / 0.01) ** 2)

    assert all(cost(found.mean[0] + d) >= cost(found.mean[0]) for d in (-1e-4, 1e-4))


def test_deviations_are_the_roots_of_the_diagonal() -> None:
    assert Calibration(np.zeros(2), np.array([[4.0, 1.0], [1.0, 9.0]])).deviation.tolist() == [2.0, 3.0]


def test_the_usual_scale_error_is_taken_unless_told() -> None:
    reading = LEVEL_N + SLOPE_N @ TRUTH
    told = calibrated(straight(), reading, SCALE_ERROR_N)
    np.testing.assert_array_equal(calibrated(straight(), reading).mean, told.mean)


@pytest.mark.parametrize("bad", [0.0, -5.0, np.nan, np.inf])
def test_a_reading_that_is_no_force_is_refused(bad: float) -> None:
    reading = np.array([150.0, bad, 300.0])
    with pytest.raises(FieldError, match=r"reading.*positive forces.*leave out readings of zero"):
        calibrated(straight(3), reading)


def test_a_reading_at_a_mark_that_cannot_be_held_is_refused_by_its_number() -> None:
    def barred(unknowns: Floats) -> Floats:
        value = straight(3)(unknowns)
        value[:, 1] = np.nan
        return value

    with pytest.raises(FieldError, match=r"reading 2 = 220.*can be held.*check its mark"):
        calibrated(barred, np.array([150.0, 220.0, 300.0]))


def test_the_mass_centre_stays_within_belief() -> None:
    found = calibrated(straight(), LEVEL_N + 600.0, 0.5)
    assert found.mean[0] == MOST_COM_SHARE
    assert abs(found.mean[1]) <= 1.0


def test_a_step_to_where_nothing_holds_is_not_taken() -> None:
    def narrow(unknowns: Floats) -> Floats:
        return np.where(np.abs(unknowns[:, 1:]) < 0.3, straight()(unknowns), np.nan)

    found = calibrated(narrow, LEVEL_N + SLOPE_N @ np.array([0.0, 0.9]), 1.0)
    assert np.isfinite(found.mean).all()
    assert abs(found.mean[1]) < 0.3
