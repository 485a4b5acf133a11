"""Scale readings of a made-up person with a known body give that person's loads back, with less doubt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.mechanics.calibrate import MOST_COM_SHARE, PRIOR, SCALE_ERROR_N
from leanmark.moves.calibration import Reading, calibrate_from, predicted
from leanmark.moves.known import Known
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Held, Stand, held_loads, stand
from leanmark.rig.rig import standard_rig

BUILD = Build(74.0, 1.78, "female")
RIG = standard_rig(2.45)
MARKS_M = np.array([-1.0, -0.8, -0.6])
ELSEWHERE_M = np.array([-0.7])
TRUTHS = [(0.0, 0.0), (0.006, 0.4), (-0.006, 0.4), (0.004, -0.5), (0.0, 1.0), (-0.002, -1.0)]
NOISE = np.random.default_rng(20).normal(size=3)
"""Three draws from the standard normal, the same on each run."""


def row(known: Known | None = None, build: Build = BUILD) -> Stand:
    move = load_move("row")
    return stand(move, find_rung(move, "2"), RIG, people_of([build], [known]))


def readings_of(truth: tuple[float, float], error_n: float) -> list[Reading]:
    true_n = predicted(row(), MARKS_M, np.array([truth]))[0]
    return [Reading(m, n) for m, n in zip(MARKS_M, true_n + error_n * NOISE, strict=True)]


def true_load(truth: tuple[float, float], mark_m: np.ndarray) -> float:
    standing = row(Known("row", truth[0], 0.0, truth[1], 0.0))
    return float(held_loads(standing, mark_m, np.zeros(len(mark_m), dtype=np.intp)).load[0])


def held(standing: Stand) -> Held:
    return held_loads(standing, ELSEWHERE_M, np.zeros(1, dtype=np.intp))


@pytest.mark.parametrize("truth", TRUTHS)
def test_a_made_up_persons_load_is_recovered_between_the_marks(truth: tuple[float, float]) -> None:
    # Three readings, each off by one scale error, pin the mean tension to error / sqrt(3) = 2.9 N; with as
    # much again for the slope of the prior, 6 N of 726 N body weight: 0.8 %.
    fit = calibrate_from(row(), readings_of(truth, SCALE_ERROR_N))
    found = held(row(Known.of("row", fit.calibration)))
    assert not fit.off.any()
    assert found.load[0] == pytest.approx(true_load(truth, ELSEWHERE_M), abs=0.008)


@pytest.mark.parametrize("truth", TRUTHS)
def test_readings_narrow_the_interval_and_keep_the_truth_inside(truth: tuple[float, float]) -> None:
    before = held(row())
    fit = calibrate_from(row(), readings_of(truth, SCALE_ERROR_N))
    after = held(row(Known.of("row", fit.calibration)))
    assert after.high[0] - after.low[0] < 0.8 * (before.high[0] - before.low[0])
    assert after.low[0] <= true_load(truth, ELSEWHERE_M) <= after.high[0]


def test_more_readings_narrow_more() -> None:
    """Each reading shrinks the area of the two parameters' joint uncertainty. One deviation alone may stay:
    the model is straightened at the estimate, which moves with every reading, so a reading that tells next
    to nothing of a parameter can leave it wider by the bend, here held below 1 %."""
    readings = readings_of((0.004, 0.3), 0.0)
    found = [calibrate_from(row(), readings[:count]).calibration for count in (1, 2, 3)]
    areas = [np.prod(PRIOR.deviation) ** 2, *(np.linalg.det(one.covariance) for one in found)]
    assert np.all(np.diff(areas) < 0.0)
    deviations = np.array([PRIOR.deviation, *(one.deviation for one in found)])
    assert np.all(deviations[1:] < 1.01 * deviations[:-1])


def test_the_order_of_readings_does_not_matter() -> None:
    readings = readings_of((0.004, 0.3), SCALE_ERROR_N)
    there, back = (calibrate_from(row(), part).calibration for part in (readings, readings[::-1]))
    np.testing.assert_allclose(there.mean, back.mean, atol=1e-5)
    np.testing.assert_allclose(there.covariance, back.covariance, rtol=1e-3)


def test_a_reading_as_expected_changes_no_mean() -> None:
    fit = calibrate_from(row(), readings_of((0.0, 0.0), 0.0))
    np.testing.assert_allclose(fit.calibration.mean, 0.0, atol=1e-6)
    np.testing.assert_allclose(fit.before_n, fit.after_n, rtol=1e-6)


@pytest.mark.parametrize("factor", [0.1, 0.4, 1.6, 5.0])
def test_readings_that_no_body_explains_are_flagged(factor: float) -> None:
    readings = [replace(r, tension_n=factor * r.tension_n) for r in readings_of((0.0, 0.0), 0.0)]
    fit = calibrate_from(row(), readings)
    assert fit.off.any()
    assert np.all(np.abs(fit.calibration.mean) <= [MOST_COM_SHARE, 1.0])


def test_both_tables_are_met_on_the_mean_where_the_sex_is_not_stated() -> None:
    unstated, female, male = (replace(BUILD, sex=sex) for sex in (None, "female", "male"))
    unknowns = np.array([[0.003, 0.2]])
    both, of_women, of_men = (predicted(row(build=b), MARKS_M, unknowns) for b in (unstated, female, male))
    np.testing.assert_allclose(both, 0.5 * (of_women + of_men), rtol=1e-9)


def test_no_reading_is_refused() -> None:
    with pytest.raises(FieldError, match="at least one"):
        calibrate_from(row(), [])


def test_a_move_without_straps_is_refused() -> None:
    move = load_move("push-up")
    standing = stand(move, move.rungs[0], RIG, people_of([BUILD]))
    with pytest.raises(FieldError, match=r"move = 'push-up'.*a move on straps"):
        calibrate_from(standing, [Reading(0.0, 300.0)])


def test_a_mark_that_cannot_be_held_is_refused() -> None:
    with pytest.raises(FieldError, match=r"reading 2 = 300 .*can be held.*check its mark"):
        calibrate_from(row(), [Reading(-0.7, 300.0), Reading(2.0, 300.0)])
