"""Narrow one person's unknowns from hanging-scale readings.

Two unknowns stand out in every strap position: where the body's mass centre is, and where the pressure
sits within the contact patches. Readings between anchor and strap update both by Bayes' rule: a normal
prior, readings with normal errors, the model made linear about the best estimate (Gauss-Newton to the
posterior mode; Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., chapters 4 and 14, from memory). The
pressure cannot leave the patches, nor the mass centre what is believable, so the mode is sought within both.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats

SCALE_ERROR_N: Final = 5.0  # half a kilogram-force, a usual luggage scale's step and drift; own figure
MOST_COM_SHARE: Final = 0.04
"""Farthest that a mass centre is believed from the table's [share of stature]: four prior deviations, so that
only a misreading goes beyond; own figure."""
_STEPS: Final = 20
_DIFFERENCE: Final = np.array([1e-3, 1e-2])


@dataclass(frozen=True)
class Calibration:
    """What is believed of one person.

    mean, covariance: (2,), (2, 2) of com_share (mass centre above the table's, share of stature) and
    pressure (-1: all at the end of the patch that gives least tension, 0: least effort, 1: most tension).
    """

    mean: Floats
    covariance: Floats

    @property
    def deviation(self) -> Floats:
        """Standard deviations, (2,)."""
        root: Floats = np.sqrt(np.diag(self.covariance))
        return root


PRIOR: Final = Calibration(np.zeros(2), np.diag([0.01**2, 0.5**2]))
"""Before any reading: mass centre within about one per cent of stature (spread of definitions), pressure
within the patch (two deviations reach its ends); own figure."""

Predict = Callable[[Floats], Floats]
"""Unknowns (Q, 2) to the readings' predicted tensions (Q, M) [N]."""


def calibrated(
    predict: Predict, reading_n: Floats, error_n: float = SCALE_ERROR_N, prior: Calibration = PRIOR
) -> Calibration:
    """Posterior of the two unknowns given M readings [N], the mode within their bounds.

    Raises FieldError where a reading is not a positive number, or where the model cannot take the position
    of a reading (its prediction is not a number).
    """
    reading_n = np.asarray(reading_n, dtype=float)
    if not np.all(np.isfinite(reading_n) & (reading_n > 0.0)):
        raise FieldError("reading", reading_n.tolist(), "positive forces", "leave out readings of zero")
    precision = np.linalg.inv(prior.covariance)
    mean = prior.mean.copy()
    value, slope = _linear(predict, mean)
    _check_held(value, reading_n)
    for _ in range(_STEPS):
        information = precision + slope.T @ slope / error_n**2
        gradient = slope.T @ (reading_n - value) / error_n**2 - precision @ (mean - prior.mean)
        step = _within_bounds(information, gradient, mean)
        there = _linear(predict, mean + step)
        if not all(np.isfinite(part).all() for part in there):
            break
        mean, (value, slope) = mean + step, there
        if np.abs(step / np.sqrt(np.diag(prior.covariance))).max() < 1e-6:
            break
    covariance = np.asarray(np.linalg.inv(precision + slope.T @ slope / error_n**2), dtype=np.float64)
    return Calibration(mean, covariance)


def _check_held(value_n: Floats, reading_n: Floats) -> None:
    """Refuse the first reading whose position the model cannot hold."""
    for number in np.flatnonzero(~np.isfinite(value_n)):
        raise FieldError(
            f"reading {number + 1}",
            float(reading_n[number]),
            "a reading of a position that can be held",
            "check its mark and the strap's length",
        )


def _within_bounds(information: Floats, gradient: Floats, mean: Floats) -> Floats:
    """The Newton step, or the best one that takes the pressure to the end it would pass; the mass centre
    stays within belief."""
    step = np.asarray(np.linalg.solve(information, gradient), dtype=np.float64)
    pressure = mean[1] + step[1]
    if abs(pressure) > 1.0:
        step[1] = np.sign(pressure) - mean[1]
        step[0] = (gradient[0] - information[0, 1] * step[1]) / information[0, 0]
    step[0] = np.clip(mean[0] + step[0], -MOST_COM_SHARE, MOST_COM_SHARE) - mean[0]
    return step


def _linear(predict: Predict, mean: Floats) -> tuple[Floats, Floats]:
    """Predictions (M,) and their slopes (M, 2) by differences, taken from within the patches."""
    ahead = np.where(mean + _DIFFERENCE > [np.inf, 1.0], 0.0, _DIFFERENCE)
    behind = np.where(mean - _DIFFERENCE < [-np.inf, -1.0], 0.0, _DIFFERENCE)
    value = predict(mean + np.concatenate([np.zeros((1, 2)), np.diag(ahead), -np.diag(behind)]))
    return value[0], ((value[1:3] - value[3:5]) / (ahead + behind)[:, None]).T
