"""A rep as a path: nodes, derivatives, the minimum-jerk course, and what a moving body needs."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import people, wild_poses

from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import Placement, Pose, place
from leanmark.mechanics.moments import needed_moments, weight_wrenches
from leanmark.mechanics.rep import (
    MinimumJerk,
    differentiation_matrix,
    interpolation_weights,
    lobatto_nodes,
    moving_needs,
    path_motion,
    time_at_course,
)
from leanmark.mechanics.rotation import rotation_from_vector

NODES = 17


def course(time: Floats) -> Floats:
    """Flash and Hogan 1985: 10 t^3 - 15 t^4 + 6 t^5."""
    return time**3 * (10.0 - 15.0 * time + 6.0 * time**2)


@pytest.mark.parametrize("count", [2, 3, 13, 25])
def test_lobatto_nodes_rise_from_0_to_1_as_half_a_circle_seen_from_the_side(count: int) -> None:
    nodes = lobatto_nodes(count)
    assert (nodes[0], nodes[-1]) == (0.0, 1.0)
    assert (np.diff(nodes) > 0.0).all()
    angles = np.arccos(1.0 - 2.0 * nodes)
    np.testing.assert_allclose(np.diff(angles), np.pi / (count - 1), rtol=1e-9)


@given(st.lists(st.floats(-1.0, 1.0), min_size=1, max_size=13))
def test_polynomials_below_the_node_count_are_differentiated_and_interpolated_exactly(
    coefficients: list[float],
) -> None:
    nodes = lobatto_nodes(13)
    polynomial = np.polynomial.Polynomial(coefficients)
    # thirteen coefficients up to 1: slopes up to 91; the matrix's largest entry, 48, magnifies roundings
    slope = differentiation_matrix(nodes) @ polynomial(nodes)
    np.testing.assert_allclose(slope, polynomial.deriv()(nodes), rtol=0, atol=1e-11)
    for at in (0.0, 0.123, 0.9, float(nodes[5])):
        assert interpolation_weights(nodes, at) @ polynomial(nodes) == pytest.approx(
            polynomial(at), abs=1e-12
        )


def test_a_polynomial_of_the_node_count_is_not_differentiated_exactly() -> None:
    nodes = lobatto_nodes(4)
    slope = differentiation_matrix(nodes) @ nodes**4
    assert np.abs(slope - 4.0 * nodes**3).max() > 1e-3


@given(st.floats(0.0, 1.0))
def test_time_at_course_undoes_the_course(time: float) -> None:
    reached = course(np.array([time]))
    # bisected to 2^-60; evaluating the course itself rounds terms of up to 15 by 2.2e-16 each
    np.testing.assert_allclose(course(time_at_course(reached)), reached, rtol=0, atol=1e-14)


@given(st.floats(0.05, 0.95), st.floats(0.2, 5.0))
def test_rates_are_derivatives_of_the_course_in_time(time: float, duration_s: float) -> None:
    rate, acceleration = MinimumJerk(duration_s).rates(course(np.array([time])))
    polynomial = np.polynomial.Polynomial([0.0, 0.0, 0.0, 10.0, -15.0, 6.0])
    assert rate[0] == pytest.approx(polynomial.deriv()(time) / duration_s, rel=1e-9)
    assert acceleration[0] == pytest.approx(polynomial.deriv(2)(time) / duration_s**2, rel=1e-9, abs=1e-9)


def test_a_course_starts_and_ends_at_rest() -> None:
    rate, acceleration = MinimumJerk(0.7).rates(np.array([0.0, 1.0]))
    assert not rate.any()
    assert not acceleration.any()


TURN = wild_poses(5, 1, 0.8).rotation[0]
SPIN = (
    np.random.default_rng(2).uniform(-1.0, 1.0, (18, 3)) * np.where(np.arange(18) % 3 == 0, 0.7, 0.5)[:, None]
)


def path(share: Floats) -> Pose:
    """Every joint turning about one axis of its own while the pelvis swings along a curve."""
    root = np.stack([0.2 * np.sin(2.0 * share), 0.1 * share**2, 1.0 + 0.3 * share], axis=-1)
    return Pose(root, TURN @ rotation_from_vector(share[:, None, None] * SPIN))


def placed(share: Floats) -> Placement:
    return place(people(), path(share))


def slope_of(values: Callable[[Floats], Floats], at: Floats, step: float) -> Floats:
    return (values(at + step) - values(at - step)) / (2.0 * step)


def test_motion_along_the_path_is_that_of_central_differences() -> None:
    nodes = lobatto_nodes(NODES)
    motion = path_motion(people(), placed(nodes), nodes)

    def com(share: Floats) -> Floats:
        return placed(share).com_m(people())

    # differences of step h: third derivatives (below 10 m) times h^2 / 6, and roundings of 1e-15 / h or / h^2
    np.testing.assert_allclose(motion.com_rate[0], slope_of(com, nodes, 1e-4), rtol=0, atol=1e-6)
    curve = (com(nodes + 1e-3) - 2.0 * com(nodes) + com(nodes - 1e-3)) / 1e-6
    np.testing.assert_allclose(motion.com_curve[0], curve, rtol=0, atol=1e-4)

    def spin(share: Floats) -> Floats:
        """World turning rate from the slope of the rotations."""
        turn = slope_of(lambda s: placed(s).rotation, share, 1e-4) @ np.swapaxes(
            placed(share).rotation, -1, -2
        )
        return np.stack([turn[..., 2, 1], turn[..., 0, 2], turn[..., 1, 0]], axis=-1)

    np.testing.assert_allclose(motion.turn_rate[0], spin(nodes), rtol=0, atol=1e-6)
    np.testing.assert_allclose(motion.turn_curve[0], slope_of(spin, nodes, 1e-3), rtol=0, atol=1e-4)


def momenta(share: Floats, rate: Floats) -> tuple[Floats, Floats]:
    """Momentum and angular momentum about the world origin of the whole body (K, 3) each."""
    bodies, where = people(), placed(share)
    com, turn = where.com_m(bodies), where.rotation
    speed = slope_of(lambda s: placed(s).com_m(bodies), share, 1e-4) * rate[:, None, None]
    slope = slope_of(lambda s: placed(s).rotation, share, 1e-4) @ np.swapaxes(turn, -1, -2)
    spin = np.stack([slope[..., 2, 1], slope[..., 0, 2], slope[..., 1, 0]], axis=-1) * rate[:, None, None]
    own = np.einsum("ksij,sj,kslj,ksl->ksi", turn, bodies.inertia_kg_m2[0], turn, spin)
    push = bodies.mass_kg[0, :, None] * speed
    return push.sum(axis=1), (own + np.cross(com, push)).sum(axis=1)


def test_a_moving_body_needs_its_weight_and_the_change_of_its_momenta() -> None:
    # Newton and Euler for the whole body: outside force and moment are the rates of change in time
    nodes, tempo = lobatto_nodes(NODES), MinimumJerk(0.8)
    rate, acceleration = tempo.rates(nodes)
    where = placed(nodes)
    force, moment = moving_needs(people(), where, path_motion(people(), where, nodes), rate, acceleration)
    weight, weight_moment = weight_wrenches(people(), where.com_m(people()))
    inner = slice(4, 13)  # away from the ends, where time as a function of the path has no derivative
    time = time_at_course(nodes[inner]) * 0.8

    def at(moments_s: Floats) -> tuple[Floats, Floats]:
        share = course(moments_s / 0.8)
        return momenta(share, tempo.rates(share)[0])

    (push_on, turn_on), (push_back, turn_back) = at(time + 1e-3), at(time - 1e-3)
    gained_n = (force - weight).sum(axis=1)[inner]
    gained_nm = (moment - weight_moment).sum(axis=1)[inner]
    # central differences over a millisecond: third derivatives of some 1e5 N s / s^3 times 1e-6 / 6
    np.testing.assert_allclose(gained_n, (push_on - push_back) / 2e-3, rtol=0, atol=0.1)
    np.testing.assert_allclose(gained_nm, (turn_on - turn_back) / 2e-3, rtol=0, atol=0.1)


def test_a_body_that_is_not_moving_needs_its_weight_alone() -> None:
    nodes = lobatto_nodes(5)
    where = placed(nodes)
    still = np.zeros(5)
    force, moment = moving_needs(people(), where, path_motion(people(), where, nodes), still, still)
    weight, weight_moment = weight_wrenches(people(), where.com_m(people()))
    np.testing.assert_allclose(force, weight, rtol=0, atol=1e-9)
    np.testing.assert_allclose(moment, weight_moment, rtol=0, atol=1e-9)


def test_a_body_in_free_fall_needs_nothing() -> None:
    nodes = lobatto_nodes(5)
    falling = Pose(np.stack([np.zeros(5), np.zeros(5), nodes], axis=-1), np.broadcast_to(TURN, (5, 18, 3, 3)))
    where = place(people(), falling)
    down = np.full(5, -GRAVITY_M_S2)
    force, moment = moving_needs(
        people(), where, path_motion(people(), where, nodes), np.linspace(0.0, 2.0, 5), down
    )
    np.testing.assert_allclose(force, 0.0, rtol=0, atol=1e-9)
    np.testing.assert_allclose(needed_moments(where, force, moment)[0], 0.0, rtol=0, atol=1e-9)


def test_a_rep_of_several_people_moves_each_as_alone() -> None:
    nodes = lobatto_nodes(7)
    where = placed(np.tile(nodes, 2))
    bodies = people(2).take(np.repeat([0, 1], 7))
    together = path_motion(bodies, where, nodes)
    for person in range(2):
        rows = slice(7 * person, 7 * person + 7)
        alone = Placement(where.joint_m[rows], where.rotation[rows])
        motion = path_motion(bodies.take(rows), alone, nodes)
        np.testing.assert_allclose(together.com_curve[person], motion.com_curve[0], rtol=0, atol=1e-9)
        np.testing.assert_allclose(together.turn_curve[person], motion.turn_curve[0], rtol=0, atol=1e-9)
