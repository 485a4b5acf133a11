"""docs/move-library.md says what the library and the engine say now."""

from __future__ import annotations

from tests.docs.pages import ROOT
from tests.moves.whole_library import MOVES, RUNGS, ladder_of
from tests.outside.model_page import agrees

from leanmark.moves.ladder.demand import demand_of
from leanmark.moves.ladder.panel import typical_in
from leanmark.moves.reference import PAGE, blocks, fill
from leanmark.moves.restrictions import RESTRICTIONS

TEXT = (ROOT / "docs" / PAGE).read_text(encoding="utf-8")
HOW = "run: python -m leanmark.moves.reference docs"


def test_the_page_is_current() -> None:
    """Words alike, numbers alike up to one in the last digit: rounding on another machine."""
    assert agrees(TEXT, fill(TEXT)), HOW


def test_every_generated_part_stands_in_the_page() -> None:
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in TEXT]


def test_every_move_has_its_heading_and_every_rung_its_row() -> None:
    assert [move.move for move in MOVES if f"\n### {move.move}\n" not in TEXT] == []
    assert [rung.rung for _, rung in RUNGS if f"\n| {rung.rung} | " not in TEXT] == []
    assert f"{len(MOVES)} moves with {len(RUNGS)} rungs in " in TEXT


def test_demand_of_a_row_is_that_of_the_typical_two() -> None:
    for one in ladder_of("row"):
        shares = demand_of(one).share[typical_in(one.people)]
        assert f"| {one.rung.rung} | {' / '.join(f'{100 * share:.0f}' for share in shares)} % |" in TEXT


def test_every_restriction_is_explained() -> None:
    assert [row.name for row in RESTRICTIONS.values() if f"| {row.name} | {row.means} |" not in TEXT] == []
