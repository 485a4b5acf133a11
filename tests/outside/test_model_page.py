"""docs/model.md prints what the model says now, and its reader notices when it does not."""

from __future__ import annotations

import pytest
from tests.outside.answers import FIGURES, answers, verdict
from tests.outside.model_page import PAGE, agrees, blocks, fill
from tests.outside.published import STANDING

HOW = "run: python -m tests.outside.model_page"


def test_the_page_is_current() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert agrees(page, fill(page)), HOW


def test_every_generated_part_stands_in_the_page() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in page]


def test_every_figure_has_an_answer() -> None:
    assert set(answers()) == set(FIGURES)


@pytest.mark.parametrize("sex", STANDING)
def test_standing_mass_centre_lies_inside_its_band(sex: str) -> None:
    assert verdict(f"standing, {sex}") == "inside"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("| 69.5 | +0.4 |", "| 69.6 | +0.4 |", True),  # one in the last digit: rounding on another machine
        ("| 69.5 |", "| 69.7 |", False),
        ("| 0.811 |", "| 0.813 |", False),
        ("| 69.5 |", "| 69.50 |", False),
        ("| 69.5 | inside |", "| 69.5 | known miss |", False),
        ("| 69.5 |", "| 69.5 | 1.0 |", False),
    ],
)
def test_pages_agree_to_the_digits_printed(one: str, other: str, same: bool) -> None:
    assert agrees(one, other) is same
