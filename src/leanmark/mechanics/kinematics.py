"""Where every segment, mass centre and surface point of a posed body is in the world."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_SEGMENT
from leanmark.body.segments import JOINTS, PARENT, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats, Ints


def _levels() -> tuple[tuple[Ints, Ints], ...]:
    """Segments grouped by depth, each group with its parents, so that one call serves a whole depth."""
    depth = [0] * SEGMENT_COUNT
    for segment in range(1, SEGMENT_COUNT):
        depth[segment] = depth[PARENT[segment]] + 1
    groups = []
    for level in range(1, max(depth) + 1):
        members = np.array([s for s in range(SEGMENT_COUNT) if depth[s] == level], dtype=np.intp)
        groups.append((members, np.array([PARENT[s] for s in members], dtype=np.intp)))
    return tuple(groups)


def _descends() -> Floats:
    """``[j, s]`` is 1 where segment s is moved by joint j, that is j is s or one of its forebears."""
    matrix = np.zeros((SEGMENT_COUNT, SEGMENT_COUNT))
    for segment in range(SEGMENT_COUNT):
        joint = segment
        while joint >= 0:
            matrix[joint, segment] = 1.0
            joint = PARENT[joint]
    return matrix


LEVELS: Final = _levels()
DESCENDS: Final = _descends()
HINGE_SEGMENTS: Final = np.array([i for i, joint in enumerate(JOINTS) if is_hinge(joint)], dtype=np.intp)
TURNS: Final = 3 * SEGMENT_COUNT
"""Small motions of a pose are 18 x 3 turns of each joint about world axes [rad] and 3 shifts of the pelvis
[m]; a hinge's turns count only along its axis."""


@dataclass(frozen=True)
class Pose:
    """N poses: where the pelvis is and how every segment is turned against its parent.

    root_m: (N, 3) mid-hip point in the world [m].
    rotation: (N, 18, 3, 3) child-to-parent rotation of each joint; row 0 is pelvis to world.
    """

    root_m: Floats
    rotation: Floats

    def take(self, index: Ints | slice) -> Pose:
        """The poses at ``index``."""
        return Pose(self.root_m[index], self.rotation[index])


@dataclass(frozen=True)
class Placement:
    """N posed bodies in the world: joint_m (N, 18, 3) [m] and world rotation (N, 18, 3, 3)."""

    joint_m: Floats
    rotation: Floats

    def hinge_axis(self) -> Floats:
        """World directions (N, 6, 3) of the hinges' axes, the child's y."""
        return self.rotation[..., 1][:, HINGE_SEGMENTS]

    def com_m(self, bodies: Bodies) -> Floats:
        """Segment mass centres in the world [m], (N, 18, 3)."""
        return self.joint_m + (self.rotation @ bodies.com_m[..., None])[..., 0]

    def point_m(self, bodies: Bodies, points: Ints) -> Floats:
        """Surface points in the world [m], (N, len(points), 3)."""
        segment = POINT_SEGMENT[points]
        turned = self.rotation[:, segment] @ bodies.point_m[:, points, :, None]
        return self.joint_m[:, segment] + turned[..., 0]


def place(bodies: Bodies, pose: Pose) -> Placement:
    """Forward kinematics of N poses; ``bodies`` holds N people, or one for all."""
    count = len(pose.root_m)
    joint_m = np.empty((count, SEGMENT_COUNT, 3))
    rotation = np.empty((count, SEGMENT_COUNT, 3, 3))
    joint_m[:, 0], rotation[:, 0] = pose.root_m, pose.rotation[:, 0]
    for members, parents in LEVELS:
        above = rotation[:, parents]
        rotation[:, members] = above @ pose.rotation[:, members]
        offset = above @ bodies.joint_offset_m[:, members, :, None]
        joint_m[:, members] = joint_m[:, parents] + offset[..., 0]
    return Placement(joint_m, rotation)
