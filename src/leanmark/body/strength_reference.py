"""One reference strength, and how published moments are brought to it."""

from __future__ import annotations

from typing import Final, NamedTuple

from leanmark.body import anderson_2007, harbo_2012
from leanmark.body.build import SEXES, Sex


class Reference(NamedTuple):
    """Mean moment of healthy young adults in one action of one joint, over body mass times stature of those
    measured [N m / (kg m)], women and men; the contraction; the source."""

    female_per_size: float
    male_per_size: float
    contraction: str
    source: str

    def per_size(self, sex: Sex) -> float:
        """The value of one sex [N m / (kg m)]."""
        return self.female_per_size if sex == "female" else self.male_per_size

    def like(self, share: float, source: str) -> Reference:
        """Another action whose strength is a share of this one's."""
        return Reference(self.female_per_size * share, self.male_per_size * share, self.contraction, source)


References = dict[tuple[str, str], Reference]
"""By joint, without its side, and action."""


class Body(NamedTuple):
    """Mean body mass [kg] and stature [m] of those measured."""

    mass_kg: float
    stature_m: float

    @property
    def size(self) -> float:
        """Body mass times stature [kg m]."""
        return self.mass_kg * self.stature_m


YOUNG: Final[dict[Sex, Body]] = {
    sex: Body(harbo_2012.YOUNG_MASS_KG[sex], harbo_2012.YOUNG_STATURE_M[sex]) for sex in SEXES
}
"""Taken for those measured where a source gives no body size; own figure."""
ISOMETRIC: Final = harbo_2012.ISOMETRIC
ISOKINETIC: Final = harbo_2012.ISOKINETIC


def measured(
    women_nm: float,
    men_nm: float,
    source: str,
    women: Body = YOUNG["female"],
    men: Body = YOUNG["male"],
    contraction: str = ISOMETRIC,
) -> Reference:
    """Moments [N m] of women and men of known or assumed size."""
    return Reference(women_nm / women.size, men_nm / men.size, contraction, source)


def of_anderson(joint: str, action: str) -> Reference:
    """A row of Anderson et al. 2007, who give moments over body weight times stature."""
    women, men = (anderson_2007.moment_per_size(joint, action, sex) for sex in SEXES)
    source = "Anderson et al. 2007, J Biomech 40:3105, table 3, 18 to 25 years; read in a public copy"
    return Reference(women, men, ISOMETRIC, source)


def of_harbo(joint: str, action: str, contraction: str) -> Reference:
    """A regression of Harbo et al. 2012 at 25 years and the size of ``YOUNG``."""
    women_nm, men_nm = (harbo_2012.young_moment_nm((joint, action, contraction), sex) for sex in SEXES)
    source = "Harbo et al. 2012, Eur J Appl Physiol 112:267, regression at 25 years; read in a public copy"
    return measured(women_nm, men_nm, source, contraction=contraction)
