"""The least-effort split and its range against scipy's general optimisers, and what each outcome means."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, minimize
from tests.mechanics.leaning import held_by, leaning_pose
from tests.mechanics.scenes import people, row_rep

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.distribution import (
    EVEN_SHARING,
    FALLS,
    HOLDS,
    LOOP_SLIPS,
    SLIPS,
    Programme,
    least_effort,
    tension_range,
)
from leanmark.mechanics.loads import balance_of
from leanmark.mechanics.supports import Supports

LOOP = float(np.exp(np.pi * 0.1))
# the quadratic solver's own feasibility tolerance (DAQP's default), in shares of body weight
SOLVER = 1e-6


def leaning(mark_m: float = -0.6, **kept: object) -> Programme:
    return balance_of(people(), leaning_pose(mark_m), held_by(**kept)).programme  # type: ignore[arg-type]


@dataclass(frozen=True)
class Written:
    """One programme with its inequalities ``rows @ x <= 0`` and lower bounds written out plainly."""

    effort: Floats
    offset: Floats
    balance: Floats
    needed: Floats
    rows: Floats
    low: Floats

    def cost(self, x: Floats) -> float:
        """Squared strength shares and the small even-sharing part."""
        return float(np.sum((self.offset - self.effort @ x) ** 2) + EVEN_SHARING * x @ x)

    def slope(self, x: Floats) -> Floats:
        slope: Floats = 2.0 * (-self.effort.T @ (self.offset - self.effort @ x) + EVEN_SHARING * x)
        return slope


def written(programme: Programme) -> Written:
    """Eight-sided pyramids whose corners lie on the friction cones, the loop's ratio, and pushes only."""
    supports: Supports = programme.supports
    first, count = supports.tension_count, programme.unknowns
    rows, low = [], np.full(count, -np.inf)
    low[:first] = 0.0
    for k, contact in enumerate(supports.contacts):
        x = first + 3 * k
        low[x + 2] = 0.0
        corners = np.radians(np.arange(0.0, 361.0, 45.0))
        for a, b in pairwise(corners):
            # the plane through the cone's tip and two neighbouring corners, its outward side
            edges = [[np.cos(c), np.sin(c), 1.0 / contact.friction] for c in (a, b)]
            normal = np.cross(edges[1], edges[0])
            row = np.zeros(count)
            row[x : x + 3] = normal / np.linalg.norm(normal)
            rows.append(row)
    if supports.loop_ratio is not None:
        for one, other in ((0, 1), (1, 0)):
            row = np.zeros(count)
            row[one], row[other] = 1.0, -supports.loop_ratio
            rows.append(row)
    return Written(
        programme.effort[0],
        programme.offset[0],
        programme.balance[0],
        programme.needed[0],
        np.array(rows),
        low,
    )


PROGRAMMES = {
    "leaning": lambda: leaning(),
    "little lean": lambda: leaning(-1.1),
    "near the grip": lambda: leaning(-0.6, friction=0.505),
    "pushed": lambda: leaning(push_n=(20.0, 15.0, -40.0)),
    "pushed, through a loop": lambda: leaning(push_n=(0.0, 40.0, 0.0), loop_ratio=LOOP, friction=1.0),
    "one foot": lambda: leaning(-1.0, patches=(("sole", "left"), ("toe", "right"))),
}


@pytest.mark.parametrize("name", PROGRAMMES)
def test_the_split_is_that_of_a_general_optimiser(name: str) -> None:
    programme = PROGRAMMES[name]()
    plain = written(programme)
    (forces,), (outcome,) = least_effort(programme)
    assert outcome == HOLDS
    reference = minimize(
        plain.cost,
        np.full(programme.unknowns, 0.1),
        jac=plain.slope,
        method="SLSQP",
        bounds=[(low, None) for low in plain.low],
        constraints=[
            {"type": "eq", "fun": lambda x: plain.balance @ x - plain.needed, "jac": lambda _: plain.balance},
            {"type": "ineq", "fun": lambda x: -plain.rows @ x, "jac": lambda _: -plain.rows},
        ],
        options={"ftol": 1e-15, "maxiter": 1000},
    )
    assert plain.cost(forces) == pytest.approx(reference.fun, rel=1e-6)
    # costs that agree to d leave the forces within sqrt(d / EVEN_SHARING): SLSQP stops at about 1e-12
    np.testing.assert_allclose(forces, reference.x, rtol=0, atol=1e-4)


@pytest.mark.parametrize("name", PROGRAMMES)
def test_the_split_keeps_balance_friction_and_sign(name: str) -> None:
    programme = PROGRAMMES[name]()
    plain = written(programme)
    (forces,), _ = least_effort(programme)
    np.testing.assert_allclose(plain.balance @ forces, plain.needed, rtol=0, atol=1e-9)
    assert (plain.rows @ forces).max() <= SOLVER
    assert (forces - plain.low).min() >= -SOLVER


def extreme(plain: Written, towards: Floats) -> Floats:
    """The allowed forces that lie furthest along a direction, every one of at most five body weights."""
    found = linprog(
        -towards,
        A_ub=plain.rows,
        b_ub=np.zeros(len(plain.rows)),
        A_eq=plain.balance,
        b_eq=plain.needed,
        bounds=[(max(low, -5.0), 5.0) for low in plain.low],
        method="highs",
    )
    assert found.success
    return np.asarray(found.x)


