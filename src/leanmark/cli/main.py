"""The ``leanmark`` command."""

from __future__ import annotations

import sys

import typer

from leanmark import __version__
from leanmark.cli import calibrate, cards, chart, load, mark, moves
from leanmark.errors import FieldError
from leanmark.squad.problems import SquadFileError

app = typer.Typer(
    name="leanmark",
    help="The load of suspension-strap positions, and where to stand for a wanted load.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
app.command("moves")(moves.moves)
app.command("load")(load.load)
app.command("mark")(mark.mark)
app.command("chart")(chart.chart)
app.command("calibrate")(calibrate.calibrate)
app.command("cards")(cards.cards)

WRONG_INPUT = 2
"""Exit code for input that cannot be used, the same as the shell's own for wrong usage."""


def _version(value: bool) -> None:
    if value:
        typer.echo(__version__)
        raise typer.Exit


@app.callback()
def _root(
    version: bool = typer.Option(
        False, "--version", callback=_version, is_eager=True, help="Print the version."
    ),
) -> None:
    """The load of suspension-strap positions, and where to stand for a wanted load."""


def main() -> None:
    """Run the command; wrong input is one line and exit code 2, never a traceback."""
    try:
        app()
    except FieldError as error:
        sys.exit(_refused(str(error)))
    except SquadFileError as error:
        sys.exit(_refused(str(error)))
    except OSError as error:
        where = f" ({error.filename})" if error.filename else ""
        sys.exit(_refused(f"{error.strerror or error}{where}: check the path and whether you may use it"))


def _refused(message: str) -> int:
    print(f"leanmark: {message}", file=sys.stderr)
    return WRONG_INPUT


if __name__ == "__main__":
    main()
