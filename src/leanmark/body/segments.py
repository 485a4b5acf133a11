"""The segment tree: names, parents and joints, in the one order that every array of the engine uses."""

from __future__ import annotations

from typing import Final

SEGMENTS: Final[tuple[str, ...]] = (
    "pelvis",
    "lower_trunk",
    "upper_trunk",
    "head",
    "left_upper_arm",
    "left_forearm",
    "left_hand",
    "right_upper_arm",
    "right_forearm",
    "right_hand",
    "left_thigh",
    "left_shank",
    "left_foot",
    "left_toes",
    "right_thigh",
    "right_shank",
    "right_foot",
    "right_toes",
)

PARENT: Final[tuple[int, ...]] = (-1, 0, 1, 2, 2, 4, 5, 2, 7, 8, 0, 10, 11, 12, 0, 14, 15, 16)

JOINTS: Final[tuple[str, ...]] = (
    "root",
    "lumbar",
    "thoracic",
    "neck",
    "left_shoulder",
    "left_elbow",
    "left_wrist",
    "right_shoulder",
    "right_elbow",
    "right_wrist",
    "left_hip",
    "left_knee",
    "left_ankle",
    "left_toe_joint",
    "right_hip",
    "right_knee",
    "right_ankle",
    "right_toe_joint",
)
"""Joint i joins segment i to its parent; the root joins the pelvis to the world."""

HINGES: Final[tuple[str, ...]] = ("elbow", "knee", "toe_joint")
"""Joints that turn about the local y axis alone. All others are ball joints; forearm pronation is
carried by the wrist, since the forearm's own inertia about its long axis is negligible."""

SEGMENT_COUNT: Final = len(SEGMENTS)
SEGMENT_INDEX: Final[dict[str, int]] = {name: index for index, name in enumerate(SEGMENTS)}
JOINT_INDEX: Final[dict[str, int]] = {name: index for index, name in enumerate(JOINTS)}


def is_hinge(joint: str) -> bool:
    """Whether the named joint turns about one axis only."""
    return joint.removeprefix("left_").removeprefix("right_") in HINGES


def side_of(segment: str) -> str:
    """The side of a segment, joint or point name: ``left``, ``right`` or ``middle``."""
    for side in ("left", "right"):
        if segment.startswith(f"{side}_"):
            return side
    return "middle"
