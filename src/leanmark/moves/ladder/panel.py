"""The people that the library is judged on: short and light to tall and heavy, women and men.

Percentiles of stature and body mass: Gordon CC et al. 2014, 2012 Anthropometric Survey of U.S. Army
Personnel: Methods and Summary Statistics, NATICK/TR-15/007; from memory, rounded.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

from leanmark.body.build import SEXES, Build, Sex
from leanmark.moves.people import People, people_of

PERCENTILES: Final = (5, 50, 95)
STATURES_M: Final[dict[Sex, tuple[float, float, float]]] = {
    "female": (1.53, 1.63, 1.74),  # Gordon et al. 2014, from memory, rounded
    "male": (1.64, 1.76, 1.87),  # Gordon et al. 2014, from memory, rounded
}
MASSES_KG: Final[dict[Sex, tuple[float, float, float]]] = {
    "female": (51.0, 67.0, 87.0),  # Gordon et al. 2014, from memory, rounded
    "male": (64.0, 85.0, 111.0),  # Gordon et al. 2014, from memory, rounded
}
_WORDS: Final[dict[Sex, str]] = {"female": "woman", "male": "man"}
_MIDDLE: Final = PERCENTILES.index(50)


def _build(sex: Sex, stature: int, mass: int) -> Build:
    return Build(MASSES_KG[sex][mass], STATURES_M[sex][stature], sex)


@cache
def reference_people() -> People:
    """Six people: women, then men, each of the 5th, 50th and 95th percentile of stature and of mass."""
    return people_of([_build(sex, k, k) for sex in SEXES for k in range(len(PERCENTILES))])


@cache
def crossed_people() -> People:
    """Eighteen people: women, then men, every percentile of stature with every one of mass."""
    places = range(len(PERCENTILES))
    return people_of([_build(sex, tall, heavy) for sex in SEXES for tall in places for heavy in places])


@cache
def typical_people() -> People:
    """The woman and the man of the 50th percentile, each by the table of their sex."""
    return people_of([_build(sex, _MIDDLE, _MIDDLE) for sex in SEXES])


def typical_in(people: People) -> list[int]:
    """Numbers of those among ``people`` who are of the 50th percentile; everyone where nobody is."""
    middle = [number for number, build in enumerate(people.builds) if build in typical_people().builds]
    return middle or list(range(len(people)))


def percentile_words(build: Build) -> str:
    """A person of the panel in words, ``95th-percentile man`` or ``5th-percentile woman of 50th-percentile
    mass``; empty for anyone else."""
    sex = build.sex
    if sex is None or build.stature_m not in STATURES_M[sex] or build.mass_kg not in MASSES_KG[sex]:
        return ""
    tall, heavy = (
        PERCENTILES[row.index(value)]
        for row, value in ((STATURES_M[sex], build.stature_m), (MASSES_KG[sex], build.mass_kg))
    )
    mass = "" if tall == heavy else f" of {heavy}th-percentile mass"
    return f"{tall}th-percentile {_WORDS[sex]}{mass}"


def words_of(build: Build) -> str:
    """A person of the panel by percentile, anyone else by stature and mass."""
    return percentile_words(build) or f"{build.stature_m:.2f} m, {build.mass_kg:.0f} kg"


def listed(builds: Sequence[Build]) -> str:
    """Several people in words."""
    return ", ".join(words_of(build) for build in builds)
