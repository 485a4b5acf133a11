"""Worn mass."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.added_mass import AddedMass, with_added_mass
from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.body.tables import TABLES
from leanmark.errors import FieldError

TRUNK = SEGMENT_INDEX["upper_trunk"]


@pytest.fixture
def bodies() -> Bodies:
    return scale([Build(60.0, 1.65), Build(90.0, 1.85)], TABLES["de_leva_male"])


def test_a_vest_adds_its_mass_and_leaves_body_weight(bodies: Bodies) -> None:
    worn = with_added_mass(bodies, AddedMass("upper_trunk", 10.0))
    assert worn.mass_kg.sum(axis=1) == pytest.approx(bodies.body_mass_kg + 10.0)
    assert worn.body_mass_kg.tolist() == bodies.body_mass_kg.tolist()
    np.testing.assert_allclose(worn.com_m, bodies.com_m, atol=1e-15)
    np.testing.assert_allclose(worn.inertia_kg_m2, bodies.inertia_kg_m2, atol=1e-15)


def test_a_mass_off_the_centre_moves_it_and_adds_reduced_mass_times_distance_squared(bodies: Bodies) -> None:
    # Two bodies about their common mass centre: I = I1 + m1 m2 / (m1 + m2) d^2 (parallel-axis theorem).
    place = bodies.com_m[0, TRUNK] + np.array([0.12, 0.0, 0.05])
    worn = with_added_mass(bodies.take(slice(0, 1)), AddedMass("upper_trunk", 8.0, tuple(place.tolist())))
    own = bodies.mass_kg[0, TRUNK]
    reduced = own * 8.0 / (own + 8.0)
    shift = 8.0 / (own + 8.0) * np.array([0.12, 0.0, 0.05])
    assert worn.com_m[0, TRUNK] - bodies.com_m[0, TRUNK] == pytest.approx(shift)
    gained = worn.inertia_kg_m2[0, TRUNK] - bodies.inertia_kg_m2[0, TRUNK]
    assert gained == pytest.approx(reduced * np.array([0.05**2, 0.12**2 + 0.05**2, 0.12**2]))


@pytest.mark.parametrize(
    ("segment", "mass_kg"), [("tail", 5.0), ("head", 0.0), ("head", -1.0), ("head", 61.0)]
)
def test_nonsense_is_refused(segment: str, mass_kg: float) -> None:
    with pytest.raises(FieldError, match="added mass"):
        AddedMass(segment, mass_kg)
