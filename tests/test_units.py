"""Units: the printed factors, round trips, spellings of fields, and what is shown."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.units import (
    UNITS,
    UnitSystem,
    from_si,
    show_force,
    show_force_range,
    show_length,
    show_mass,
    si_unit_of,
    spellings,
    to_si,
)

# NIST SP 811 (2008), appendix B.8, factors as printed there (seven digits, bold = exact): inch 2.54 E-02,
# pound (avoirdupois) 4.535 924 E-01, kilogram-force 9.806 65 E+00, pound-force 4.448 222 E+00.
# Tolerance: half a unit of the last printed digit.
NIST_SP_811 = [
    ("in", 2.54e-2, 0.0),
    ("lb", 4.535924e-1, 0.5e-7),
    ("kgf", 9.80665, 0.0),
    ("lbf", 4.448222, 0.5e-6),
]


@pytest.mark.parametrize(("suffix", "printed", "half_digit"), NIST_SP_811)
def test_factors_are_those_printed_by_nist(suffix: str, printed: float, half_digit: float) -> None:
    assert abs(to_si(1.0, suffix) - printed) <= half_digit


def test_pound_force_is_the_pound_under_standard_gravity() -> None:
    # exact in decimal arithmetic, so no tolerance
    assert UNITS["lbf"].factor == UNITS["lb"].factor * UNITS["kgf"].factor


@given(
    value=st.floats(min_value=-1e6, max_value=1e6, allow_subnormal=False),
    suffix=st.sampled_from(sorted(UNITS)),
)
def test_round_trip_returns_the_value(value: float, suffix: str) -> None:
    # each way rounds once to a 53-bit float: two half-units in the last place, 2**-52 relative
    back = from_si(to_si(value, suffix), suffix)
    assert math.isclose(back, value, rel_tol=2**-51, abs_tol=1e-300)


@given(centimetres=st.integers(min_value=-100_000, max_value=100_000))
def test_whole_centimetres_give_the_float_a_person_would_write(centimetres: int) -> None:
    assert to_si(centimetres, "cm") == centimetres / 100


def test_every_unit_names_its_source_and_an_si_unit() -> None:
    for unit in UNITS.values():
        assert unit.source
        assert UNITS[unit.si_suffix].factor == 1


def test_spellings_of_a_field() -> None:
    assert list(spellings("stature_m")) == ["stature_m", "stature_cm", "stature_in"]
    assert list(spellings("mass_kg")) == ["mass_kg", "mass_lb"]
    assert list(spellings("rated_load_n")) == [
        "rated_load_n",
        "rated_load_kn",
        "rated_load_kgf",
        "rated_load_lbf",
    ]
    assert spellings("age_years") == {}
    assert spellings("m") == {}
    assert si_unit_of("stature_cm") is None


@pytest.mark.parametrize(
    ("length_m", "metric", "us"),
    [
        (1.78, "178 cm", "5 ft 10 in"),
        (-0.97, "−97 cm", "−3 ft 2 in"),
        (0.1397, "14 cm", "5.5 in"),
        (0.0, "0 cm", "0 in"),
        (-0.004, "0 cm", "0 in"),
        (0.303, "30 cm", "1 ft 0 in"),  # 11.93 in rounds up to a whole foot, never to "12 in"
        (-2.5, "−250 cm", "−8 ft 2.5 in"),
        (30.48, "3048 cm", "100 ft 0 in"),
    ],
)
def test_lengths_as_shown(length_m: float, metric: str, us: str) -> None:
    assert show_length(length_m, "metric") == metric
    assert show_length(length_m, "us") == us


def test_masses_and_forces_as_shown() -> None:
    assert show_mass(74.0, "metric") == "74 kg"
    assert show_mass(74.0, "us") == "163 lb"
    assert show_force(343.23275, "metric") == "35 kg-force"
    assert show_force(343.23275, "us", decimals=1) == "77.2 lbf"
    assert show_force(-0.1, "metric") == "0 kg-force"


@given(length_m=st.floats(min_value=-20.0, max_value=20.0))
def test_shown_feet_and_inches_stay_within_a_quarter_inch(length_m: float) -> None:
    # the step is half an inch, so the shown value is at most a quarter inch off; 1e-9 m for the floats
    parts = show_length(length_m, "us").removeprefix("−").split()
    values = dict(zip(parts[1::2], map(float, parts[::2]), strict=True))
    inches = 12 * values.get("ft", 0.0) + values["in"]
    assert values["in"] < 12
    assert abs(inches * 0.0254 - abs(length_m)) <= 0.25 * 0.0254 + 1e-9


@pytest.mark.parametrize(("system", "shown"), [("metric", "29 to 38 kg-force"), ("us", "64 to 84 lbf")])
def test_two_forces_are_shown_as_a_range_with_one_symbol(system: UnitSystem, shown: str) -> None:
    assert show_force_range(29.0 * 9.80665, 38.0 * 9.80665, system) == shown
