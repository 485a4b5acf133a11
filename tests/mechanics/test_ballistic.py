"""Ballistic reps: flight as thrown bodies fly, push-off and landing as momentum says."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline
from tests.mechanics.scenes import people, row_rep
from tests.mechanics.squat import mass_centre_height, squat_rep

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.ballistic import TAKE_OFF, ballistic_loads
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.rep import interpolation_weights

MASS_KG = float(people().body_mass_kg[0])
BODY_WEIGHT_N = MASS_KG * GRAVITY_M_S2
heights = st.floats(0.02, 0.5)


def floor_n(loads: Loads, used: Floats) -> Floats:
    """Upward floor force at the nodes used."""
    force: Floats = loads.contact_force_n[..., 2].sum(axis=1)[used]
    return force


@given(heights)
@settings(max_examples=10)
def test_flight_time_and_take_off_speed_are_those_of_a_thrown_body(flight_m: float) -> None:
    flying = ballistic_loads(squat_rep(), flight_m)
    assert flying.flight_s[0] == pytest.approx(np.sqrt(8.0 * flight_m / GRAVITY_M_S2), rel=1e-12)
    assert flying.take_off_m_s[0] == pytest.approx(np.sqrt(2.0 * GRAVITY_M_S2 * flight_m), rel=1e-12)


def work_done_j(force_n: Floats, height_m: Floats) -> float:
    """Work of the floor force over weight along the mass centre's rise from rest.

    The force rises from weight as the cube root u of the rise, so it is integrated over that root, in which
    it is smooth: dz = 3 u^2 du.
    """
    root = np.cbrt(height_m - height_m[0])
    power = CubicSpline(root, (force_n - BODY_WEIGHT_N) * 3.0 * root**2)
    return float(power.integrate(0.0, root[-1]))


def ends_m(*shares: float) -> list[float]:
    """Heights of the mass centre at places of the squat's path."""
    rep = squat_rep(41)
    return [float(interpolation_weights(rep.nodes, at) @ mass_centre_height(rep)) for at in shares]


@settings(max_examples=10)
@given(heights)
def test_the_push_off_does_the_work_of_the_flight(flight_m: float) -> None:
    # work and energy: the floor force less weight, over the rise, is m v^2 / 2 = m g h at take-off, without
    # straps; at take-off the force has gone
    rep = squat_rep(41)
    flying = ballistic_loads(rep, flight_m)
    force = np.append(floor_n(flying.push_off, flying.push_nodes), 0.0)
    height = np.append(mass_centre_height(rep)[flying.push_nodes], ends_m(TAKE_OFF))
    # a cubic spline over thirty steps
    assert work_done_j(force, height) == pytest.approx(BODY_WEIGHT_N * flight_m, rel=2e-3)


def course_force_n(height_m: float, bottom_m: float, top_m: float, speed: float) -> float:
    """Floor force at a height, from the course in docs/model.md solved by polynomial roots."""
    durations = np.roots([GRAVITY_M_S2 / 12.0, speed / 2.0, bottom_m - top_m])
    duration = float(durations[durations > 0.0][0])
    k = GRAVITY_M_S2 * duration / speed
    risen = [-(2.0 + k) / 4.0, (3.0 + k) / 3.0, 0.0, 0.0, (bottom_m - height_m) / (speed * duration)]
    times = [
        root.real for root in np.roots(risen) if abs(root.imag) < 1e-9 and -1e-9 <= root.real <= 1.0 + 1e-9
    ]
    (time,) = times
    return MASS_KG * (GRAVITY_M_S2 + speed / duration * (2.0 * (3.0 + k) * time - 3.0 * (2.0 + k) * time**2))


@settings(max_examples=10)
@given(flight_m=heights, depth=st.floats(0.2, 0.8))
def test_a_landing_runs_the_course_over_its_own_depth(flight_m: float, depth: float) -> None:
    rep = squat_rep(41)
    flying = ballistic_loads(rep, flight_m, depth)
    bottom, top = ends_m(TAKE_OFF - depth, TAKE_OFF)
    found = floor_n(flying.landing, flying.landing_nodes)
    for force, height in zip(found, mass_centre_height(rep)[flying.landing_nodes], strict=True):
        expected = course_force_n(height, bottom, top, flying.take_off_m_s[0])
        # the path's own derivatives are known to some 1e-5 of the force
        assert force == pytest.approx(expected, abs=1e-3 * BODY_WEIGHT_N)


def test_the_deepest_landing_is_the_push_off_backwards() -> None:
    flying = ballistic_loads(squat_rep(), 0.3, TAKE_OFF)
    np.testing.assert_allclose(
        floor_n(flying.landing, flying.push_nodes), floor_n(flying.push_off, flying.push_nodes), rtol=1e-9
    )


