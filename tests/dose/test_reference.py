"""docs/dose.md says what the code says now."""

from __future__ import annotations

from tests.docs.pages import ROOT

from leanmark.dose.reference import PAGE, blocks, fill
from leanmark.dose.rules import RULES

TEXT = (ROOT / "docs" / PAGE).read_text(encoding="utf-8")


def test_the_page_is_current() -> None:
    assert fill(TEXT) == TEXT, "run: python -m leanmark.dose.reference docs"


def test_every_generated_part_stands_in_the_page() -> None:
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in TEXT]


def test_every_rule_has_its_row() -> None:
    assert not [name for name in RULES if f"\n| {name} | " not in TEXT]
