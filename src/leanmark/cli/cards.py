"""``leanmark cards``: a squad file in, printed stand cards out."""

from __future__ import annotations

import io
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final, TextIO

import typer

from leanmark.cli import options as o
from leanmark.cli.own_moves import tell_unreadable
from leanmark.cli.places import check_folder
from leanmark.cli.printed import print_json

if TYPE_CHECKING:
    from leanmark.sheets.answers import CardAnswer
    from leanmark.sheets.card import Card
    from leanmark.sheets.cards import WrittenCards

LONGEST_DATE: Final = 40
"""Characters of a date on a card; own figure."""


def cards(
    squad_file: Annotated[Path, typer.Argument(help="The squad file (TOML).")],
    out: Annotated[Path, typer.Option("--out", help="Folder for the PDFs and figures.")] = Path("cards"),
    paper: Annotated[str, typer.Option("--paper", help="a4 or letter.")] = "a4",
    date: Annotated[
        str | None, typer.Option("--date", help="Date on the cards; today's if left out.")
    ] = None,
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Stand cards for everyone in a squad file: one PDF each, one for all, and the figures as SVG."""
    from dataclasses import replace

    from leanmark.cli.asked import read_checked
    from leanmark.cli.overview import overview
    from leanmark.each import processors
    from leanmark.errors import FieldError
    from leanmark.sheets.cards import PAPERS, write_cards
    from leanmark.sheets.stand_cards import jobs, left_out, stand_cards

    if paper not in PAPERS:
        raise FieldError("--paper", paper, " or ".join(PAPERS), "choose one of them")
    day = day_on_cards(date)
    system = o.unit_system(units) if units else None
    squad = read_checked(squad_file)
    if not squad.moves:
        tell_unreadable()
    squad = replace(squad, units=system or squad.units)
    check_folder("--out", out)
    count = len(jobs(squad))
    with processors(len(squad.trainees) * count) as each:
        with typer.progressbar(length=count, label="moves", file=progress_stream()) as bar:
            made = stand_cards(squad, day, lambda: bar.update(1), each)
        written = write_cards(made.cards, out, paper, each)
    figures = _write_figures(made.cards, out / "figures")
    names = [trainee.name for trainee in squad.trainees]
    if as_json:
        print_json(as_data(names, made.answers, written, figures) | {"left_out": left_out(squad)})
        return
    typer.echo(f"floor marks of the middle wanted load, {squad.rig.name}\n")
    typer.echo(overview(names, made.answers, squad.units))
    for missing, setting in left_out(squad).items():
        typer.echo(f"{missing}: left out, the rig has no setting '{setting}': add it to [rig.settings_m]")
    typer.echo(f"\nall cards: {written.squad}\none PDF each: {out}\nfigures: {out / 'figures'}")


def day_on_cards(date: str | None) -> str:
    """The date on the cards. Raises FieldError for text that would not fit there."""
    from datetime import datetime

    from leanmark.errors import FieldError

    if date is None:
        return datetime.now().astimezone().date().isoformat()
    if not (0 < len(date) <= LONGEST_DATE and date.isprintable()):
        allowed = f"1 to {LONGEST_DATE} printable characters"
        raise FieldError("--date", date, allowed, "write for example 2026-01-31")
    return date


def progress_stream() -> TextIO:
    """Where the progress bar goes: the terminal, or nowhere when nobody looks."""
    return sys.stderr if sys.stderr.isatty() else io.StringIO()


def _write_figures(cards: Sequence[Card], folder: Path) -> list[Path]:
    """Every card's figures as SVG: the trainee's number, the move."""
    from leanmark.cli.drawn import write_whole

    folder.mkdir(exist_ok=True)
    written = []
    for number, card in enumerate(cards, start=1):
        for move in card.moves:
            if move.figure_svg:
                name = f"{number:02d}-{move.title.split(',')[0].replace(' ', '-')}.svg"
                write_whole(folder / name, move.figure_svg)
                written.append(folder / name)
    return written


def as_data(
    names: Sequence[str],
    answers: Sequence[Sequence[Sequence[CardAnswer]]],
    written: WrittenCards,
    figures: Sequence[Path],
) -> dict[str, object]:
    """What was answered and where it was written, as plain data; lengths in metres, loads in per cent."""
    return {
        "answers": [
            {
                "trainee": name,
                "move": a.move,
                "rung": a.rung,
                "load_of": a.load_of,
                "wanted_percent": 100.0 * a.wanted,
                "mark_m": a.mark_m,
                "load_percent": 100.0 * a.load,
                "low_percent": 100.0 * a.low,
                "high_percent": 100.0 * a.high,
                "reason": a.reason,
            }
            for by_trainee in answers
            for name, own in zip(names, by_trainee, strict=True)
            for a in own
        ],
        "squad_pdf": str(written.squad),
        "pdfs": [str(path) for path in written.each],
        "figures": [str(path) for path in figures],
    }
