"""What a sheet of a cycle is set on."""

from __future__ import annotations

from typing import Final, Literal, get_args

from leanmark.errors import FieldError

SheetPaper = Literal["a4", "letter", "phone"]
SHEET_PAPERS: Final[tuple[SheetPaper, ...]] = get_args(SheetPaper)
TEXT_WIDTH_PT: Final[dict[SheetPaper, float]] = {"a4": 533.0, "letter": 550.0, "phone": 235.0}
"""Width between the margins of the templates."""
PHONE_PT: Final = 265.0
"""Width of a phone page, as high as its content: own figure, a phone's screen at a reading size."""


def check_paper(paper: str) -> None:
    """Raises FieldError for a paper that there is not."""
    if paper not in SHEET_PAPERS:
        raise FieldError("paper", paper, ", ".join(SHEET_PAPERS), "name one of them")
