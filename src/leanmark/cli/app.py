"""The commands under one name."""

from __future__ import annotations

import typer

from leanmark import __version__
from leanmark.cli import calibrate, cards, chart, cycle, floor, load, mark, moves
from leanmark.cli.own_moves import OwnMoves, use_own_moves

app = typer.Typer(
    name="leanmark",
    help="The load of suspension-strap positions, where to stand for a wanted load, and weeks planned on it.",
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
app.add_typer(moves.group, name="moves")
app.command("load")(load.load)
app.command("mark")(mark.mark)
app.command("chart")(chart.chart)
app.command("calibrate")(calibrate.calibrate)
app.command("cards")(cards.cards)
app.add_typer(cycle.group, name="cycle")
app.command("floor")(floor.floor)


def _version(value: bool) -> None:
    if value:
        typer.echo(__version__)
        raise typer.Exit


@app.callback()
def _root(
    context: typer.Context,
    own_moves: OwnMoves = None,
    version: bool = typer.Option(
        False, "--version", callback=_version, is_eager=True, help="Print the version."
    ),
) -> None:
    """The load of suspension-strap positions, where to stand for a wanted load, and weeks planned on it."""
    use_own_moves(context, own_moves)