@pytest.mark.parametrize("name", PROGRAMMES)
@settings(max_examples=10)
@given(seed=st.integers(0, 2**32 - 1), step=st.floats(1e-4, 1.0))
def test_no_other_allowed_split_takes_less_effort(name: str, seed: int, step: float) -> None:
    programme = PROGRAMMES[name]()
    plain = written(programme)
    (forces,), _ = least_effort(programme)
    other = extreme(plain, np.random.default_rng(seed).normal(size=programme.unknowns))
    # allowed forces are a convex set: everything between two of them is allowed too. Both solvers keep the
    # rows to 1e-6 or 1e-7, which slopes of up to 50 per unit could turn into this much less effort
    assert plain.cost(forces + step * (other - forces)) >= plain.cost(forces) - 50.0 * SOLVER * step


@pytest.mark.parametrize("name", PROGRAMMES)
def test_the_range_of_tension_is_that_of_an_exact_linear_programme(name: str) -> None:
    programme = PROGRAMMES[name]()
    plain = written(programme)
    low, high = tension_range(programme)
    total = np.zeros(programme.unknowns)
    total[: programme.supports.tension_count] = 1.0
    # the docstring's own figure
    assert low[0] == pytest.approx(total @ extreme(plain, -total), abs=1e-4)
    assert high[0] == pytest.approx(total @ extreme(plain, total), abs=1e-4)


def test_the_least_effort_lies_within_the_range() -> None:
    rep = row_rep()
    programme = rep.balance().programme
    forces, outcome = least_effort(programme)
    total = forces[:, : programme.supports.tension_count].sum(axis=1)
    low, high = tension_range(programme)
    assert (outcome == HOLDS).all()
    assert (low - 1e-4 <= total).all()
    assert (total <= high + 1e-4).all()
    assert (high - low > 0.01).all()


def test_a_position_that_needs_more_grip_slips_and_shows_the_forces_with_enough() -> None:
    gripped, slipping = leaning(friction=0.6), leaning(friction=0.3)
    (forces,), (outcome,) = least_effort(slipping)
    assert outcome == SLIPS
    np.testing.assert_allclose(slipping.balance[0] @ forces, slipping.needed[0], rtol=0, atol=1e-9)
    low, high = tension_range(slipping)
    assert np.isnan([low[0], high[0]]).all()
    assert least_effort(gripped)[1][0] == HOLDS


@pytest.mark.parametrize("ratio", [1.0, LOOP, 2.0])
def test_a_loop_keeps_the_sides_within_its_ratio(ratio: float) -> None:
    programme = leaning(push_n=(0.0, 30.0, 0.0), friction=2.0, loop_ratio=ratio)
    free = replace(programme, supports=replace(programme.supports, loop_ratio=None))
    (unequal,), _ = least_effort(free)
    assert max(unequal[0] / unequal[1], unequal[1] / unequal[0]) > 1.0 + SOLVER
    (forces,), (outcome,) = least_effort(programme)
    assert outcome == HOLDS
    assert forces[0] <= ratio * forces[1] + SOLVER
    assert forces[1] <= ratio * forces[0] + SOLVER


def test_a_push_that_needs_unequal_sides_slips_through_the_loop_alone() -> None:
    # 100 N sideways at the chest: two straps of their own hold it with about four times as much on one
    independent = leaning(push_n=(0.0, 100.0, 0.0), friction=5.0)
    looped = leaning(push_n=(0.0, 100.0, 0.0), friction=5.0, loop_ratio=LOOP)
    (apart,), (held,) = least_effort(independent)
    (forces,), (outcome,) = least_effort(looped)
    assert (held, outcome) == (HOLDS, LOOP_SLIPS)
    assert apart[:2].max() > 2.0 * apart[:2].min()
    # the forces shown are those with the sides let go and grip enough
    (gripped,), _ = least_effort(leaning(push_n=(0.0, 100.0, 0.0), friction=500.0))
    np.testing.assert_allclose(forces, gripped, rtol=0, atol=1e-4)


def test_a_position_that_would_tip_falls_and_shows_which_contacts_would_have_to_pull() -> None:
    programme = leaning(straps=())
    (forces,), (outcome,) = least_effort(programme)
    assert outcome == FALLS
    np.testing.assert_allclose(programme.balance[0] @ forces, programme.needed[0], rtol=0, atol=1e-9)
    assert forces[2::3].min() < -0.1


def test_a_position_that_nothing_can_balance_falls_without_forces() -> None:
    (forces,), (outcome,) = least_effort(leaning(straps=(), patches=(("heel", "left"),)))
    assert outcome == FALLS
    assert np.isnan(forces).all()


def test_one_bad_position_leaves_the_others_as_they_are() -> None:
    pose = leaning_pose(-0.9, -0.3, -0.6)
    programme = balance_of(people(), pose, held_by(friction=0.52)).programme
    forces, outcome = least_effort(programme)
    assert outcome.tolist() == [HOLDS, SLIPS, HOLDS]
    for row, mark in ((0, -0.9), (2, -0.6)):
        alone = balance_of(people(), leaning_pose(mark), held_by(friction=0.52)).programme
        np.testing.assert_allclose(forces[row], least_effort(alone)[0][0], rtol=0, atol=1e-8)
