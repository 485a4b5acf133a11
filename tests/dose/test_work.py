"""Work and impulse of a rep: limit cases, sums over a set, units. Reference library: tests/outside."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.dose.test_times import Done
from tests.moves.whole_library import MOVES, ladder_of, named

import leanmark.dose.work as work_of
from leanmark.dose.work import RepWork, climbed_m, rep_work, set_work
from leanmark.mechanics.arrays import GRAVITY_M_S2
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.motions import mass_centre
from leanmark.moves.ladder.demand import Solved
from leanmark.moves.schema import Move

SECONDS = st.floats(0.0, 10.0)


def heights_m(one: Solved) -> np.ndarray:
    """Mass centre's height at each pose, by row."""
    return mass_centre(one.rep.bodies, place(one.rep.bodies, one.rep.solution.pose))[:, 2].reshape(
        -1, one.steps
    )


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_work_of_every_rung_is_plain_where_it_must_be(move: Move) -> None:
    for one in ladder_of(move):
        found = rep_work(one)
        assert found.work_j.shape == found.moving_n.shape == (one.count,)
        assert (found.work_j >= 0.0).all()
        assert (found.work_j == 0.0).all() == (one.steps == 1), "holds alone do no work"
        rise = heights_m(one)
        # No rep climbs less than from its lowest to its highest pose.
        assert (climbed_m(one) >= np.ptp(rise, axis=1) - 1e-12).all()


@pytest.mark.parametrize("name", ["row", "squat"])
def test_a_rep_that_only_rises_climbs_by_the_difference_of_its_ends(name: str) -> None:
    # The rise of a rising polynomial, summed in steps, telescopes: rounding alone.
    one = ladder_of(name)[1]
    height = heights_m(one)
    paths = [np.polynomial.Polynomial.fit(one.rep.nodes, row, one.steps - 1) for row in height]
    assert all((np.diff(path(np.linspace(0.0, 1.0, 201))) > 0.0).all() for path in paths)
    assert climbed_m(one) == pytest.approx(height[:, -1] - height[:, 0], abs=1e-12)


def test_half_the_places_tell_the_rise_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    """Regression of the figure beside ``RISE_PLACES``; a rise below 1 mm counts as 1 mm."""
    every = [one for move in MOVES for one in ladder_of(move)]
    fine = [climbed_m(one) for one in every]
    monkeypatch.setattr(work_of, "RISE_PLACES", np.linspace(0.0, 1.0, 33))
    work_of._rise_weights.cache_clear()
    coarse = [climbed_m(one) for one in every]
    work_of._rise_weights.cache_clear()
    change = [np.abs(a - b).max() / max(b.max(), 1e-3) for a, b in zip(coarse, fine, strict=True)]
    assert 0.0 < max(change) < 0.003


def test_a_heavier_body_of_like_build_does_more_work_in_proportion() -> None:
    one = ladder_of("squat")[0]
    heavy = replace(one.rep.bodies, mass_kg=2.0 * one.rep.bodies.mass_kg)
    twice = replace(one, rep=replace(one.rep, bodies=heavy))
    assert rep_work(twice).work_j == pytest.approx(2.0 * rep_work(one).work_j)


def test_straps_that_carry_nothing_give_no_impulse() -> None:
    one = ladder_of("push-up")[0]
    found = rep_work(one)
    assert found.rep_impulse_ns((2.0, 1.0, 1.0, 0.0)).tolist() == [0.0] * one.count


def test_a_constant_pull_gives_force_times_time() -> None:
    # Minimum-jerk weights of a constant are its mean: rounding alone.
    one = ladder_of("row")[0]
    level = replace(
        one, loads=replace(one.loads, strap_tension_n=np.full_like(one.loads.strap_tension_n, 80.0))
    )
    straps = one.loads.strap_tension_n.shape[1]
    found = rep_work(level).rep_impulse_ns((3.0, 1.0, 2.0, 0.5))
    assert found == pytest.approx(80.0 * straps * 6.5)


def test_the_mean_over_a_moving_phase_is_that_of_many_instants() -> None:
    # Trapezoids over 2001 instants of the course err by 1e-6 of the curve's bend at most.
    one = ladder_of("row")[1]
    nodes, tension_n = one.rep.nodes, one.loads.strap_tension_n.sum(axis=1).reshape(-1, one.steps)
    time = np.linspace(0.0, 1.0, 2001)
    course = 10 * time**3 - 15 * time**4 + 6 * time**5
    for row, expected in zip(tension_n, rep_work(one).moving_n[one.position], strict=True):
        curve = np.polynomial.Polynomial.fit(nodes, row, one.steps - 1)(course)
        assert np.trapezoid(curve, time) == pytest.approx(expected, rel=1e-5)


FLAT = RepWork(*(np.array([value]) for value in (100.0, 300.0, 200.0, 400.0)))


@given(down=SECONDS, low=SECONDS, up=SECONDS, high=SECONDS)
def test_pauses_are_spent_where_they_belong(down: float, low: float, up: float, high: float) -> None:
    found = float(FLAT.rep_impulse_ns((down, low, up, high))[0])
    assert found == pytest.approx(300.0 * (down + up) + 200.0 * low + 400.0 * high)


def test_a_set_by_hand() -> None:
    # 8 reps of 3-1-1-0: 8 x (300 x 4 + 200) = 11 200 N s, 800 J; then a hold of 10 s: 2000 N s, no work.
    found = set_work(FLAT, [Done(reps=8), Done(hold_s=10.0)], each_side=False)
    assert (found.under_load_s, found.work_j[0], found.impulse_ns[0]) == (50.0, 800.0, 13_200.0)
    both = set_work(FLAT, [Done(reps=8), Done(hold_s=10.0)], each_side=True)
    assert (both.under_load_s, both.work_j[0], both.impulse_ns[0]) == (100.0, 1600.0, 26_400.0)


def test_a_rise_of_one_metre_is_body_weight_in_joules(monkeypatch: pytest.MonkeyPatch) -> None:
    one = ladder_of("squat")[0]
    monkeypatch.setattr(work_of, "climbed_m", lambda solved: np.ones(len(solved.position)))
    mass_kg = one.rep.bodies.body_mass_kg.reshape(-1, one.steps)[:, 0]
    # Segment masses sum to the body mass: rounding alone.
    assert rep_work(one).work_j == pytest.approx(mass_kg * GRAVITY_M_S2, rel=1e-9)
