"""Typesets trainees' cards as PDF: one file for each trainee and one for the whole squad."""

from __future__ import annotations

import os
import tempfile
import unicodedata
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Final, Literal, get_args

from pypdf import PdfWriter

from leanmark.each import Each
from leanmark.sheets.card import Card
from leanmark.sheets.typeset import typeset

Paper = Literal["a4", "letter"]
PAPERS: Final[tuple[Paper, ...]] = get_args(Paper)
PAPER_NAMES: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}
FIGURE_WIDTH_PT: Final = 104.0
FIGURE_HEIGHT_PT: Final = 80.0
"""Draw a card's figures at this size, in pixels, with ``FIGURE_FONT_PX`` letters: a pixel becomes a point."""
FIGURE_FONT_PX: Final = 7.0
TEMPLATE: Final = "stand_card.typ"
SQUAD_FILE: Final = "squad-cards.pdf"
NAME_LETTERS: Final = 40

SAFETY: Final[tuple[tuple[str, str], ...]] = (
    (
        "Anchor:",
        "hang straps only where the maker's rating covers the load, as the maker and local codes ask. "
        "Look over anchor, straps and handles each time.",
    ),
    (
        "Feet in cradles:",
        "start and end seated or lying on the floor, hands free to catch you; "
        "have someone near the first times.",
    ),
    (
        "Pain, dizziness or numbness:",
        "stop and tell the coach; if it stays or comes back, see a licensed practitioner. "
        "This card diagnoses nothing.",
    ),
    (
        "Ballistic reps",
        "only when the same rung is clean at controlled and at fast speed.",
    ),
    (
        "Loads",
        "are shares of body weight on the straps; of strength: the largest joint moment over a reference "
        "strength, not this person's own.",
    ),
    (
        "Marks",
        "are computed for this person, these straps and this floor. "
        "On a wet or dusty floor, or in other shoes, test your grip at the easiest mark first.",
    ),
)
"""Common practice, no published source, except where it defers to the maker, codes and licensed practice."""


@dataclass(frozen=True)
class WrittenCards:
    """Where the cards went: one file for each trainee, in order, and one with all."""

    each: tuple[Path, ...]
    squad: Path


def render_cards(cards: Sequence[Card], paper: Paper = "a4") -> bytes:
    """One PDF with every trainee's card, each beginning on its own page.

    Raises:
        ValueError: there is no card, or the paper is unknown.
    """
    if not cards:
        raise ValueError("there is no card to typeset; give at least one trainee")
    if paper not in PAPERS:
        raise ValueError(f"paper is {paper!r}; it must be one of {', '.join(PAPERS)}")
    names = [card.trainee for card in cards]
    data = {
        "title": f"Card: {names[0]}" if len(names) == 1 else f"Cards for {len(names)} trainees",
        "paper": PAPER_NAMES[paper],
        "figure_width_pt": FIGURE_WIDTH_PT,
        "figure_height_pt": FIGURE_HEIGHT_PT,
        "safety": [{"head": head, "words": words} for head, words in SAFETY],
        "cards": [asdict(card) for card in cards],
    }
    return typeset(TEMPLATE, "cards", data)


def render_card(card: Card, paper: Paper = "a4") -> bytes:
    """One trainee's card as a PDF."""
    return render_cards([card], paper)


def joined(pdfs: Sequence[bytes], trainees: int) -> bytes:
    """Several PDFs one after another as one.

    Raises:
        ValueError: there is none.
    """
    if not pdfs:
        raise ValueError("there is no card to typeset; give at least one trainee")
    writer = PdfWriter()
    for pdf in pdfs:
        writer.append(BytesIO(pdf))
    writer.compress_identical_objects()
    writer.metadata = {"/Title": f"Cards for {trainees} trainees"}
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def write_cards(cards: Sequence[Card], out_dir: Path, paper: Paper = "a4", each: Each = map) -> WrittenCards:
    """Write one PDF for each trainee and one for the squad into ``out_dir``, which is made if need be.

    ``each`` maps over the trainees, here or on other processors.

    Everything is typeset before anything is written, and each file appears whole under its name or not
    at all.

    Raises:
        ValueError: there is no card, or the paper is unknown.
        OSError: ``out_dir`` cannot be made or written to.
    """
    _check_writable(out_dir)
    names = [card_file_name(place, card) for place, card in enumerate(cards, start=1)]
    pdfs = list(each(partial(render_card, paper=paper), cards))
    files = [*zip(names, pdfs, strict=True), (SQUAD_FILE, joined(pdfs, len(cards)))]
    written = tuple(_write_whole(out_dir / name, pdf) for name, pdf in files)
    return WrittenCards(written[:-1], written[-1])


def card_file_name(place: int, card: Card) -> str:
    """The name of a card's file."""
    return trainee_file_name(place, card.trainee, ".pdf")


def trainee_file_name(place: int, trainee: str, ending: str) -> str:
    """``03-anna-berg.pdf``: the trainee's place in the squad and the letters and digits of the name."""
    folded = unicodedata.normalize("NFC", trainee).casefold()
    words = "".join(c if c.isalnum() else " " for c in folded[:NAME_LETTERS]).split()
    return "-".join([f"{place:02d}", *words]) + ending


def _check_writable(out_dir: Path) -> None:
    try:
        out_dir.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=out_dir):
            pass
    except OSError as error:
        raise OSError(
            f"out_dir {str(out_dir)!r} cannot be written to ({error.strerror}); "
            "name a folder you may write in"
        ) from error


def _write_whole(path: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".card-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        part.chmod(0o644)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return path
