"""``leanmark moves pictures``: contact sheets of every rung."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.cards import progress_stream
from leanmark.cli.moves_cards import chosen_moves
from leanmark.cli.places import check_file


def pictures(
    move: Annotated[list[str] | None, typer.Argument(help="Moves by name; all if left out.")] = None,
    out: Annotated[Path, typer.Option("--out", help="The PDF file.")] = Path("move-pictures.pdf"),
    family: Annotated[str | None, typer.Option("--family", help="Only the moves of this family.")] = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: o.Stature = None,
    mass: o.Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    paper: Annotated[str, typer.Option("--paper", help="a4 or letter.")] = "a4",
    units: o.Units = None,
) -> None:
    """Contact sheets as one PDF: start and end of every rung, from the side and from the front. Without a
    trainee they show the 50th-percentile woman."""
    from leanmark.cli.asked import Asked
    from leanmark.each import processors
    from leanmark.sheets.cards import PAPERS
    from leanmark.sheets.contact_sheet import PicturesJob, move_pictures, render_contact_sheet

    sheet = o.one_of("--paper", paper, PAPERS)
    check_file("--out", out)
    chosen = chosen_moves(move or [], family)
    asked = Asked(chosen[0].move, None, squad, trainee, stature, mass, sex, anchor, None, None, None)
    people, rig, _ = asked.people_and_rig()
    system = asked.unit_system(units)
    jobs = [PicturesJob(one.move, rig, people, system) for one in chosen]
    with (
        processors(sum(len(one.rungs) for one in chosen)) as each,
        typer.progressbar(
            each(move_pictures, jobs), length=len(jobs), label="moves", file=progress_stream()
        ) as bar,
    ):
        drawn = list(bar)
    out.write_bytes(render_contact_sheet(drawn, sheet))
    typer.echo(f"{sum(len(one.rungs) for one in drawn)} rungs of {len(drawn)} moves: {out}")
