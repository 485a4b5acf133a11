"""``leanmark moves cards``: a printed card for every move, trainee's side and coach's side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.cards import day_on_cards, progress_stream
from leanmark.cli.places import check_file
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.moves.schema import Move


def cards(
    move: Annotated[list[str] | None, typer.Argument(help="Moves by name; all if left out.")] = None,
    out: Annotated[Path, typer.Option("--out", help="The PDF file.")] = Path("move-cards.pdf"),
    family: Annotated[str | None, typer.Option("--family", help="Only the moves of this family.")] = None,
    rung: o.RungName = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: o.Stature = None,
    mass: o.Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    floor: o.Floor = None,
    paper: Annotated[str, typer.Option("--paper", help="a4 or letter.")] = "a4",
    date: Annotated[
        str | None, typer.Option("--date", help="Date on the cards; today's if left out.")
    ] = None,
    units: o.Units = None,
) -> None:
    """Cards of moves as one PDF, two pages each: the front for the trainee, the back for the coach. Without a
    trainee the numbers are the 50th-percentile woman's and man's."""
    from leanmark.cli.asked import Asked
    from leanmark.each import processors
    from leanmark.moves.library import find_rung
    from leanmark.sheets.cards import PAPERS
    from leanmark.sheets.move_cards import CardJob, render_move_cards, solved_card

    sheet = o.one_of("--paper", paper, PAPERS)
    day = day_on_cards(date)
    check_file("--out", out)
    chosen = chosen_moves(move or [], family)
    shown = find_rung(chosen[0], rung).rung if rung and len(chosen) == 1 else None
    asked = Asked(chosen[0].move, shown, squad, trainee, stature, mass, sex, anchor, None, None, floor)
    people, rig, about = asked.people_and_rig()
    system = asked.unit_system(units)
    jobs = [CardJob(one.move, shown, rig, people, about, system) for one in chosen]
    with (
        processors(sum(len(one.rungs) for one in chosen)) as each,
        typer.progressbar(
            each(solved_card, jobs), length=len(jobs), label="moves", file=progress_stream()
        ) as bar,
    ):
        made = list(bar)
    pdf = render_move_cards(made, sheet, day)
    out.write_bytes(pdf)
    typer.echo(f"cards of {len(made)} moves: {out}")


def chosen_moves(names: list[str], family: str | None) -> list[Move]:
    """The moves asked for, by family. Raises FieldError for a name or family that the library lacks."""
    from leanmark.moves.library import families, load_move, move_names

    order = [*families()]
    found = [*{one.move: one for one in map(load_move, names or move_names())}.values()]
    if family is not None:
        wanted = o.one_of("--family", family, order)
        found = [one for one in found if one.family == wanted]
        if not found:
            raise FieldError("--family", family, "a family of the moves named", "leave one of the two out")
    return sorted(found, key=lambda one: (order.index(one.family), one.move.lower()))
