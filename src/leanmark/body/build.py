"""What is measured of a trainee, checked as soon as it is given."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from leanmark.errors import FieldError

Sex = Literal["female", "male"]
SEXES: Final[tuple[Sex, ...]] = ("female", "male")

MASS_RANGE_KG: Final = (20.0, 300.0)  # own figure: wider than any trainee of a strength coach
STATURE_RANGE_M: Final = (1.0, 2.5)  # own figure, likewise
AGE_RANGE_YEARS: Final = (5.0, 110.0)  # own figure, likewise

LENGTH_SHARES: Final[dict[str, tuple[float, float, str]]] = {
    "upper_arm": (0.12, 0.22, "shoulder joint to elbow joint"),
    "forearm": (0.11, 0.20, "elbow joint to wrist joint"),
    "hand": (0.08, 0.14, "wrist joint to fingertip"),
    "thigh": (0.16, 0.32, "hip joint to knee joint"),
    "shank": (0.19, 0.32, "knee joint to ankle joint"),
    "foot": (0.11, 0.19, "heel to toe tip"),
    "trunk": (0.22, 0.37, "hip joint to shoulder joint, upright"),
}
"""Lengths that may be measured: lowest and highest share of stature believed, and where to hold the tape.
Own figures, about a quarter below and above the published means."""


@dataclass(frozen=True)
class Build:
    """One trainee as measured.

    mass_kg: body mass in training clothes, 20 to 300. stature_m: standing height, 1.0 to 2.5.
    sex: female, male or None for not stated. age_years: 5 to 110, or None. lengths_m: measured segment
    lengths by the names of ``LENGTH_SHARES``; both sides alike.

    Raises FieldError, which names the field, the value, what is allowed and what to do.
    """

    mass_kg: float
    stature_m: float
    sex: Sex | None = None
    age_years: float | None = None
    lengths_m: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not _inside(self.mass_kg, MASS_RANGE_KG):
            raise FieldError("mass_kg", self.mass_kg, _span(MASS_RANGE_KG), _mass_remedy(self.mass_kg))
        if not _inside(self.stature_m, STATURE_RANGE_M):
            remedy = _length_remedy("stature", self.stature_m, *STATURE_RANGE_M)
            raise FieldError("stature_m", self.stature_m, _span(STATURE_RANGE_M), remedy)
        if self.sex is not None and self.sex not in SEXES:
            raise FieldError("sex", self.sex, "female, male", "leave it out when it is not stated")
        if self.age_years is not None and not _inside(self.age_years, AGE_RANGE_YEARS):
            remedy = "give the age in years, or leave it out"
            raise FieldError("age_years", self.age_years, _span(AGE_RANGE_YEARS), remedy)
        for name, length_m in self.lengths_m.items():
            _check_length(name, length_m, self.stature_m)


def _check_length(name: str, length_m: float, stature_m: float) -> None:
    if name not in LENGTH_SHARES:
        raise FieldError("lengths_m", name, ", ".join(LENGTH_SHARES), "use one of these names")
    low_share, high_share, tape = LENGTH_SHARES[name]
    low, high = round(low_share * stature_m, 3), round(high_share * stature_m, 3)
    if not _inside(length_m, (low, high)):
        allowed = f"{_span((low, high))} for a stature of {stature_m:g} m"
        remedy = f"{_length_remedy(name, length_m, low, high)}: {tape}"
        raise FieldError(f"lengths_m.{name}", length_m, allowed, remedy)


def _inside(value: float, limits: tuple[float, float]) -> bool:
    return math.isfinite(value) and limits[0] <= value <= limits[1]


def _span(limits: tuple[float, float]) -> str:
    return f"{limits[0]:g}–{limits[1]:g}"


def _length_remedy(name: str, value: float, low_m: float, high_m: float) -> str:
    """What to do about a length, guessing the unit that was meant."""
    for word, suffix, metres in (("centimetres", "cm", 0.01), ("inches", "in", 0.0254)):
        if low_m <= value * metres <= high_m:
            return f"looks like {word}; write {value * metres:.2f} m or use {name}_{suffix}"
    return f"measure the {name.replace('_', ' ')} again and give it in metres"


def _mass_remedy(value: float) -> str:
    if STATURE_RANGE_M[0] <= value <= STATURE_RANGE_M[1]:
        return "looks like a stature in metres; give the body mass in kilograms"
    if MASS_RANGE_KG[1] < value <= MASS_RANGE_KG[1] / 0.45359237:  # NIST SP 811 (2008), pound, exact
        return f"looks like pounds; write {value * 0.45359237:.1f} kg or use mass_lb"
    return "give the body mass in kilograms"
