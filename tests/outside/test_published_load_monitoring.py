"""Volume, density, monotony and strain against worked examples.

Published: a table of examples in BMJ Military Health (public markup 158463). Tolerances: half a unit of the
last printed digit. Foster's own worked week (Foster 1998, Med Sci Sports Exerc 30(7):1164) was not found; two
weeks were worked out by hand from his definitions, not by this code.
"""

from __future__ import annotations

import pytest

from leanmark.dose.weekly_load import Spread, density, mean_load, volume_load, weekly_load

WEEK = (300, 600, 0, 450, 300, 700, 0)
ONE_REST = (360, 360, 360, 360, 360, 360, 0)


def test_bmj_mil_health_volume_load() -> None:
    assert volume_load([(3, 8, 65)]) == 1560
    assert volume_load([(1, 10, 55), (1, 8, 65), (1, 6, 75)]) == 1520


def test_bmj_mil_health_mean_load_per_rep() -> None:
    mean = mean_load([(1, 10, 55), (1, 8, 65), (1, 6, 75)])
    assert mean == pytest.approx(63.3, abs=0.05)
    assert 100 * mean / 110 == pytest.approx(57.6, abs=0.05)


def test_bmj_mil_health_density() -> None:
    assert density(volume_load([(3, 8, 65)]), 45) == pytest.approx(34.7, abs=0.05)


def test_bmj_mil_health_monotony() -> None:
    # Printed: daily mean 790, deviation 897, monotony .88. Its days are not printed, so a week of that mean
    # and deviation is made.
    raw = (0, 0, 0, 300, 900, 1500, 2400)
    mean = sum(raw) / 7
    deviation = (sum((day - mean) ** 2 for day in raw) / 7) ** 0.5
    week = weekly_load([790 + 897 * (day - mean) / deviation for day in raw], "population")
    assert (week.daily, week.deviation) == pytest.approx((790, 897))
    assert week.monotony == pytest.approx(0.88, abs=0.005)


@pytest.mark.parametrize(
    ("days", "spread", "deviation", "monotony", "strain"),
    [
        (WEEK, "population", 251.73, 1.334, 3134.0),
        (WEEK, "sample", 271.90, 1.235, 2901.6),
        (ONE_REST, "population", None, 2.449, 5290.9),
        (ONE_REST, "sample", None, 2.268, 4898.4),
    ],
)
def test_weeks_by_hand(
    days: tuple[int, ...], spread: Spread, deviation: float | None, monotony: float, strain: float
) -> None:
    # Half a unit of the last digit.
    week = weekly_load(days, spread)
    assert week.load == sum(days)
    assert week.monotony == pytest.approx(monotony, abs=0.0005)
    assert week.strain == pytest.approx(strain, abs=0.05)
    if deviation:
        assert week.daily == pytest.approx(335.71, abs=0.005)
        assert week.deviation == pytest.approx(deviation, abs=0.005)
