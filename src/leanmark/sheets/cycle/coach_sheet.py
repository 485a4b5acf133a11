"""What a coach's sheet is made of: headings, words, cautions, pictures and tables, one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from typing import Final

from leanmark.errors import FieldError
from leanmark.figures.plots.look import Look
from leanmark.sheets.cycle.papers import PHONE_PT, TEXT_WIDTH_PT, SheetPaper, check_paper
from leanmark.sheets.typeset import typeset

TEMPLATE: Final = "cycle/coach_sheet.typ"
_FONT_PX: Final[dict[SheetPaper, float]] = {"a4": 7.6, "letter": 7.6, "phone": 9.5}
Row = tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """heads: of the columns; rows: a text for each column; wide: shares of the width, 0 as narrow as may be.
    On a phone each row is a list of its heads and texts."""

    heads: Row
    rows: tuple[Row, ...]
    wide: tuple[float, ...]


@dataclass(frozen=True)
class Block:
    """One thing on the sheet; empty fields are left out. caution: a hatched bar with words; picture: SVG with
    ``said`` for those who cannot see it; a picture with a table stands beside it on paper."""

    head: str = ""
    words: str = ""
    cautions: tuple[str, ...] = ()
    picture: str = ""
    said: str = ""
    table: Table | None = None
    new_page: bool = False


@dataclass(frozen=True)
class CoachSheet:
    """A sheet that begins on its own page."""

    title: str
    about: str
    blocks: tuple[Block, ...] = field(default=())


def look_for(paper: SheetPaper, width_pt: float | None = None) -> Look:
    """How charts look on a paper, as wide as the text or as given."""
    width = TEXT_WIDTH_PT[paper] if width_pt is None else min(width_pt, TEXT_WIDTH_PT[paper])
    return Look(width, _FONT_PX[paper], "print")


def coach_pdf(sheets: Sequence[CoachSheet], paper: SheetPaper, title: str, foot: str) -> bytes:
    """The sheets as one PDF. foot: one line under each page.

    Raises FieldError where there is no sheet, and for an unknown paper.
    """
    check_paper(paper)
    if not sheets:
        raise FieldError("sheets", "none", "at least one", "give a cycle with a trainee")
    data = {
        "title": title,
        "foot": foot,
        "paper": paper,
        "phone_width_pt": PHONE_PT,
        "sheets": [asdict(sheet) for sheet in sheets],
    }
    return typeset(TEMPLATE, "sheets", data)
