"""Reference joint strengths of people: what a published mean of their sex and age could hold at their size.

Strength is taken as proportional to body mass times stature: a model choice, so that a joint moment due
to the body's own weight is the same share of strength for similar people of any size. It is a yardstick
for comparing positions and not a test of the person.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from leanmark.body.arrays import Floats
from leanmark.body.build import Build, Sex
from leanmark.body.frame import part_of
from leanmark.body.segments import JOINTS, SEGMENT_COUNT
from leanmark.body.strength_table import (
    ACTIONS,
    AGE_SHARES,
    REFERENCE_MASS_KG,
    REFERENCE_STATURE_M,
    REFERENCES,
)


def _per_size(sex: Sex) -> Floats:
    """Reference strength over mass times stature (18, 3, 2) [N m / (kg m)]; zero where there is none."""
    shares = np.zeros((SEGMENT_COUNT, 3, 2))
    size = REFERENCE_MASS_KG[sex] * REFERENCE_STATURE_M[sex]
    for index, joint in enumerate(JOINTS[1:], start=1):
        kind = part_of(joint)
        for axis, actions in enumerate(ACTIONS[kind]):
            for direction, action in enumerate(actions or ()):
                reference = REFERENCES[kind, action]
                value_nm = reference.female_nm if sex == "female" else reference.male_nm
                shares[index, axis, direction] = value_nm / size
    return shares


PER_SIZE: Final[dict[Sex, Floats]] = {"female": _per_size("female"), "male": _per_size("male")}
STRUCTURAL: Final = PER_SIZE["male"][1:] == 0.0
"""Axes (17, 3, 2) on which ligament and bone carry the load; their strength is infinite."""


def reference_strength_nm(
    builds: Sequence[Build], mass_kg: Floats, stature_m: Floats, table_sex: Sex | None
) -> Floats:
    """Strength of every joint (B, 18, 3, 2) [N m], negative and positive direction of its three axes; inf
    on structural axes, NaN for the root.

    Where a build states no sex, the segment table's is taken, so that answers over both tables span both
    sexes; where that has none either, the mean of the two. Where it states no age, a young adult's.
    """
    female = np.array([_female_share(build.sex or table_sex) for build in builds])
    age_years = np.array([build.age_years or 0.0 for build in builds])
    size = mass_kg * stature_m * _age_share(age_years)
    weights = np.stack([size * female, size * (1.0 - female)], axis=-1)
    per_size = np.stack([PER_SIZE["female"].ravel(), PER_SIZE["male"].ravel()])
    strength: Floats = (weights @ per_size).reshape(-1, SEGMENT_COUNT, 3, 2)
    strength[:, 0] = np.nan
    strength[:, 1:][:, STRUCTURAL] = np.inf
    return strength


def _female_share(sex: Sex | None) -> float:
    return {"female": 1.0, "male": 0.0, None: 0.5}[sex]


def _age_share(age_years: Floats) -> Floats:
    starts = np.array([start for start, _, _ in AGE_SHARES])
    shares = np.array([share for _, share, _ in AGE_SHARES])
    band: Floats = shares[np.searchsorted(starts, age_years, side="right") - 1]
    return band
