"""People as the engine takes them: one row of arrays per person."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from leanmark.body.arrays import Floats, Ints


@dataclass(frozen=True)
class Bodies:
    """B people scaled by one segment table; segments in the order of ``SEGMENTS``.

    mass_kg: (B, 18) segment masses; they sum to the body mass.
    com_m: (B, 18, 3) mass centre in the segment's frame, from its origin [m].
    inertia_kg_m2: (B, 18, 3) principal moments about the mass centre along the segment's x, y, z.
    joint_offset_m: (B, 18, 3) the segment's origin in its parent's frame [m]; zero for the pelvis.
    point_m: (B, P, 3) surface points in their segments' frames [m], in the order of ``POINTS``.
    radius_m: (B, 18, 2) half thickness near the origin and at the far end [m].
    strength_nm: (B, 18, 3, 2) reference strength of the joint of each segment about its three anatomical
        axes, in the negative and the positive direction [N m]; inf where ligament and bone carry the load,
        NaN for the root.
    body_mass_kg, stature_m: (B,).
    """

    mass_kg: Floats
    com_m: Floats
    inertia_kg_m2: Floats
    joint_offset_m: Floats
    point_m: Floats
    radius_m: Floats
    strength_nm: Floats
    body_mass_kg: Floats
    stature_m: Floats

    def __len__(self) -> int:
        return len(self.body_mass_kg)

    def take(self, index: Ints | slice) -> Bodies:
        """The people at ``index``, an array of row numbers (repeats allowed) or a slice."""
        return Bodies(**{field.name: getattr(self, field.name)[index] for field in fields(self)})


def joined(parts: Sequence[Bodies]) -> Bodies:
    """Several sets of people one after another."""
    return Bodies(
        **{f.name: np.concatenate([getattr(part, f.name) for part in parts]) for f in fields(Bodies)}
    )
