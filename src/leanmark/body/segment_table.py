"""The shape that every published segment table is brought into before people are scaled by it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from leanmark.body.build import Sex

PARTS: Final = (
    "pelvis",
    "lower_trunk",
    "upper_trunk",
    "head",
    "upper_arm",
    "forearm",
    "hand",
    "thigh",
    "shank",
    "foot",
)
"""What a table describes; the toes are split off the foot by ``foot.py``."""
PAIRED: Final = frozenset({"upper_arm", "forearm", "hand", "thigh", "shank", "foot"})


@dataclass(frozen=True)
class Part:
    """One body part.

    length_share: length as a share of stature. mass_fraction: of body mass, one side. com_fraction: mass
    centre from our origin of the part as a share of its length; the foot's from the heel. radius_fraction:
    radii of gyration about the mass centre as shares of length, about our x, y and z.
    """

    length_share: float
    mass_fraction: float
    com_fraction: float
    radius_fraction: tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class SegmentTable:
    """One published set, as shares.

    sex: whom it was measured on, None for a set without that division. parts: by the names of ``PARTS``.
    shoulder_share: height of the shoulder joints above the origin of the upper trunk, share of stature.
    """

    name: str
    source: str
    sex: Sex | None
    parts: Mapping[str, Part]
    shoulder_share: float

    def mass_sum(self) -> float:
        """Sum of all mass fractions as printed, both sides counted; 1 within the printed digits."""
        return sum(part.mass_fraction * (2 if name in PAIRED else 1) for name, part in self.parts.items())
