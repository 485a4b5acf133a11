"""All reference strengths, and which action is which direction of which joint axis.

"Abstract" in a source means that only the abstract was read; nothing here was read in a full paper.
"""

from __future__ import annotations

from typing import Final

from leanmark.body.strength_arm import ARM
from leanmark.body.strength_leg import LEG
from leanmark.body.strength_reference import References
from leanmark.body.strength_trunk import TRUNK

Axis = tuple[str, str] | None

_SPINE: Final[tuple[Axis, ...]] = (
    ("extension", "flexion"),
    ("side_bend_left", "side_bend_right"),
    ("rotation_right", "rotation_left"),
)
_HINGE: Final[tuple[Axis, ...]] = (("extension", "flexion"), None, None)
_BALL: Final[tuple[Axis, ...]] = (
    ("extension", "flexion"),
    ("adduction", "abduction"),
    ("external_rotation", "internal_rotation"),
)
ACTIONS: Final[dict[str, tuple[Axis, ...]]] = {
    "lumbar": _SPINE,
    "thoracic": _SPINE,
    "neck": _SPINE,
    "shoulder": _BALL,
    "elbow": _HINGE,
    "wrist": (("extension", "flexion"), ("ulnar_deviation", "radial_deviation"), ("supination", "pronation")),
    "hip": _BALL,
    "knee": _HINGE,
    "ankle": (
        ("plantarflexion", "dorsiflexion"),
        ("inversion", "eversion"),
        ("internal_rotation", "external_rotation"),
    ),
    "toe_joint": (("flexion", "extension"), None, None),
}
"""Per joint and anatomical axis: the action in the negative and in the positive direction; None for an axis
on which ligament and bone carry the load."""

REFERENCES: Final[References] = {**TRUNK, **ARM, **LEG}