@settings(max_examples=10)
@given(heights)
def test_the_impulse_of_the_push_off_is_the_take_off_momentum(flight_m: float) -> None:
    # impulse and momentum: floor force less weight, over time, is m v. The time between two nodes is the rise
    # over the mean speed, and the speed at each node follows from the work done so far
    rep = squat_rep(41)
    flying, height = ballistic_loads(rep, flight_m), mass_centre_height(rep)
    top = float(interpolation_weights(rep.nodes, TAKE_OFF) @ height)
    force = np.append(floor_n(flying.push_off, flying.push_nodes), 0.0) - BODY_WEIGHT_N
    levels = np.append(height[flying.push_nodes], top)
    work = np.concatenate([[0.0], np.cumsum(0.5 * (force[1:] + force[:-1]) * np.diff(levels))])
    speed = np.sqrt(2.0 * np.maximum(work, 0.0) / MASS_KG)
    later = slice(4, None)  # near rest the time of a step is ill known, and almost no force has acted yet
    time = np.diff(levels[later]) / (0.5 * (speed[later][1:] + speed[later][:-1]))
    impulse = np.sum(0.5 * (force[later][1:] + force[later][:-1]) * time)
    gained = MASS_KG * (flying.take_off_m_s[0] - speed[4])
    assert impulse == pytest.approx(gained, rel=0.02)


@settings(max_examples=10)
@given(heights)
def test_the_floor_only_pushes_and_lets_go_at_take_off(flight_m: float) -> None:
    rep = squat_rep(41)
    flying = ballistic_loads(rep, flight_m)
    force = floor_n(flying.push_off, flying.push_nodes)
    assert flying.possible.tolist() == [True]
    assert force[0] == pytest.approx(BODY_WEIGHT_N, rel=1e-6)
    assert (force > 0.0).all()
    assert force[-1] < 0.5 * BODY_WEIGHT_N < BODY_WEIGHT_N < force.max()
    assert (floor_n(flying.landing, flying.landing_nodes) > 0.0).all()


def test_the_push_off_takes_as_long_as_its_speed_and_travel_say() -> None:
    # v (1/2 + k/12) T = travel with k = g T / v, and the greatest acceleration of that cubic course is
    # v / T (3 + k)^2 / (3 (2 + k)): docs/model.md
    flying = ballistic_loads(squat_rep(41), 0.2)
    v, (bottom, top) = float(flying.take_off_m_s[0]), ends_m(0.0, TAKE_OFF)
    durations = np.roots([GRAVITY_M_S2 / 12.0, v / 2.0, bottom - top])
    duration = float(durations[durations > 0.0][0])
    k = GRAVITY_M_S2 * duration / v
    peak = MASS_KG * (GRAVITY_M_S2 + v / duration * (3.0 + k) ** 2 / (3.0 * (2.0 + k)))
    # the highest node may miss the peak by half a step of forty: a parabola falls by (1/40)^2 of its height
    assert floor_n(flying.push_off, flying.push_nodes).max() == pytest.approx(peak, rel=5e-3)


def test_a_shallow_landing_loads_more_than_a_deep_one() -> None:
    peaks = [
        floor_n(flying.landing, flying.landing_nodes).max()
        for flying in (ballistic_loads(squat_rep(41), 0.2, depth) for depth in (0.9, 0.6, 0.3))
    ]
    assert peaks == sorted(peaks)


def test_higher_flights_load_more() -> None:
    peaks = [
        ballistic_loads(squat_rep(), h).push_off.contact_force_n[..., 2].sum(axis=1).max()
        for h in (0.1, 0.2, 0.4)
    ]
    assert peaks == sorted(peaks)


def test_only_the_nodes_on_the_ground_are_used() -> None:
    rep = squat_rep()
    flying = ballistic_loads(rep, 0.1, 0.4)
    np.testing.assert_array_equal(flying.push_nodes, rep.nodes <= TAKE_OFF)
    np.testing.assert_array_equal(
        flying.landing_nodes, (rep.nodes <= TAKE_OFF) & (rep.nodes >= TAKE_OFF - 0.4)
    )


def test_a_row_cannot_take_off() -> None:
    # pulled up to the anchor the straps must go slack, or the floor pull
    flying = ballistic_loads(row_rep(-1.0), 0.3)
    assert flying.possible.tolist() == [False]


@pytest.mark.parametrize("flight_m", [0.0, -0.1, 0.81, np.nan])
def test_a_flight_outside_its_range_is_refused(flight_m: float) -> None:
    with pytest.raises(FieldError, match=r"flight_m .*above 0 and up to 0.8.*rise of the body in metres"):
        ballistic_loads(squat_rep(), flight_m)


@pytest.mark.parametrize("depth", [0.05, 0.95])
def test_a_landing_outside_its_range_is_refused(depth: float) -> None:
    with pytest.raises(FieldError, match=r"landing_depth .*0.1 to 0.9.*share of the rep's path"):
        ballistic_loads(squat_rep(), 0.2, depth)
