"""Where the joints are: lengths of the parts, joint centres in their parents' frames, half thicknesses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from leanmark.body.arrays import Floats
from leanmark.body.build import Build
from leanmark.body.foot import TOE_JOINT_FROM_HEEL, toe_joint_m
from leanmark.body.points import POINTS, SHOULDER_HALF_SHARE
from leanmark.body.segment_table import SegmentTable
from leanmark.body.segments import SEGMENT_COUNT, SEGMENT_INDEX, SEGMENTS

HIP_HALF_SHARE: Final = 0.050
"""Hip joint from the middle, share of stature: own figure; Bell et al. 1990, J Biomech 23:617 (from memory)
put it 0.36 of the distance between the front iliac spines from the middle, about 0.24 m apart."""
TRUNK: Final = ("pelvis", "lower_trunk", "upper_trunk", "shoulder")
"""Lengths that follow a measured trunk (hip to shoulder) together."""

LONG_AXIS: Final[dict[str, tuple[float, float, float]]] = {
    **dict.fromkeys(("pelvis", "lower_trunk", "upper_trunk", "head"), (0.0, 0.0, 1.0)),
    **dict.fromkeys(("upper_arm", "forearm", "hand", "thigh", "shank"), (0.0, 0.0, -1.0)),
    **dict.fromkeys(("foot", "toes"), (1.0, 0.0, 0.0)),
}
"""Direction from each segment's origin to its far end, in its own frame."""

RADIUS_SHARES: Final[dict[str, tuple[float, float]]] = {
    "pelvis": (0.066, 0.060),
    "lower_trunk": (0.058, 0.056),
    "upper_trunk": (0.060, 0.058),
    "head": (0.034, 0.052),
    "upper_arm": (0.029, 0.023),
    "forearm": (0.024, 0.016),
    "hand": (0.016, 0.009),
    "thigh": (0.047, 0.033),
    "shank": (0.031, 0.021),
    "foot": (0.020, 0.013),
    "toes": (0.012, 0.008),
}
"""Half thickness near the origin and at the far end, shares of stature; own figures, judged by eye."""


def part_of(segment: str) -> str:
    """The segment without its side."""
    return segment.removeprefix("left_").removeprefix("right_")


def lengths_m(builds: Sequence[Build], stature_m: Floats, table: SegmentTable) -> dict[str, Floats]:
    """Length of every part (B,) [m], measured where it was, else the table's share of stature; besides the
    parts: ``shoulder``, from the upper trunk's origin up to the shoulder line, and ``toes``."""
    lengths = {name: part.length_share * stature_m for name, part in table.parts.items()}
    lengths["shoulder"] = table.shoulder_share * stature_m
    trunk_m = lengths["pelvis"] + lengths["lower_trunk"] + lengths["shoulder"]
    for row, build in enumerate(builds):
        for name, length_m in build.lengths_m.items():
            if name == "trunk":
                for part in TRUNK:
                    lengths[part][row] *= length_m / trunk_m[row]
            else:
                lengths[name][row] = length_m
    lengths["toes"] = (1.0 - TOE_JOINT_FROM_HEEL) * lengths["foot"]
    return lengths


def joint_offsets_m(lengths: Mapping[str, Floats], stature_m: Floats) -> Floats:
    """Every segment's origin in its parent's frame (B, 18, 3) [m]."""
    offset = np.zeros((len(stature_m), SEGMENT_COUNT, 3))
    for child, parent in (("lower_trunk", "pelvis"), ("upper_trunk", "lower_trunk"), ("head", "upper_trunk")):
        offset[:, SEGMENT_INDEX[child], 2] = lengths[parent]
    for side, sign in (("left", 1.0), ("right", -1.0)):
        arm, thigh = SEGMENT_INDEX[f"{side}_upper_arm"], SEGMENT_INDEX[f"{side}_thigh"]
        offset[:, arm, 1], offset[:, arm, 2] = sign * SHOULDER_HALF_SHARE * stature_m, lengths["shoulder"]
        offset[:, thigh, 1] = sign * HIP_HALF_SHARE * stature_m
        for child, parent in (
            ("forearm", "upper_arm"),
            ("hand", "forearm"),
            ("shank", "thigh"),
            ("foot", "shank"),
        ):
            offset[:, SEGMENT_INDEX[f"{side}_{child}"], 2] = -lengths[parent]
        offset[:, SEGMENT_INDEX[f"{side}_toes"]] = toe_joint_m(lengths["foot"], stature_m)
    return offset


def _point_coefficients() -> dict[str, Floats]:
    """Surface points as sums of lengths: for each length, and for the stature, what one metre of it adds to
    every point (P, 3)."""
    added = {name: np.zeros((len(POINTS), 3)) for name in ("stature", *(p.of for p in POINTS.values()))}
    for index, point in enumerate(POINTS.values()):
        added[point.of][index] += point.along * np.array(LONG_AXIS[part_of(point.segment)])
        added["stature"][index] += (point.forward, point.left, point.up)
    return added


POINT_COEFFICIENTS: Final = _point_coefficients()


def points_m(lengths: Mapping[str, Floats], stature_m: Floats) -> Floats:
    """Surface points in their segments' frames (B, P, 3) [m], in the order of ``POINTS``."""
    known = {**lengths, "stature": stature_m}
    sizes = np.stack([known[name] for name in POINT_COEFFICIENTS], axis=-1)
    added = np.stack([rows.ravel() for rows in POINT_COEFFICIENTS.values()])
    points: Floats = (sizes @ added).reshape(-1, len(POINTS), 3)
    return points


def radii_m(stature_m: Floats) -> Floats:
    """Half thickness of every segment near its origin and at its far end (B, 18, 2) [m]."""
    shares = np.array([RADIUS_SHARES[part_of(segment)] for segment in SEGMENTS])
    radii: Floats = stature_m[:, None, None] * shares
    return radii
