"""Calibration against Bayesian inference done another way, and against readings with a known truth."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm
from tests.mechanics.scenes import row_stand

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.calibrate import PRIOR, Calibration, calibrated
from leanmark.moves.calibration import Reading, calibrate_from, predicted

LEVEL_N = np.array([180.0, 260.0, 340.0])
SLOPE_N = np.array([[2600.0, 25.0], [3300.0, 40.0], [4000.0, 10.0]])


def straight(unknowns: Floats) -> Floats:
    return LEVEL_N + unknowns @ SLOPE_N.T


def on_a_grid(reading_n: Floats, error_n: float) -> Calibration:
    """Posterior moments by summing prior times likelihood (scipy's densities) over a fine grid."""
    com, pressure = np.meshgrid(np.linspace(-0.06, 0.06, 601), np.linspace(-3.0, 3.0, 601), indexing="ij")
    unknowns = np.stack([com.reshape(-1), pressure.reshape(-1)], axis=1)
    density = multivariate_normal(PRIOR.mean, PRIOR.covariance).logpdf(unknowns)
    density = density + norm(0.0, error_n).logpdf(straight(unknowns) - reading_n).sum(axis=1)
    weight = np.exp(density - density.max())
    weight /= weight.sum()
    mean = weight @ unknowns
    return Calibration(mean, (unknowns - mean).T @ (weight[:, None] * (unknowns - mean)))


@pytest.mark.parametrize("truth", [(0.0, 0.0), (0.008, 0.3), (-0.012, -0.25)])
@pytest.mark.parametrize("error_n", [5.0, 15.0])
def test_posterior_is_that_of_a_grid(truth: tuple[float, float], error_n: float) -> None:
    # Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., section 14.8 (from memory): normal prior and linear
    # normal readings have a normal posterior. Here its moments by brute force.
    reading = straight(np.array([truth]))[0] + np.array([2.0, -3.0, 1.0])
    found, expected = calibrated(straight, reading, error_n), on_a_grid(reading, error_n)
    # grid steps of 2e-4 and 1e-2 against deviations of 1e-3 and 1e-1 at the least: sums over a smooth density
    # are exact to far below a hundredth of a deviation
    assert (np.abs(found.mean - expected.mean) < 1e-2 * expected.deviation).all()
    np.testing.assert_allclose(found.deviation, expected.deviation, rtol=1e-2)


MARKS_M = np.array([-1.15, -1.0, -0.85, -0.7, -0.55, -0.4])
TRUTHS = [(0.0, 0.0), (0.006, 0.4), (-0.008, -0.5)]


@pytest.mark.parametrize("truth", TRUTHS)
def test_readings_of_a_known_person_give_that_person_back(truth: tuple[float, float]) -> None:
    # a person whose mass centre and pressure we set ourselves, read by a perfect scale at six marks
    standing = row_stand()
    tension = predicted(standing, MARKS_M, np.array([truth]))[0]
    readings = [Reading(float(m), float(t)) for m, t in zip(MARKS_M, tension, strict=True)]
    fit = calibrate_from(standing, readings, error_n=0.05)
    # the prior draws the mode towards zero by its precision over the readings': a scale error of 0.05 N and
    # slopes of some 2000 N per share and 20 N per pressure leave 1e-4 and 5e-3 at the most
    assert (np.abs(fit.calibration.mean - truth) < [1e-4, 5e-3]).all()
    np.testing.assert_allclose(fit.after_n, tension, rtol=0, atol=0.05)
    assert not fit.off.any()


@pytest.mark.parametrize("truth", TRUTHS)
def test_noisy_readings_keep_the_truth_within_three_deviations(truth: tuple[float, float]) -> None:
    standing = row_stand()
    noise = 5.0 * np.random.default_rng(20).normal(size=len(MARKS_M))
    tension = predicted(standing, MARKS_M, np.array([truth]))[0] + noise
    readings = [Reading(float(m), float(t)) for m, t in zip(MARKS_M, tension, strict=True)]
    found = calibrate_from(standing, readings, error_n=5.0).calibration
    assert (np.abs(found.mean - truth) < 3.0 * found.deviation).all()
    assert (found.deviation < PRIOR.deviation).all()


def test_more_readings_narrow_the_person_down() -> None:
    standing = row_stand()
    tension = predicted(standing, MARKS_M, np.zeros((1, 2)))[0]
    readings = [Reading(float(m), float(t)) for m, t in zip(MARKS_M, tension, strict=True)]
    deviations = [calibrate_from(standing, readings[:n]).calibration.deviation for n in (1, 3, 6)]
    assert (np.diff(np.stack(deviations), axis=0) < 0.0).all()
