"""Greatest moments of major muscle groups by sex, age, stature and mass, by Harbo, Brincks and Andersen.

Source of every number here: Harbo T, Brincks J, Andersen H. 2012. Maximal isokinetic and isometric muscle
strength of major muscle groups related to age, body mass, height, and sex in 178 healthy subjects. Eur J
Appl Physiol 112:267-275 (93 men, 85 women, 15 to 83 years, not athletes), regression coefficients read in
a public copy, not in the paper. The speed of the isokinetic rows was not seen there.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from leanmark.body.build import Sex


class Regression(NamedTuple):
    """Moment [N m] = constant + per_year * age + per_m * stature + per_kg * body mass."""

    constant: float
    per_year: float
    per_m: float
    per_kg: float


ISOMETRIC: Final = "isometric"
ISOKINETIC: Final = "isokinetic, concentric"
Row = tuple[str, str, str]

MEN: Final[dict[Row, Regression]] = {  # Harbo et al. 2012; joint, action, contraction
    ("knee", "extension", ISOKINETIC): Regression(81.8, -1.44, 41.0, 1.25),
    ("knee", "flexion", ISOKINETIC): Regression(-90.8, -0.49, 80.0, 0.82),
    ("knee", "extension", ISOMETRIC): Regression(-107.9, -1.40, 158.0, 1.75),
    ("ankle", "dorsiflexion", ISOKINETIC): Regression(-13.4, -0.07, 23.0, 0.10),
    ("ankle", "plantarflexion", ISOKINETIC): Regression(97.7, -0.72, 4.0, 0.52),
    ("ankle", "dorsiflexion", ISOMETRIC): Regression(-88.9, -0.04, 68.0, 0.16),
    ("hip", "extension", ISOKINETIC): Regression(-49.8, -0.97, 103.0, 1.14),
    ("hip", "flexion", ISOKINETIC): Regression(-79.9, -0.75, 107.0, 0.79),
    ("hip", "flexion", ISOMETRIC): Regression(37.6, -0.72, 36.0, 1.12),
    ("shoulder", "abduction", ISOKINETIC): Regression(-47.7, -0.16, 42.0, 0.51),
    ("shoulder", "adduction", ISOKINETIC): Regression(-72.9, -0.06, 72.0, 0.38),
    ("shoulder", "abduction", ISOMETRIC): Regression(-30.8, -0.24, 36.0, 0.49),
    ("elbow", "extension", ISOKINETIC): Regression(-4.4, -0.07, 12.0, 0.42),
    ("elbow", "flexion", ISOKINETIC): Regression(-37.2, -0.18, 36.0, 0.41),
    ("elbow", "flexion", ISOMETRIC): Regression(-23.8, -0.13, 22.0, 0.51),
    ("wrist", "extension", ISOKINETIC): Regression(-11.1, -0.02, 12.0, 0.03),
    ("wrist", "flexion", ISOKINETIC): Regression(1.7, -0.07, 4.0, 0.21),
    ("wrist", "flexion", ISOMETRIC): Regression(-6.9, -0.07, 10.0, 0.21),
}
WOMEN: Final[dict[Row, Regression]] = {  # Harbo et al. 2012; joint, action, contraction
    ("knee", "extension", ISOKINETIC): Regression(-96.7, -1.00, 137.0, 0.62),
    ("knee", "flexion", ISOKINETIC): Regression(-40.2, -0.48, 57.0, 0.46),
    ("knee", "extension", ISOMETRIC): Regression(-201.0, -0.96, 216.0, 0.88),
    ("ankle", "dorsiflexion", ISOKINETIC): Regression(-11.4, -0.10, 16.0, 0.17),
    ("ankle", "plantarflexion", ISOKINETIC): Regression(33.2, -0.68, 24.0, 0.59),
    ("ankle", "dorsiflexion", ISOMETRIC): Regression(-37.8, -0.04, 35.0, 0.16),
    ("hip", "extension", ISOKINETIC): Regression(-108.7, -0.87, 147.0, 0.50),
    ("hip", "flexion", ISOKINETIC): Regression(-72.3, -0.42, 96.0, 0.38),
    ("hip", "flexion", ISOMETRIC): Regression(-72.4, -0.20, 78.0, 0.89),
    ("shoulder", "abduction", ISOKINETIC): Regression(-9.3, -0.20, 24.0, 0.28),
    ("shoulder", "adduction", ISOKINETIC): Regression(-24.5, -0.15, 40.0, 0.18),
    ("shoulder", "abduction", ISOMETRIC): Regression(-28.2, -0.21, 35.0, 0.29),
    ("elbow", "extension", ISOKINETIC): Regression(6.4, -0.10, 5.0, 0.27),
    ("elbow", "flexion", ISOKINETIC): Regression(-16.5, -0.12, 27.0, 0.09),
    ("elbow", "flexion", ISOMETRIC): Regression(6.9, -0.13, 9.0, 0.18),
    ("wrist", "extension", ISOKINETIC): Regression(-9.0, -0.01, 9.0, 0.01),
    ("wrist", "flexion", ISOKINETIC): Regression(-2.3, -0.02, 8.0, 0.04),
    ("wrist", "flexion", ISOMETRIC): Regression(-22.2, -0.04, 23.0, 0.00),
}
REGRESSIONS: Final[dict[Sex, dict[Row, Regression]]] = {"male": MEN, "female": WOMEN}
"""The copy says ankle extension and flexion; by their size these are dorsiflexion and plantarflexion."""

YOUNG_AGE_YEARS: Final = 25.0  # age of the reference person; own figure
OLDEST_AGE_YEARS: Final = 80.0  # the sample reaches 83; own figure
YOUNG_MASS_KG: Final[dict[Sex, float]] = {"female": 62.0, "male": 78.0}  # reference person; own figure
YOUNG_STATURE_M: Final[dict[Sex, float]] = {"female": 1.67, "male": 1.79}  # reference person; own figure


def predicted_moment_nm(row: Row, sex: Sex, age_years: float, stature_m: float, mass_kg: float) -> float:
    """The regression's mean moment [N m]. Raises KeyError for a row that is not in the table."""
    fit = REGRESSIONS[sex][row]
    return fit.constant + fit.per_year * age_years + fit.per_m * stature_m + fit.per_kg * mass_kg


def young_moment_nm(row: Row, sex: Sex) -> float:
    """The regression's mean moment of the reference person [N m]."""
    return predicted_moment_nm(row, sex, YOUNG_AGE_YEARS, YOUNG_STATURE_M[sex], YOUNG_MASS_KG[sex])


def loss_per_year(sex: Sex) -> float:
    """Share of a young adult's moment lost per year of age after 25: mean over all rows of the sex."""
    losses = [-fit.per_year / young_moment_nm(row, sex) for row, fit in REGRESSIONS[sex].items()]
    return sum(losses) / len(losses)
