"""People of given builds as segments of one published table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from leanmark.body.arrays import Floats
from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.foot import divided, whole_foot_com_m
from leanmark.body.frame import LONG_AXIS, joint_offsets_m, lengths_m, part_of, points_m, radii_m
from leanmark.body.segment_table import Part, SegmentTable
from leanmark.body.segments import SEGMENT_COUNT, SEGMENT_INDEX, SEGMENTS
from leanmark.body.strength import reference_strength_nm


def scale(builds: Sequence[Build], table: SegmentTable) -> Bodies:
    """Scale B builds by one table, all at once.

    Lengths are the table's shares of stature, or as measured; a measured length takes its segment's mass
    centre and radii of gyration along and leaves the other lengths. Masses are the table's fractions of
    body mass, divided by their printed sum (0.9999 for de Leva's women) so that they add up to the body.
    """
    mass_kg = np.array([build.mass_kg for build in builds], dtype=float)
    stature_m = np.array([build.stature_m for build in builds], dtype=float)
    lengths = lengths_m(builds, stature_m, table)
    segment_mass, com, inertia = _masses(table, lengths, mass_kg, stature_m)
    return Bodies(
        mass_kg=segment_mass,
        com_m=com,
        inertia_kg_m2=inertia,
        joint_offset_m=joint_offsets_m(lengths, stature_m),
        point_m=points_m(lengths, stature_m),
        radius_m=radii_m(stature_m),
        strength_nm=reference_strength_nm(builds, mass_kg, stature_m, table.sex),
        body_mass_kg=mass_kg,
        stature_m=stature_m,
    )


def _masses(
    table: SegmentTable, lengths: Mapping[str, Floats], mass_kg: Floats, stature_m: Floats
) -> tuple[Floats, Floats, Floats]:
    """Masses (B, 18) [kg], mass centres (B, 18, 3) [m] and principal moments (B, 18, 3) [kg m2]."""
    count, whole = len(mass_kg), mass_kg / table.mass_sum()
    mass, com = np.empty((count, SEGMENT_COUNT)), np.empty((count, SEGMENT_COUNT, 3))
    inertia = np.empty((count, SEGMENT_COUNT, 3))
    for index, segment in enumerate(SEGMENTS):
        name = part_of(segment)
        if name in ("foot", "toes"):
            continue
        part, length = table.parts[name], lengths[name]
        mass[:, index] = part.mass_fraction * whole
        com[:, index] = np.outer(part.com_fraction * length, LONG_AXIS[name])
        inertia[:, index] = _principal(part, mass[:, index], length)
    part, length = table.parts["foot"], lengths["foot"]
    foot_mass, foot_com = part.mass_fraction * whole, whole_foot_com_m(part.com_fraction, length, stature_m)
    pieces = divided(foot_mass, foot_com, _principal(part, foot_mass, length), length, stature_m)
    for side in ("left", "right"):
        for name, piece in zip(("foot", "toes"), pieces, strict=True):
            index = SEGMENT_INDEX[f"{side}_{name}"]
            mass[:, index], com[:, index], inertia[:, index] = piece.mass_kg, piece.com_m, piece.inertia_kg_m2
    return mass, com, inertia


def _principal(part: Part, mass_kg: Floats, length_m: Floats) -> Floats:
    """Principal moments (B, 3) [kg m2] from the part's radii of gyration."""
    moments: Floats = mass_kg[:, None] * (length_m[:, None] * np.array(part.radius_fraction)) ** 2
    return moments
