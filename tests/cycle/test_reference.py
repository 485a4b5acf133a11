"""docs/cycle-builder.md says what the code says now."""

from __future__ import annotations

from tests.docs.pages import ROOT

from leanmark.cycle.reference import PAGE, blocks, fill
from leanmark.cycle.weights import CHOICE_WEIGHTS, ORDER_WEIGHTS

TEXT = (ROOT / "docs" / PAGE).read_text(encoding="utf-8")


def test_the_page_is_current() -> None:
    assert fill(TEXT) == TEXT, "run: python -m leanmark.cycle.reference docs"


def test_every_generated_part_stands_in_the_page() -> None:
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in TEXT]


def test_every_weight_has_its_row() -> None:
    assert not [goal for goal in (*CHOICE_WEIGHTS, *ORDER_WEIGHTS) if f"\n| {goal} | " not in TEXT]
