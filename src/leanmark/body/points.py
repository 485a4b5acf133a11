"""Points of the body's surface that bear on floors and boxes, hold straps, or must stay clear.

Every place is our own figure, judged on a person standing in shoes, unless its row names a source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.arrays import Ints
from leanmark.body.de_leva_1996 import KNUCKLE_FRACTION
from leanmark.body.drillis_contini_1966 import share
from leanmark.body.foot import (
    ANKLE_FROM_HEEL,
    ANKLE_HEIGHT_SHARE,
    TOE_JOINT_FROM_HEEL,
    TOE_JOINT_HEIGHT_SHARE,
)
from leanmark.body.segments import SEGMENT_INDEX


@dataclass(frozen=True)
class SurfacePoint:
    """One point, in the frame of its segment.

    along: share of the length ``of`` from the segment's origin towards its far end. forward, left, up:
    shares of stature added to that. ``of`` is the name of one of the lengths of ``frame.py``; for
    points given by stature alone ``along`` is zero.
    """

    segment: str
    of: str
    along: float
    forward: float
    left: float
    up: float


_SOLE: Final = -ANKLE_HEIGHT_SHARE
_HEEL: Final = -ANKLE_FROM_HEEL
_BALL: Final = TOE_JOINT_FROM_HEEL - ANKLE_FROM_HEEL
_TOE_SOLE: Final = -TOE_JOINT_HEIGHT_SHARE
_BALL_MEDIAL: Final = 0.45 * share("foot breadth")  # the inner edge stands straighter; own figure
_BALL_LATERAL: Final = 0.55 * share("foot breadth")
SHOULDER_HALF_SHARE: Final = 0.106  # shoulder joint from the middle, share of stature; own figure
_HIP_SIDE: Final = 0.5 * share("hip breadth")

# name: segment, length, along, forward, outward (away from the middle), up. The heel bears a little in front
# of its rear edge. Elbow and wrist end of the forearm lie level when it rests on them, palm down. The heel of
# the hand is thicker than its ball, so a palm laid flat tilts the hand up by 12 degrees. The shoulder's
# centre lies inside: hands and elbows are placed under it.
_PAIRED: Final[dict[str, tuple[str, str, float, float, float, float]]] = {
    "heel": ("foot", "foot", _HEEL + 0.06, 0.0, 0.0, _SOLE),
    "ball_medial": ("foot", "foot", _BALL, 0.0, -_BALL_MEDIAL, _SOLE),
    "ball_lateral": ("foot", "foot", _BALL, 0.0, _BALL_LATERAL, _SOLE),
    "toe_base": ("toes", "toes", 0.0, 0.0, 0.0, _TOE_SOLE),
    "toe_base_medial": ("toes", "toes", 0.0, 0.0, -_BALL_MEDIAL, _TOE_SOLE),
    "toe_base_lateral": ("toes", "toes", 0.0, 0.0, _BALL_LATERAL, _TOE_SOLE),
    "toe_tip": ("toes", "toes", 1.0, 0.0, 0.0, _TOE_SOLE),
    "heel_back": ("foot", "foot", _HEEL, 0.0, 0.0, -0.015),
    "instep": ("foot", "foot", 0.20, 0.0, 0.0, -0.002),
    "knee_front": ("shank", "shank", 0.03, 0.028, 0.0, 0.0),
    "knee_side": ("shank", "shank", 0.0, 0.0, 0.031, 0.0),
    "shank_front_distal": ("shank", "shank", 0.85, 0.022, 0.0, 0.0),
    "grip": ("hand", "hand", 0.92 * KNUCKLE_FRACTION, 0.015, 0.0, 0.0),
    "palm_heel": ("hand", "hand", 0.10, 0.018, 0.0, 0.0),
    "palm_ball": ("hand", "hand", KNUCKLE_FRACTION, 0.010, 0.0, 0.0),
    "elbow_tip": ("forearm", "forearm", 0.0, -0.020, 0.0, 0.004),
    "elbow_side": ("forearm", "forearm", 0.0, 0.0, 0.022, 0.0),
    "forearm_distal": ("forearm", "forearm", 0.88, -0.020, 0.0, 0.0),
    "shoulder_back": ("upper_trunk", "shoulder", 0.90, -0.053, 0.070, 0.0),
    "shoulder_centre": ("upper_trunk", "shoulder", 1.0, 0.0, SHOULDER_HALF_SHARE, 0.0),
    "armpit": ("upper_trunk", "shoulder", 1.0, 0.0, 0.082, -0.045),
    "hip_side": ("pelvis", "pelvis", 0.0, 0.0, _HIP_SIDE, 0.0),
}
_MIDDLE: Final[dict[str, tuple[str, str, float, float, float, float]]] = {
    "pelvis_back": ("pelvis", "pelvis", 0.30, -0.058, 0.0, 0.0),
    "back_mid": ("lower_trunk", "lower_trunk", 0.50, -0.054, 0.0, 0.0),
    "head_back": ("head", "head", 0.62, -0.053, 0.0, 0.0),
    "head_top": ("head", "head", 1.0, 0.0, 0.0, 0.0),
    "chest": ("upper_trunk", "shoulder", 0.70, 0.064, 0.0, 0.0),
    "trunk_front": ("upper_trunk", "shoulder", 0.25, 0.064, 0.0, 0.0),
}


def _points() -> dict[str, SurfacePoint]:
    points = {}
    for side, sign in (("left", 1.0), ("right", -1.0)):
        for name, (part, of, along, forward, outward, up) in _PAIRED.items():
            segment = f"{side}_{part}" if f"{side}_{part}" in SEGMENT_INDEX else part
            points[f"{side}_{name}"] = SurfacePoint(segment, of, along, forward, sign * outward, up)
    for name, row in _MIDDLE.items():
        points[name] = SurfacePoint(*row)
    return points


POINTS: Final[dict[str, SurfacePoint]] = _points()
POINT_INDEX: Final[dict[str, int]] = {name: index for index, name in enumerate(POINTS)}
POINT_SEGMENT: Final[Ints] = np.array(
    [SEGMENT_INDEX[point.segment] for point in POINTS.values()], dtype=np.intp
)
