"""Reference joint strengths of people: what a published mean of their sex and age could hold at their size.

Strength is taken as proportional to body mass times stature. This is a model choice: a joint moment due to
the body's own weight is then the same share of strength for similar people of any size. It rests on Keller
and Roy 2002 (J Spinal Disord Tech 15:312, from memory; abstract seen), whose sex differences in trunk
moments nearly vanish over weight times height, and on Anderson et al. 2007, who tabulate moments that way.

A reference strength is a yardstick for comparing positions. It says nothing about a person's own strength,
which differs from the mean by a fifth to a third (Benfica et al. 2018, Braz J Phys Ther 22:355, abstract:
coefficients of variation of 20 to 30 %), and it is no ground for a diagnosis.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from leanmark.body import harbo_2012
from leanmark.body.arrays import Floats
from leanmark.body.build import Build, Sex
from leanmark.body.frame import part_of
from leanmark.body.segments import JOINTS, SEGMENT_COUNT
from leanmark.body.strength_table import ACTIONS, REFERENCES

FEMALE_SHARE: Final[dict[Sex | None, float]] = {"female": 1.0, "male": 0.0, None: 0.5}


def _per_size(sex: Sex) -> Floats:
    """Reference strength over mass times stature (18, 3, 2) [N m / (kg m)]; zero where there is none."""
    per_size = np.zeros((SEGMENT_COUNT, 3, 2))
    for index, joint in enumerate(JOINTS[1:], start=1):
        kind = part_of(joint)
        for axis, actions in enumerate(ACTIONS[kind]):
            for direction, action in enumerate(actions or ()):
                per_size[index, axis, direction] = REFERENCES[kind, action].per_size(sex)
    return per_size


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
    female = np.array([FEMALE_SHARE[build.sex or table_sex] for build in builds])
    age_years = np.array([build.age_years or harbo_2012.YOUNG_AGE_YEARS for build in builds])
    size = mass_kg * stature_m
    women = size * female * age_share(age_years, "female")
    men = size * (1.0 - female) * age_share(age_years, "male")
    per_size = np.stack([PER_SIZE["female"].ravel(), PER_SIZE["male"].ravel()])
    strength: Floats = (np.stack([women, men], axis=-1) @ per_size).reshape(-1, SEGMENT_COUNT, 3, 2)
    strength[:, 0] = np.nan
    strength[:, 1:][:, STRUCTURAL] = np.inf
    return strength


def age_share(age_years: Floats, sex: Sex) -> Floats:
    """Strength at an age (B,) as a share of that at 25 years: straight decline at the mean rate of the
    regressions of Harbo et al. 2012, from 25 to 80 years. Younger people count as 25: their smaller bodies
    alone make them weaker (own figure)."""
    years = np.clip(age_years, harbo_2012.YOUNG_AGE_YEARS, harbo_2012.OLDEST_AGE_YEARS)
    share: Floats = 1.0 - harbo_2012.loss_per_year(sex) * (years - harbo_2012.YOUNG_AGE_YEARS)
    return share
