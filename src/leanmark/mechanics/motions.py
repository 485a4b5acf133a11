"""How world points and the mass centre move with the 57 small motions of a pose.

A small turn w about a world axis at a joint moves a point beyond it by ``w x (point - joint)``; the pelvis's
shifts move everything alike. A hinge's turns count only along its axis.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.kinematics import DESCENDS, HINGE_SEGMENTS, TURNS, Placement
from leanmark.mechanics.rotation import skew

MOTIONS: Final = TURNS + 3
_HINGE_NUMBER: Final = {int(segment): number for number, segment in enumerate(HINGE_SEGMENTS)}


@dataclass(frozen=True)
class Moved:
    """Which joints move which of Q points, one entry a pair: point and joint (P,), and for the pairs whose
    joint is a hinge, their place among the pairs and the hinge's number."""

    point: Ints
    joint: Ints
    hinged: Ints
    hinge: Ints
    count: int


@cache
def moved_points(segments: tuple[int, ...]) -> Moved:
    """The pairs of points on ``segments`` (Q,)."""
    pairs = [(q, int(j)) for q, s in enumerate(segments) for j in np.flatnonzero(DESCENDS[:, s])]
    hinged = [(k, _HINGE_NUMBER[joint]) for k, (_, joint) in enumerate(pairs) if joint in _HINGE_NUMBER]
    as_index = [np.array(column, dtype=np.intp) for column in (*zip(*pairs, strict=True),)]
    place, number = (np.array([row[c] for row in hinged], dtype=np.intp) for c in (0, 1))
    return Moved(as_index[0], as_index[1], place, number, len(segments))


def point_motions(moved: Moved, placement: Placement, at: Floats) -> Floats:
    """Derivatives of Q world points ``at`` (N, Q, 3) for the small motions, (N, 3 Q, 57)."""
    arm = at[:, moved.point] - placement.joint_m[:, moved.joint]
    block = -skew(arm)
    if len(moved.hinged):
        axis = placement.hinge_axis()[:, moved.hinge]
        along = (block[:, moved.hinged] * axis[:, :, None, :]).sum(axis=-1)
        block[:, moved.hinged] = along[..., None] * axis[:, :, None, :]
    out = np.zeros((len(at), moved.count, 3, MOTIONS))
    turns = out[..., :TURNS].reshape(len(at), moved.count, 3, SEGMENT_COUNT, 3, copy=False)
    turns[:, moved.point, :, moved.joint] = np.moveaxis(block, 1, 0)
    out[..., TURNS:] = np.eye(3)
    return out.reshape(len(at), -1, MOTIONS)


def mass_centre(bodies: Bodies, placement: Placement) -> Floats:
    """The whole body's mass centre, (N, 3) [m]."""
    mass = bodies.mass_kg[..., None]
    centre: Floats = (mass * placement.com_m(bodies)).sum(axis=1) / mass.sum(axis=1)
    return centre


def mass_centre_motions(bodies: Bodies, placement: Placement) -> Floats:
    """Derivatives of the mass centre for the small motions, (N, 3, 57)."""
    share = bodies.mass_kg / bodies.mass_kg.sum(axis=1, keepdims=True)
    moment = DESCENDS @ (share[..., None] * placement.com_m(bodies))
    beyond = (share @ DESCENDS.T)[..., None]
    block = -skew(moment - beyond * placement.joint_m)
    axis = placement.hinge_axis()[:, :, None, :]
    along = (block[:, HINGE_SEGMENTS] * axis).sum(axis=-1, keepdims=True)
    block[:, HINGE_SEGMENTS] = along * axis
    turns = np.moveaxis(block, 1, 2).reshape(len(moment), 3, TURNS)
    shifts = np.broadcast_to(np.eye(3), (len(moment), 3, 3))
    return np.concatenate([turns, shifts], axis=2)
