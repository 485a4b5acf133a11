"""How sure a load is: a load that is known in closed form, then the row."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import people, posed, row_stand

from leanmark.body.bodies import Bodies
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.interval import DEFAULT_UNCERTAINTY, Uncertainty, raised, spread
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.position import solve_rep
from leanmark.mechanics.task import Geometry

NOTHING = Uncertainty(0.0, 0.0, 0.0, 0.0)
widths = st.floats(0.0, 0.05)
PER_M = {"mark_m": 0.4, "strap_m": -0.3, "anchor_m": 0.2}
PER_COM_M = 0.7


def kit(count: int) -> Geometry:
    return Geometry(np.tile([0.1, 0.2, 2.4], (count, 1)), np.full(count, 1.2), np.linspace(-0.5, 0.1, count))


def com_height_m(bodies: Bodies) -> Floats:
    """Height of the standing mass centre over the hips, (N,)."""
    height = place(bodies, posed({}, (0.0, 0.0, 0.0)).take(np.zeros(len(bodies), dtype=np.intp))).com_m(
        bodies
    )
    return np.asarray((bodies.mass_kg * height[..., 2]).sum(axis=1) / bodies.body_mass_kg)


def straight(bodies: Bodies, geometry: Geometry) -> Floats:
    """A load that is a straight line in everything."""
    return (
        PER_M["mark_m"] * geometry.mark_m
        + PER_M["strap_m"] * geometry.strap_m
        + PER_M["anchor_m"] * geometry.anchor_m[:, 2]
        + PER_COM_M * com_height_m(bodies)
    )


@given(mark=widths, strap=widths, anchor=widths, com=st.floats(0.0, 0.02))
def test_independent_errors_join_as_the_root_of_their_squares(
    mark: float, strap: float, anchor: float, com: float
) -> None:
    unknown = Uncertainty(mark, strap, anchor, com)
    bodies = people(3)
    parts = [0.4 * mark, 0.3 * strap, 0.2 * anchor]
    expected = np.sqrt(sum(part**2 for part in parts) + (PER_COM_M * com * bodies.stature_m) ** 2)
    np.testing.assert_allclose(spread(straight, bodies, kit(3), unknown), expected, rtol=0, atol=1e-12)


def test_nothing_unknown_is_no_spread() -> None:
    assert not spread(straight, people(3), kit(3), NOTHING).any()


@pytest.mark.parametrize("name", ["mark_m", "strap_m", "anchor_m", "com_share"])
def test_the_spread_grows_with_each_unknown(name: str) -> None:
    found = [
        spread(straight, people(2), kit(2), replace(DEFAULT_UNCERTAINTY, **{name: width}))
        for width in (0.0, 0.01, 0.02, 0.04)
    ]
    assert (np.diff(np.stack(found), axis=0) > 0.0).all()


def test_a_mass_centre_better_known_of_one_person_narrows_that_person_alone() -> None:
    known = replace(DEFAULT_UNCERTAINTY, com_share=np.array([0.01, 0.001]))
    bodies = people().take(np.zeros(2, dtype=np.intp))
    common, own = (spread(straight, bodies, kit(2), unknown) for unknown in (DEFAULT_UNCERTAINTY, known))
    assert own[0] == pytest.approx(common[0], rel=1e-12)
    assert own[1] < common[1]


def test_loads_of_several_numbers_each_have_their_spread() -> None:
    def two(bodies: Bodies, geometry: Geometry) -> Floats:
        return np.stack([straight(bodies, geometry), 10.0 * geometry.mark_m], axis=-1)

    found = spread(two, people(3), kit(3), DEFAULT_UNCERTAINTY)
    assert found.shape == (3, 2)
    np.testing.assert_allclose(
        found[:, 0], spread(straight, people(3), kit(3), DEFAULT_UNCERTAINTY), rtol=1e-12
    )
    np.testing.assert_allclose(found[:, 1], 10.0 * DEFAULT_UNCERTAINTY.mark_m, rtol=1e-9)


@given(st.floats(-0.03, 0.03))
def test_raised_people_stand_with_their_mass_centre_higher_by_that_share_of_stature(share: float) -> None:
    bodies = people(2)
    higher = raised(bodies, share)
    gained = com_height_m(higher) - com_height_m(bodies)
    np.testing.assert_allclose(gained, share * bodies.stature_m, rtol=0, atol=1e-12)
    np.testing.assert_array_equal(higher.mass_kg, bodies.mass_kg)
    np.testing.assert_array_equal(higher.com_m[:, 3:], bodies.com_m[:, 3:])


def test_the_row_is_less_sure_the_less_is_known() -> None:
    standing = row_stand()
    marks = np.array([-1.0, -0.6])
    bodies = people().take(np.zeros(2, dtype=np.intp))

    def load(body: Bodies, geometry: Geometry) -> Floats:
        rep = solve_rep(standing.task, body, geometry, np.zeros(1))
        return rep.static_loads().total_tension_share

    half = spread(load, bodies, standing.geometry(marks), DEFAULT_UNCERTAINTY)
    twice = Uncertainty(
        *(2.0 * getattr(DEFAULT_UNCERTAINTY, n) for n in ("mark_m", "strap_m", "anchor_m")), 0.02
    )
    assert (half > 0.0).all()
    # to first order: twice the unknowns, twice the spread
    np.testing.assert_allclose(spread(load, bodies, standing.geometry(marks), twice), 2.0 * half, rtol=0.1)
    assert not spread(load, bodies, standing.geometry(marks), NOTHING).any()
