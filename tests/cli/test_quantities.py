"""Quantities are read as people write them, and as our own answers print them."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.cli.quantities import QUANTITIES, read_people, read_percent, read_quantity
from leanmark.errors import FieldError
from leanmark.units import UnitSystem, show_length

FOOT_M, POUND_KG, POUND_FORCE_N = 0.3048, 0.45359237, 4.4482216152605  # NIST SP 811 (2008) appendix B.8


@pytest.mark.parametrize(
    ("option", "text", "value_si"),
    [
        ("--stature", "1.78", 1.78),
        ("--stature", " 178CM ", 1.78),
        ("--stature", "70 in", 70 / 12 * FOOT_M),
        ("--stature", "5 ft 10 in", 70 / 12 * FOOT_M),
        ("--stature", "5ft10in", 70 / 12 * FOOT_M),
        ("--stature", "5 ft 10", 70 / 12 * FOOT_M),
        ("--stature", "6 ft", 6 * FOOT_M),
        ("--mark", "-40 cm", -0.4),
        ("--mark", "−40 cm", -0.4),
        ("--mark", "+.4 m", 0.4),
        ("--mark", "−2 ft 3 in", -2.25 * FOOT_M),
        ("--mark", "-0 ft 6.5 in", -6.5 / 12 * FOOT_M),
        ("--mark", "4e-1", 0.4),
        ("--mass", "165 lb", 165 * POUND_KG),
        ("--reading", "32 kgf", 32 * 9.80665),
        ("--reading", "0.3 kN", 300.0),
        ("--reading", "70 lbf", 70 * POUND_FORCE_N),
        ("--reading", "300 n", 300.0),
    ],
)
def test_quantities_are_read(option: str, text: str, value_si: float) -> None:
    assert read_quantity(option, text) == pytest.approx(value_si, rel=1e-12)


@given(mark_m=st.floats(-7.9, 7.9), system=st.sampled_from(["metric", "us"]))
def test_a_printed_mark_can_be_typed(mark_m: float, system: UnitSystem) -> None:
    half_step_m = {"metric": 0.005, "us": 0.25 * 0.0254}[system]  # whole centimetres, half inches
    assert read_quantity("--mark", show_length(mark_m, system)) == pytest.approx(
        mark_m, abs=half_step_m + 1e-9
    )


@pytest.mark.parametrize("option", QUANTITIES)
def test_every_example_and_both_limits_are_accepted(option: str) -> None:
    row = QUANTITIES[option]
    assert row.low <= read_quantity(option, row.example) <= row.high
    for end in (row.low, row.high):
        assert read_quantity(option, f"{end!r}") == end


@pytest.mark.parametrize("option", QUANTITIES)
@pytest.mark.parametrize("beyond", [-1e-6, 1e-6])
def test_just_beyond_either_limit_is_refused(option: str, beyond: float) -> None:
    row = QUANTITIES[option]
    value = (row.low if beyond < 0.0 else row.high) + beyond
    with pytest.raises(FieldError, match=f"{option} = .*allowed: "):
        read_quantity(option, f"{value:.9f}")


@given(text=st.text(max_size=40))
def test_text_is_read_within_the_limits_or_refused(text: str) -> None:
    for option, row in QUANTITIES.items():
        with suppress(FieldError):
            assert row.low <= read_quantity(option, text) <= row.high


def test_the_error_names_the_option_that_was_typed() -> None:
    with pytest.raises(FieldError, match=r"--reading = 'far' .*-8 to 8 m"):
        read_quantity("--reading", "far", "--mark")


@pytest.mark.parametrize(("text", "percent"), [("35", 35.0), ("35%", 35.0), (" 33.3 % ", 33.3)])
def test_loads_are_read(text: str, percent: float) -> None:
    assert read_percent("--load", text) == percent


@pytest.mark.parametrize("text", ["0", "9", "1.0", "-1", "", "²", "1_0"])
def test_people_are_counted_in_whole(text: str) -> None:
    with pytest.raises(FieldError, match="1 to 8"):
        read_people("--people", text)
