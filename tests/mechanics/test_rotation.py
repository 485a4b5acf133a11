"""Rotations against scipy's, which keeps them as quaternions."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.rotation import (
    about,
    rotation_from_vector,
    skew,
    swing_frame,
    vector_from_rotation,
)

ROUNDING = 1e-13  # a few hundred roundings of 2.2e-16 on entries of at most 1
parts = st.floats(-3.0, 3.0) | st.floats(-1e-5, 1e-5) | st.just(0.0)
vectors = st.tuples(parts, parts, parts).map(np.array)


@given(vectors)
def test_a_turn_by_a_vector_is_scipys(vector: Floats) -> None:
    expected = Rotation.from_rotvec(vector).as_matrix()
    np.testing.assert_allclose(rotation_from_vector(vector), expected, rtol=0, atol=ROUNDING)


@given(vectors)
def test_a_turn_keeps_lengths_and_handedness(vector: Floats) -> None:
    rotation = rotation_from_vector(vector)
    np.testing.assert_allclose(rotation @ rotation.T, np.eye(3), rtol=0, atol=ROUNDING)
    assert np.linalg.det(rotation) == pytest.approx(1.0, abs=ROUNDING)


@given(vectors, st.floats(0.0, 3.1))
def test_vector_to_rotation_and_back(direction: Floats, angle: float) -> None:
    length = np.linalg.norm(direction)
    vector = direction / length * angle if length > 1e-3 else direction
    # near half a turn the vector is read from a sine: roundings grow by 1 / sin(3.1) = 24 and by the angle
    back = vector_from_rotation(rotation_from_vector(vector))
    np.testing.assert_allclose(back, vector, rtol=0, atol=100 * ROUNDING)


@given(vectors)
def test_the_vector_of_a_rotation_is_scipys(vector: Floats) -> None:
    rotation = Rotation.from_rotvec(vector)
    if rotation.magnitude() < 3.1:
        found = vector_from_rotation(rotation.as_matrix())
        np.testing.assert_allclose(found, rotation.as_rotvec(), rtol=0, atol=100 * ROUNDING)


def test_the_vector_of_half_a_turn_is_near_zero_as_documented() -> None:
    half_turn = np.diag([1.0, -1.0, -1.0])
    assert np.abs(vector_from_rotation(half_turn)).max() < 1e-6


@pytest.mark.parametrize("length", [0.0, 1e-9, 0.9e-6, 1.1e-6, 1e-3])
def test_small_turns_join_the_series_without_a_step(length: float) -> None:
    vector = np.array([0.6, 0.0, -0.8]) * length
    rotation = rotation_from_vector(vector)
    np.testing.assert_allclose(rotation, Rotation.from_rotvec(vector).as_matrix(), rtol=0, atol=1e-15)
    np.testing.assert_allclose(vector_from_rotation(rotation), vector, rtol=1e-9, atol=1e-16)


@given(vectors, vectors)
def test_skew_is_the_cross_product(left: Floats, right: Floats) -> None:
    np.testing.assert_allclose(skew(left) @ right, np.cross(left, right), rtol=0, atol=ROUNDING)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_about_an_axis_is_scipys(axis: str) -> None:
    angles = np.linspace(-6.0, 6.0, 13)
    expected = Rotation.from_euler(axis, angles[:, None]).as_matrix()
    np.testing.assert_allclose(about(axis, angles), expected, rtol=0, atol=ROUNDING)


@given(vectors)
def test_swing_is_the_turn_without_its_twist_about_z(vector: Floats) -> None:
    turn = Rotation.from_rotvec(vector)
    _, _, z, w = turn.as_quat()
    if w * w + z * z > 1e-3:  # else z is upside down and the twist is not defined
        twist = Rotation.from_quat([0.0, 0.0, z, w])
        expected = (turn * twist.inv()).as_matrix()
        # the factor 1 / (1 + cos) grows to 500 at that limit
        np.testing.assert_allclose(swing_frame(turn.as_matrix()), expected, rtol=0, atol=500 * ROUNDING)


def test_swing_of_an_upside_down_frame_is_the_identity() -> None:
    np.testing.assert_array_equal(swing_frame(np.diag([1.0, -1.0, -1.0])), np.eye(3))


def test_a_batch_gives_what_single_turns_give() -> None:
    vectors_rad = np.random.default_rng(7).normal(size=(4, 5, 3))
    rotations = rotation_from_vector(vectors_rad)
    assert rotations.shape == (4, 5, 3, 3)
    for index in np.ndindex(4, 5):
        np.testing.assert_array_equal(rotations[index], rotation_from_vector(vectors_rad[index]))
        np.testing.assert_array_equal(
            vector_from_rotation(rotations)[index], vector_from_rotation(rotations[index])
        )
        np.testing.assert_array_equal(swing_frame(rotations)[index], swing_frame(rotations[index]))
