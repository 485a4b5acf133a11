"""What a build accepts, and what it says about the rest."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.body.build import LENGTH_SHARES, Build, Sex
from leanmark.errors import FieldError

PERSON: dict[str, Any] = {"mass_kg": 74.0, "stature_m": 1.78}


def refused(changes: dict[str, Any]) -> str:
    with pytest.raises(FieldError) as caught:
        Build(**{**PERSON, **changes})
    text = str(caught.value)
    assert "\n" not in text
    return text


@pytest.mark.parametrize(
    ("changes", "field", "allowed", "remedy"),
    [
        (
            {"stature_m": 178},
            "stature_m = 178",
            "1–2.5",
            "looks like centimetres; write 1.78 m or use stature_cm",
        ),
        ({"stature_m": 70}, "stature_m = 70", "1–2.5", "looks like inches; write 1.78 m or use stature_in"),
        ({"stature_m": 0.9}, "stature_m = 0.9", "1–2.5", "measure the stature again and give it in metres"),
        ({"mass_kg": 1.78}, "mass_kg = 1.78", "20–300", "looks like a stature in metres"),
        ({"mass_kg": 400}, "mass_kg = 400", "20–300", "looks like pounds; write 181.4 kg or use mass_lb"),
        ({"mass_kg": 19.9}, "mass_kg = 19.9", "20–300", "give the body mass in kilograms"),
        ({"mass_kg": math.nan}, "mass_kg = nan", "20–300", "give the body mass in kilograms"),
        ({"stature_m": math.inf}, "stature_m = inf", "1–2.5", "metres"),
        ({"sex": "f"}, "sex = 'f'", "female, male", "leave it out"),
        ({"age_years": 240}, "age_years = 240", "5–110", "give the age in years, or leave it out"),
        (
            {"lengths_m": {"thigh": 43}},
            "lengths_m.thigh = 43",
            "for a stature of 1.78 m",
            "write 0.43 m or use thigh_cm",
        ),
        ({"lengths_m": {"thigh": 0.8}}, "lengths_m.thigh = 0.8", "0.285–0.57", "hip joint to knee joint"),
        ({"lengths_m": {"shin": 0.4}}, "lengths_m = 'shin'", "upper_arm, forearm", "use one of these names"),
    ],
)
def test_errors_name_field_value_range_and_remedy(
    changes: dict[str, Any], field: str, allowed: str, remedy: str
) -> None:
    text = refused(changes)
    assert field in text
    assert allowed in text
    assert remedy in text


@given(
    mass_kg=st.floats(20.0, 300.0),
    stature_m=st.floats(1.0, 2.5),
    sex=st.sampled_from(["female", "male", None]),
    age_years=st.one_of(st.none(), st.floats(5.0, 110.0)),
)
def test_the_allowed_ranges_are_accepted(
    mass_kg: float, stature_m: float, sex: Sex | None, age_years: float | None
) -> None:
    assert Build(mass_kg, stature_m, sex, age_years).lengths_m == {}


@pytest.mark.parametrize("name", LENGTH_SHARES)
@given(stature_m=st.floats(1.0, 2.5), inside=st.floats(0.01, 0.99), outside=st.floats(0.001, 0.05))
def test_a_measured_length_is_believed_inside_its_shares_only(
    name: str, stature_m: float, inside: float, outside: float
) -> None:
    low, high, _ = LENGTH_SHARES[name]
    length_m = (low + inside * (high - low)) * stature_m
    assert Build(70.0, stature_m, lengths_m={name: length_m}).lengths_m[name] == length_m
    for wrong in ((low - outside) * stature_m - 0.001, (high + outside) * stature_m + 0.001):
        with pytest.raises(FieldError, match=f"lengths_m.{name}"):
            Build(70.0, stature_m, lengths_m={name: wrong})
