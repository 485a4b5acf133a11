"""Reference strengths against published values that they were not taken from.

Tolerances: published means carry no better than the spread between people, whose coefficient of variation
is 20 to 30 % (Benfica et al. 2018, Braz J Phys Ther 22:355, abstract). Two sets count as agreeing within
0.20, the low end; the scaling by body size within 0.30, the high end. Where a figure has its own interval,
that is used.
"""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body import anderson_2007, harbo_2012
from leanmark.body.build import SEXES, Build, Sex
from leanmark.body.harbo_2012 import ISOMETRIC, predicted_moment_nm, young_moment_nm
from leanmark.body.scale import scale
from leanmark.body.segments import JOINT_INDEX
from leanmark.body.strength import age_share
from leanmark.body.strength_reference import YOUNG
from leanmark.body.strength_table import ACTIONS, REFERENCES
from leanmark.body.tables import TABLES

AGREEMENT = 0.20
SIZE_AGREEMENT = 0.30


def strength_nm(joint: str, action: str, build: Build) -> float:
    """Our strength of a person in one action, from the whole way through ``scale``."""
    bodies = scale([build], TABLES["winter_dempster"])
    index = JOINT_INDEX.get(joint, JOINT_INDEX.get(f"left_{joint}", -1))
    for axis, actions in enumerate(ACTIONS[joint]):
        if actions and action in actions:
            return float(bodies.strength_nm[0, index, axis, actions.index(action)])
    raise AssertionError(f"{joint} has no {action}")


def young(sex: Sex) -> Build:
    return Build(*YOUNG[sex], sex=sex, age_years=25.0)


# Šarabon et al. 2021, Front Physiol 12:767941 (abstract): pooled 95 % confidence interval of isometric knee
# strength at mid-range, adults, N m/kg.
SARABON = [("female", "extension", 2.08, 2.74), ("male", "flexion", 1.15, 1.62)]


@pytest.mark.parametrize(("sex", "action", "low", "high"), SARABON)
def test_sarabon_2021_knee_strength(sex: Sex, action: str, low: float, high: float) -> None:
    assert low <= strength_nm("knee", action, young(sex)) / YOUNG[sex].mass_kg <= high


def test_sarabon_2021_knee_extension_of_men_is_missed_by_two_percent() -> None:
    # Pooled 2.92 to 3.45 N m/kg; ours, after Anderson et al. 2007, lies below.
    value = strength_nm("knee", "extension", young("male")) / YOUNG["male"].mass_kg
    assert 2.92 - value == pytest.approx(0.06, abs=0.005)


# Holzbaur et al. 2007, J Biomech 40:2442 (abstract): ten healthy young adults, women and men, mean and
# standard deviation. Tolerance: standard error of the mean of ten.
HOLZBAUR = [("shoulder", "adduction", 67.9, 28.4), ("wrist", "extension", 10.2, 4.6)]


@pytest.mark.parametrize(("joint", "action", "mean_nm", "deviation_nm"), HOLZBAUR)
def test_holzbaur_2007_upper_limb(joint: str, action: str, mean_nm: float, deviation_nm: float) -> None:
    ours = np.mean([strength_nm(joint, action, young(sex)) for sex in SEXES])
    assert ours == pytest.approx(mean_nm, abs=deviation_nm / 10**0.5)


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize(
    ("joint", "action"), [("knee", "extension"), ("hip", "flexion"), ("ankle", "dorsiflexion")]
)
def test_anderson_2007_and_harbo_2012_agree_on_isometric_moments(sex: Sex, joint: str, action: str) -> None:
    ours = strength_nm(joint, action, young(sex))  # after Anderson et al.
    assert ours == pytest.approx(young_moment_nm((joint, action, ISOMETRIC), sex), rel=AGREEMENT)


# da Fonseca et al. 2023 (abstract): 69 men and 31 women, isokinetic means; body of BMI 25.8 at 1.72 m.
@pytest.mark.parametrize(("action", "mean_nm"), [("plantarflexion", 140.2), ("dorsiflexion", 48.6)])
def test_da_fonseca_2023_ankle(action: str, mean_nm: float) -> None:
    men, women = (strength_nm("ankle", action, Build(76.0, 1.72, sex=sex)) for sex in ("male", "female"))
    assert 0.69 * men + 0.31 * women == pytest.approx(mean_nm, rel=AGREEMENT)


FROM_HARBO = [
    (joint, action, contraction)
    for joint, action, contraction in harbo_2012.MEN
    if "Harbo" in REFERENCES[joint, action].source and REFERENCES[joint, action].contraction == contraction
]
STATURES: dict[Sex, tuple[float, ...]] = {"female": (1.55, 1.67, 1.80), "male": (1.65, 1.79, 1.95)}


def test_six_actions_are_taken_from_harbo_2012() -> None:
    assert len(FROM_HARBO) == 6


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize("row", FROM_HARBO)
def test_mass_times_stature_follows_the_regressions_of_harbo_2012(sex: Sex, row: harbo_2012.Row) -> None:
    # people of body mass index 19 to 25 kg/m2; heavier people are read up to a third too strong (docs)
    for stature_m in STATURES[sex]:
        for index in (19.0, 22.0, 25.0):
            build = Build(index * stature_m**2, stature_m, sex=sex, age_years=25.0)
            wanted = predicted_moment_nm(row, sex, 25.0, stature_m, build.mass_kg)
            assert strength_nm(row[0], row[1], build) == pytest.approx(wanted, rel=SIZE_AGREEMENT)


# Danneskiold-Samsøe et al. 2009, doi 10.1111/j.1748-1716.2009.02022.x (abstract): strength at 75 years over
# that at 25 (men) and at 40 (women), lowest and highest muscle group.
DANNESKIOLD = [("male", 25.0, 0.54, 0.89), ("female", 40.0, 0.48, 0.92)]


@pytest.mark.parametrize(("sex", "from_age", "low", "high"), DANNESKIOLD)
def test_danneskiold_samsoe_2009_loss_with_age(sex: Sex, from_age: float, low: float, high: float) -> None:
    then, now = age_share(np.array([from_age, 75.0]), sex)
    assert low <= now / then <= high


@pytest.mark.parametrize("sex", SEXES)
def test_anderson_2007_table_3_loss_with_age(sex: Sex) -> None:
    # mean of the six actions, people over 65 (taken as 70) over people of 18 to 25
    ratio = np.mean([groups[sex][2] / groups[sex][0] for groups in anderson_2007.C1.values()])
    assert age_share(np.array([70.0]), sex)[0] == pytest.approx(ratio, rel=AGREEMENT)


def test_backman_1995_women_against_men() -> None:
    # Bäckman et al. 1995, Scand J Rehabil Med 27(2) (abstract): women 65 to 70 % of men over eight muscle
    # groups. Ours over all actions may differ by the half width of those groups' spread, taken as 0.05.
    ratios = [
        strength_nm(*action, young("female")) / strength_nm(*action, young("male")) for action in REFERENCES
    ]
    assert 0.65 - 0.05 <= np.mean(ratios) <= 0.70 + 0.05


def test_elbow_flexion_of_young_women_is_missed_by_a_quarter() -> None:
    # Fifteen young women, isometric, 40.5 N m (Pediatr Exerc Sci 2009 21:354, abstract). Ours, after Harbo et
    # al. 2012, is lower by more than AGREEMENT allows.
    assert strength_nm("elbow", "flexion", young("female")) / 40.5 == pytest.approx(0.736, abs=0.01)
