"""Rotations as 3x3 matrices, batched over any leading shape."""

from __future__ import annotations

import numpy as np

from leanmark.mechanics.arrays import Floats

_SMALL_ANGLE_SQUARED = 1e-12
"""Below this squared angle [rad^2] the series of sin and cos is exact to double precision."""


def skew(vector: Floats) -> Floats:
    """The matrix K with ``K @ w == cross(vector, w)``; shape (..., 3) to (..., 3, 3)."""
    matrix = np.zeros((*vector.shape, 3))
    matrix[..., 0, 1], matrix[..., 0, 2] = -vector[..., 2], vector[..., 1]
    matrix[..., 1, 0], matrix[..., 1, 2] = vector[..., 2], -vector[..., 0]
    matrix[..., 2, 0], matrix[..., 2, 1] = -vector[..., 1], vector[..., 0]
    return matrix


def rotation_from_vector(vector: Floats) -> Floats:
    """Rotation about ``vector`` by its length [rad] (Rodrigues' formula); (..., 3) to (..., 3, 3)."""
    x, y, z = vector[..., 0], vector[..., 1], vector[..., 2]
    squared = x * x + y * y + z * z
    small = squared < _SMALL_ANGLE_SQUARED
    angle = np.sqrt(np.where(small, 1.0, squared))
    first = np.where(small, 1.0 - squared / 6.0, np.sin(angle) / angle)
    second = np.where(small, 0.5 - squared / 24.0, (1.0 - np.cos(angle)) / np.where(small, 1.0, squared))
    out = np.empty((*vector.shape, 3))
    xs, ys, zs = second * x, second * y, second * z
    xy, xz, yz = xs * y, xs * z, ys * z
    xf, yf, zf = first * x, first * y, first * z
    out[..., 0, 0] = 1.0 - ys * y - zs * z
    out[..., 1, 1] = 1.0 - xs * x - zs * z
    out[..., 2, 2] = 1.0 - xs * x - ys * y
    out[..., 0, 1], out[..., 1, 0] = xy - zf, xy + zf
    out[..., 0, 2], out[..., 2, 0] = xz + yf, xz - yf
    out[..., 1, 2], out[..., 2, 1] = yz - xf, yz + xf
    return out


def vector_from_rotation(rotation: Floats) -> Floats:
    """The rotation vector [rad], length below pi, of a rotation; (..., 3, 3) to (..., 3).

    At exactly half a turn the axis has two signs and the zero vector's neighbourhood is returned;
    poses are never half a turn from their target.
    """
    out = np.empty(rotation.shape[:-1])
    out[..., 0] = rotation[..., 2, 1] - rotation[..., 1, 2]
    out[..., 1] = rotation[..., 0, 2] - rotation[..., 2, 0]
    out[..., 2] = rotation[..., 1, 0] - rotation[..., 0, 1]
    out *= 0.5
    sine_squared = out[..., 0] ** 2 + out[..., 1] ** 2 + out[..., 2] ** 2
    cosine = 0.5 * (rotation[..., 0, 0] + rotation[..., 1, 1] + rotation[..., 2, 2] - 1.0)
    small = sine_squared < _SMALL_ANGLE_SQUARED
    sine = np.sqrt(np.where(small, 1.0, sine_squared))
    scale = np.where(small, 1.0, np.arctan2(sine, cosine) / sine)
    out *= scale[..., None]
    return out


def about(axis: str, angle: Floats | float) -> Floats:
    """Rotation about a coordinate axis (``x``, ``y`` or ``z``) by ``angle`` [rad]; shape (..., 3, 3)."""
    angle = np.asarray(angle, dtype=float)
    vector = np.zeros((*angle.shape, 3))
    vector[..., "xyz".index(axis)] = angle
    return rotation_from_vector(vector)


def swing_frame(rotation: Floats) -> Floats:
    """The part of ``rotation`` that carries the z axis to its place by the shortest way, without twist.

    Shape (..., 3, 3) to the same. Undefined where z is turned exactly upside down; there the
    identity's plane is used.
    """
    z = rotation[..., :, 2]
    cosine = z[..., 2]
    factor = 1.0 / np.maximum(1.0 + cosine, 1e-9)
    cross = np.stack([-z[..., 1], z[..., 0], np.zeros_like(cosine)], axis=-1)
    matrix = skew(cross)
    return np.eye(3) + matrix + (matrix @ matrix) * factor[..., None, None]
