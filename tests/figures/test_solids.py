from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from leanmark.figures.project import VIEWS, project
from leanmark.figures.solids import ball, directions, ellipsoid, hull, outline
from leanmark.mechanics.rotation import rotation_from_vector

SIDE = VIEWS["side"]
angles = st.floats(-3.0, 3.0)
sizes = st.floats(0.01, 0.3)
places = st.floats(-2.0, 2.0)


def test_a_ball_is_a_circle_in_every_view() -> None:
    centre = np.array([0.3, -0.2, 1.1])
    for view in VIEWS.values():
        edge = outline(ball(centre, 0.07), view, 36)
        distance = np.linalg.norm(edge - project(centre, view), axis=1)
        np.testing.assert_allclose(distance, 0.07, rtol=1e-12)  # double rounding of a few operations


@given(places, places, sizes, sizes, sizes, angles, angles, angles)
def test_outline_bounds_the_surface_of_an_ellipsoid(
    x: float, z: float, a: float, b: float, c: float, p: float, q: float, r: float
) -> None:
    turn = rotation_from_vector(np.array([p, q, r]))
    solid = ellipsoid(np.array([x, 0.0, z]), turn, (a, b, c))
    rng = np.random.default_rng(3)
    ways = rng.normal(size=(200, 3))
    surface = solid.centre_m[0] + (ways / np.linalg.norm(ways, axis=1)[:, None]) @ solid.axes_m[0].T
    reach = project(surface, SIDE) @ directions(24).T
    support = outline(solid, SIDE, 24) @ directions(24).T
    # the outline holds the furthest point of each of its own directions, so nothing lies beyond it
    assert np.all(reach.max(axis=0) <= support.max(axis=0) + 1e-12)


@given(places, places, sizes, sizes)
def test_a_hull_reaches_as_far_as_its_furthest_part(x: float, z: float, first: float, second: float) -> None:
    parts = (ball(np.zeros(3), first), ball(np.array([x, 0.5, z]), second))
    ways = directions(36)
    whole = (outline(hull(*parts), SIDE, 36) @ ways.T).max(axis=0)
    each = [(outline(part, SIDE, 36) @ ways.T).max(axis=0) for part in parts]
    np.testing.assert_allclose(whole, np.maximum(*each), atol=1e-12)


@given(places, sizes, sizes, angles)
def test_outlines_turn_anticlockwise_and_are_convex(x: float, a: float, b: float, p: float) -> None:
    turn = rotation_from_vector(np.array([0.2, p, -0.4]))
    shape = hull(ellipsoid(np.array([x, 0.1, 0.2]), turn, (a, b, 0.05)), ball(np.zeros(3), 0.04))
    edge = np.diff(outline(shape, SIDE, 36), axis=0, append=outline(shape, SIDE, 36)[:1])
    after = np.roll(edge, -1, axis=0)
    turns = edge[:, 0] * after[:, 1] - edge[:, 1] * after[:, 0]
    assert np.all(turns >= -1e-12)
    assert turns.sum() > 0.0


def test_a_flat_ring_seen_edge_on_is_a_line_and_not_nan() -> None:
    ring = ellipsoid(np.zeros(3), np.eye(3), (0.0, 0.1, 0.0))
    np.testing.assert_array_equal(outline(ring, SIDE, 12), np.zeros((12, 2)))
