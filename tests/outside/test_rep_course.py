"""The course of a rep and of a flight against published figures."""

from __future__ import annotations

import numpy as np
import pytest
from tests.mechanics.squat import squat_rep

from leanmark.mechanics.ballistic import ballistic_loads
from leanmark.mechanics.rep import MinimumJerk, time_at_course

# Flash and Hogan 1985, J Neurosci 5:1688: x(t) = d (10 t^3 - 15 t^4 + 6 t^5), t as a share of the duration T.
# The figures follow from that polynomial: peak speed 15/8 d/T at half time; peak acceleration 10/sqrt(3) =
# 5.7735 d/T^2 at (3 - sqrt(3))/6 = 0.2113 and at 0.7887 of the time. From memory, as printed here.
PEAK_SPEED = 1.875
PEAK_ACCELERATION = 5.7735
PEAK_ACCELERATION_AT = (0.2113, 0.7887)
PRINTED_4 = 0.5e-4  # half of the fourth decimal


def finely() -> np.ndarray:
    """Places of the course, close enough together for its peaks: a parabola misses 1e-8 of them."""
    time = np.linspace(0.0, 1.0, 20001)
    return np.asarray(time**3 * (10.0 - 15.0 * time + 6.0 * time**2))


@pytest.mark.parametrize("duration_s", [0.5, 1.0, 2.5])
def test_flash_and_hogan_1985_peak_speed(duration_s: float) -> None:
    rate, _ = MinimumJerk(duration_s).rates(finely())
    assert rate.max() * duration_s == pytest.approx(PEAK_SPEED, abs=1e-6)
    assert finely()[rate.argmax()] == pytest.approx(0.5, abs=1e-3)


@pytest.mark.parametrize("duration_s", [0.5, 1.0, 2.5])
def test_flash_and_hogan_1985_peak_acceleration(duration_s: float) -> None:
    places = finely()
    _, acceleration = MinimumJerk(duration_s).rates(places)
    assert acceleration.max() * duration_s**2 == pytest.approx(PEAK_ACCELERATION, abs=PRINTED_4)
    assert acceleration.min() * duration_s**2 == pytest.approx(-PEAK_ACCELERATION, abs=PRINTED_4)
    peaks = time_at_course(places[[acceleration.argmax(), acceleration.argmin()]])
    # places are 5e-5 of the time apart
    assert peaks == pytest.approx(PEAK_ACCELERATION_AT, abs=1e-4)


def test_flash_and_hogan_1985_course_is_symmetric_about_half_time() -> None:
    places = np.linspace(0.0, 1.0, 11)
    np.testing.assert_allclose(time_at_course(places) + time_at_course(1.0 - places), 1.0, rtol=0, atol=1e-12)
    assert time_at_course(np.array([0.5]))[0] == pytest.approx(0.5, abs=1e-12)


# Height of a jump from its flight time, h = g t^2 / 8 (PMC9750644, table 1); rows computed with g = 9.81.
FLIGHTS = [(0.40, 0.1962), (0.50, 0.3066), (0.55, 0.3709), (0.60, 0.4415), (0.70, 0.6009)]


@pytest.mark.parametrize(("flight_s", "height_m"), FLIGHTS)
def test_flight_time_of_a_height(flight_s: float, height_m: float) -> None:
    found = ballistic_loads(squat_rep(), height_m).flight_s[0]
    # heights are printed to 0.05 mm, which is t / (2 h) of that in time; and 9.81 is 0.034 % over standard
    # gravity, half of which comes into the time
    tolerance = flight_s * (0.5e-4 / (2.0 * height_m) + 0.5 * (9.81 / 9.80665 - 1.0))
    assert found == pytest.approx(flight_s, abs=tolerance)


@pytest.mark.parametrize(("flight_s", "height_m"), FLIGHTS)
def test_take_off_speed_is_half_the_flight_time_of_gravity(flight_s: float, height_m: float) -> None:
    # same source: v = g t / 2
    found = ballistic_loads(squat_rep(), height_m).take_off_m_s[0]
    tolerance = 9.81 * flight_s / 2.0 * (0.5e-4 / (2.0 * height_m) + 0.5 * (9.81 / 9.80665 - 1.0))
    assert found == pytest.approx(9.81 * flight_s / 2.0, abs=tolerance)
