"""``leanmark cards``: a squad file in, printed stand cards out."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.printed import table


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
    import sys
    from dataclasses import replace
    from datetime import datetime

    import msgspec

    from leanmark.cli.asked import read_checked
    from leanmark.cli.drawn import write_whole
    from leanmark.errors import FieldError
    from leanmark.sheets.cards import PAPERS, write_cards
    from leanmark.sheets.each import processors
    from leanmark.sheets.stand_cards import card_moves, stand_cards
    from leanmark.units import show_length

    if paper not in PAPERS:
        raise FieldError("--paper", paper, " or ".join(PAPERS), "choose one of them")
    squad = read_checked(squad_file)
    if units:
        squad = replace(squad, units=o.unit_system(units))
    day = date or datetime.now().astimezone().date().isoformat()
    jobs = len(squad.trainees) * len(card_moves(squad))
    with processors(jobs) as each:
        with typer.progressbar(length=len(card_moves(squad)), label="moves", file=sys.stderr) as bar:
            made = stand_cards(squad, day, lambda: bar.update(1), each)
        written = write_cards(made.cards, out, paper, each)
    figures = out / "figures"
    figures.mkdir(exist_ok=True)
    for number, card in enumerate(made.cards, start=1):
        for move in card.moves:
            if move.figure_svg:
                name = f"{number:02d}-{move.title.split(',')[0].replace(' ', '-')}.svg"
                write_whole(figures / name, move.figure_svg)
    rows = [
        (squad.trainees[person].name, move, "—" if mark is None else show_length(mark, squad.units), why)
        for person, move, mark, why in made.summary
    ]
    if as_json:
        data = [
            {"trainee": squad.trainees[person].name, "move": move, "mark_m": mark, "reason": why}
            for person, move, mark, why in made.summary
        ]
        typer.echo(msgspec.json.encode({"summary": data, "squad_pdf": str(written.squad)}).decode())
        return
    typer.echo(table(("trainee", "move", "mark for the middle load", "note"), rows))
    typer.echo(f"\nall cards: {written.squad}\none PDF each: {out}\nfigures: {figures}")
