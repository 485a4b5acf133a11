"""A rep as a smooth path of poses, and how fast every segment moves along it.

Poses are solved at Chebyshev-Lobatto nodes between start and end, so that derivatives along the path are
those of the interpolating polynomial (Trefethen 2000, Spectral Methods in MATLAB, chapter 6, from
memory). The path parameter follows a minimum-jerk course in time (Flash and Hogan 1985, J Neurosci
5:1688, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import Placement


def lobatto_nodes(count: int) -> Floats:
    """``count`` Chebyshev-Lobatto nodes on [0, 1], rising."""
    nodes: Floats = 0.5 * (1.0 - np.cos(np.pi * np.arange(count) / (count - 1)))
    return nodes


def differentiation_matrix(nodes: Floats) -> Floats:
    """Matrix that turns values at the nodes into the interpolating polynomial's derivatives there.

    Barycentric form (Berrut and Trefethen 2004, SIAM Review 46:501, section 9.3, from memory).
    """
    weight, difference = _barycentric(nodes)
    matrix: Floats = weight[None, :] / weight[:, None] / difference
    np.fill_diagonal(matrix, 0.0)
    np.fill_diagonal(matrix, -matrix.sum(axis=1))
    return matrix


def interpolation_weights(nodes: Floats, at: float) -> Floats:
    """Weights (K,) that turn values at the nodes into the interpolating polynomial's value ``at`` one place.

    Barycentric form (Berrut and Trefethen 2004; equation 4.2, from memory).
    """
    gap = at - nodes
    if (gap == 0.0).any():
        return np.asarray(gap == 0.0, dtype=np.float64)
    share = _barycentric(nodes)[0] / gap
    weights: Floats = share / share.sum()
    return weights


def _barycentric(nodes: Floats) -> tuple[Floats, Floats]:
    """Barycentric weights (K,), and the differences between nodes (K, K) with ones on the diagonal."""
    difference = nodes[:, None] - nodes[None, :]
    np.fill_diagonal(difference, 1.0)
    weight: Floats = 1.0 / difference.prod(axis=1)
    return weight, difference


@dataclass(frozen=True)
class MinimumJerk:
    """The minimum-jerk course over ``duration_s``: at node s, its rate [1/s] and acceleration [1/s^2]."""

    duration_s: float

    def rates(self, nodes: Floats) -> tuple[Floats, Floats]:
        """ds/dt and d2s/dt2 where the course passes each node, (K,) each."""
        time = time_at_course(nodes)
        rate = 30.0 * time**2 * (1.0 - time) ** 2
        acceleration = 60.0 * time * (1.0 - time) * (1.0 - 2.0 * time)
        return rate / self.duration_s, acceleration / self.duration_s**2


def time_at_course(course: Floats) -> Floats:
    """Share of the duration at which 10 t^3 - 15 t^4 + 6 t^5 reaches each value, by bisection."""
    low, high = np.zeros_like(course), np.ones_like(course)
    for _ in range(60):
        middle = 0.5 * (low + high)
        reached = middle**3 * (10.0 - 15.0 * middle + 6.0 * middle**2)
        low, high = np.where(reached < course, middle, low), np.where(reached < course, high, middle)
    return np.where(course <= 0.0, 0.0, np.where(course >= 1.0, 1.0, 0.5 * (low + high)))


def peak_between(values: Floats, time: Floats) -> Floats:
    """Largest value of each row (N, K) between as well as at its times (K,): a parabola through the highest
    and its two neighbours, (N,). The highest value itself where it is the first or the last."""
    count = values.shape[1]
    if count < 3:
        highest: Floats = values.max(axis=1)
        return highest
    middle = np.clip(values.argmax(axis=1), 1, count - 2)[:, None]
    index = middle + np.array([-1, 0, 1])
    (a, b, c), (p, q, r) = time[index].T, np.take_along_axis(values, index, axis=1).T
    rise, fall = (q - p) / (b - a), (r - q) / (c - b)
    bend = (fall - rise) / (c - a)
    bent = bend < 0.0
    safe = np.where(bent, bend, -1.0)
    top = 0.5 * (a + b) - 0.5 * rise / safe
    height = p + rise * (top - a) + bend * (top - a) * (top - b)
    inside = bent & ((top - a) * (top - c) < 0.0)
    peak: Floats = np.maximum(values.max(axis=1), np.where(inside, height, -np.inf))
    return peak


@dataclass(frozen=True)
class PathMotion:
    """Derivatives along the path at K nodes, for N reps: mass centres (N, K, 18, 3) first and second [m],
    turning rate and its derivative (N, K, 18, 3) [rad], all per unit of the path parameter."""

    com_rate: Floats
    com_curve: Floats
    turn_rate: Floats
    turn_curve: Floats


def path_motion(bodies: Bodies, placement: Placement, nodes: Floats) -> PathMotion:
    """Differentiate N reps' placed bodies along the path.

    placement holds N x K poses, the nodes of a rep one after another; ``bodies`` N x K people or one.
    """
    matrix = differentiation_matrix(nodes)
    count = len(nodes)
    com = placement.com_m(bodies).reshape(-1, count, 18, 3)
    turn = placement.rotation.reshape(-1, count, 18, 3, 3)
    first, turn_first = _along(matrix, com), _along(matrix, turn)
    second, turn_second = _along(matrix, first), _along(matrix, turn_first)
    back = np.swapaxes(turn, -1, -2)
    spin = turn_first @ back
    spin_rate = turn_second @ back + turn_first @ np.swapaxes(turn_first, -1, -2)
    return PathMotion(first, second, _vee(spin), _vee(spin_rate))


def _along(matrix: Floats, values: Floats) -> Floats:
    slope: Floats = np.einsum("kl,nl...->nk...", matrix, values)
    return slope


def _vee(matrix: Floats) -> Floats:
    """The vector of the skew part of a matrix."""
    lower = np.stack([matrix[..., 2, 1], matrix[..., 0, 2], matrix[..., 1, 0]], axis=-1)
    upper = np.stack([matrix[..., 1, 2], matrix[..., 2, 0], matrix[..., 0, 1]], axis=-1)
    return 0.5 * (lower - upper)


def moving_needs(
    bodies: Bodies, placement: Placement, motion: PathMotion, rate: Floats, acceleration: Floats
) -> tuple[Floats, Floats]:
    """Force and moment about the world origin that every segment of a moving body needs.

    rate, acceleration: (K,) or (N, K) of the path parameter [1/s], [1/s^2]. Returns (N K, 18, 3) [N] and
    [N m]: Newton's and Euler's equations of each segment, gravity included.
    """
    rate, acceleration = rate[..., None, None], acceleration[..., None, None]
    com_acceleration = motion.com_curve * rate**2 + motion.com_rate * acceleration
    spin = motion.turn_rate * rate
    spin_rate = motion.turn_curve * rate**2 + motion.turn_rate * acceleration
    flat = (-1, 18, 3)
    com_acceleration = com_acceleration.reshape(flat) + np.array([0.0, 0.0, GRAVITY_M_S2])
    force = bodies.mass_kg[..., None] * com_acceleration
    moment = np.cross(placement.com_m(bodies), force)
    return force, moment + _turning(bodies, placement, spin.reshape(flat), spin_rate.reshape(flat))


def _turning(bodies: Bodies, placement: Placement, spin: Floats, spin_rate: Floats) -> Floats:
    """Rate of change of every segment's own angular momentum, (N, 18, 3) [N m], in world axes."""
    turn, back = placement.rotation, np.swapaxes(placement.rotation, -1, -2)

    def inertia_times(vector: Floats) -> Floats:
        local = (back @ vector[..., None])[..., 0] * bodies.inertia_kg_m2
        return (turn @ local[..., None])[..., 0]

    return inertia_times(spin_rate) + np.cross(spin, inertia_times(spin))
