"""Net joint moments from the forces on a posed body, and the anatomical axes they are read about.

The net moment of a joint is the moment that muscles and passive tissue must exert on the distal side so
that everything beyond the joint is in equilibrium (or has its acceleration): the sum over distal segments
of weight and inertia, less the outside forces there.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, side_of
from leanmark.mechanics.angles import kind_of
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import DESCENDS, Placement
from leanmark.mechanics.motions import moved_points
from leanmark.mechanics.rotation import about, swing_frame
from leanmark.mechanics.supports import Pushes

MOMENT_AXES: Final[dict[str, tuple[str, str, str]]] = {
    "root": ("", "", ""),
    "lumbar": ("flexion", "side_bend_right", "rotation_left"),
    "thoracic": ("flexion", "side_bend_right", "rotation_left"),
    "neck": ("flexion", "side_bend_right", "rotation_left"),
    "shoulder": ("flexion", "abduction", "internal_rotation"),
    "elbow": ("flexion", "abduction", "internal_rotation"),
    "wrist": ("flexion", "radial_deviation", "pronation"),
    "hip": ("flexion", "abduction", "internal_rotation"),
    "knee": ("flexion", "abduction", "internal_rotation"),
    "ankle": ("dorsiflexion", "eversion", "external_rotation"),
    "toe_joint": ("extension", "abduction", "external_rotation"),
}
"""The positive direction of each joint's three moments, about y, x and z of its axes."""

_RIGHT_SIGNS: Final[dict[str, tuple[float, float, float]]] = {
    "root": (1.0, 1.0, 1.0),
    "lumbar": (1.0, 1.0, 1.0),
    "thoracic": (1.0, 1.0, 1.0),
    "neck": (1.0, 1.0, 1.0),
    "shoulder": (-1.0, -1.0, 1.0),
    "elbow": (-1.0, -1.0, 1.0),
    "wrist": (-1.0, -1.0, 1.0),
    "hip": (-1.0, -1.0, 1.0),
    "knee": (1.0, -1.0, 1.0),
    "ankle": (-1.0, -1.0, -1.0),
    "toe_joint": (-1.0, -1.0, -1.0),
}


def _signs() -> Floats:
    """Sign of each named direction about +y, +x, +z of the joint's axes; (18, 3)."""
    table = np.empty((SEGMENT_COUNT, 3))
    for index, joint in enumerate(JOINTS):
        table[index] = _RIGHT_SIGNS[kind_of(joint)]
        if side_of(joint) == "left":
            table[index, 1:] *= -1.0
    return table


MOMENT_SIGNS: Final = _signs()
_ORDER: Final = np.array([1, 0, 2])
_WRISTS: Final = np.array([k for k, joint in enumerate(JOINTS) if kind_of(joint) == "wrist"])


def moment_axes(placement: Placement, rotation: Floats) -> Floats:
    """World axes (N, 18, 3, 3) about which joint moments are read; column k is positive direction k.

    The axes are the parent's, carried by the joint's swing without its twist: about y the movement is
    flexion, about x abduction (level with the floor once the arm is raised forward), about z rotation of
    the limb about its length. In the anatomical position they are the axes of the ISB convention. The wrist's
    turn with the forearm, whose pronation this joint carries: palms down, flexion is still towards the palm.
    """
    parent = placement.rotation @ np.swapaxes(rotation, -1, -2)
    swing = swing_frame(rotation)
    pronation = _pronation(rotation[:, _WRISTS])
    swing[:, _WRISTS] = pronation @ swing_frame(np.swapaxes(pronation, -1, -2) @ rotation[:, _WRISTS])
    world = parent @ swing
    return world[..., _ORDER] * MOMENT_SIGNS[None, :, None, :]


def _pronation(wrist: Floats) -> Floats:
    """The first turn of the wrists' sequence, about the forearm's length; (N, 2, 3, 3)."""
    return about("z", np.arctan2(wrist[..., 1, 0], wrist[..., 0, 0]))


def weight_wrenches(
    bodies: Bodies, com_m: Floats, com_acceleration_m_s2: Floats | float = 0.0
) -> tuple[Floats, Floats]:
    """Force each segment needs, and its moment about the world origin; (N, 18, 3) [N] and [N m].

    Statics needs ``m g`` upwards; a moving segment ``m (a + g)``. Turning inertia is added by dynamics.
    """
    force = bodies.mass_kg[..., None] * (np.array([0.0, 0.0, GRAVITY_M_S2]) + com_acceleration_m_s2)
    force = np.broadcast_to(force, com_m.shape)
    return force, np.cross(com_m, force)


def needed_moments(placement: Placement, force_n: Floats, moment_nm: Floats) -> tuple[Floats, Floats]:
    """Moments (N, 18, 3) [N m] in world axes that the joints would need if nothing outside helped, and the
    force (N, 3) [N] that the whole body needs. Row 0 is the whole body's moment about the mid-hip point.

    force_n, moment_nm: (N, 18, 3) by segment, moments about the world origin.
    """
    force, moment = DESCENDS @ force_n, DESCENDS @ moment_nm
    return moment - np.cross(placement.joint_m, force), force[:, 0]


def push_moments(placement: Placement, pushes: Pushes) -> Floats:
    """Moment of each unit push about each joint that it is beyond, (N, 18, 3, G) [m], in world axes."""
    moved = moved_points(tuple(pushes.segment.tolist()))
    arm = pushes.point_m[:, moved.point] - placement.joint_m[:, moved.joint]
    x, y, z = np.moveaxis(arm, -1, 0)
    u, v, w = np.moveaxis(pushes.direction[:, moved.point], -1, 0)
    moment = np.zeros((len(arm), SEGMENT_COUNT, 3, moved.count))
    for axis, part in enumerate((y * w - z * v, z * u - x * w, x * v - y * u)):
        moment[:, moved.joint, axis, moved.point] = part
    return moment
