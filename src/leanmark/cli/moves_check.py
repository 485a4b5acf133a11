"""``leanmark moves check``: whether move files can be used, and what is wrong with them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from leanmark.cli.late import late_bar
from leanmark.cli.options import Json
from leanmark.cli.printed import print_json

if TYPE_CHECKING:
    from leanmark.moves.check.files import Report

Files = Annotated[
    list[Path] | None,
    typer.Argument(metavar="FILE...", help="Move files; the whole library and your own folder if left out."),
]
_WRONG_INPUT: Final = 2


def check(files: Files = None, as_json: Json = False) -> None:
    """Check move files: writing, fields, names, positions and the order of rungs."""
    from leanmark.moves.check.files import check_files
    from leanmark.moves.check.shared import shared_paths
    from leanmark.moves.files import library_paths
    from leanmark.moves.own import own_paths

    with late_bar("rungs") as progress:
        if files:
            report = check_files(files, _rungs_of, progress)
        else:
            report = check_files([*shared_paths(), *library_paths()], _rungs_of, progress)
            report = report.joined(check_files(own_paths(), _rungs_of, progress))
    if as_json:
        print_json(report.as_data())
    else:
        _print(report)
    if report.problems:
        raise typer.Exit(_WRONG_INPUT)


def _rungs_of(name: str) -> tuple[str, ...] | None:
    """The rungs of a move that can be read; none of one that cannot be; None for one that is not there."""
    from leanmark.errors import FieldError
    from leanmark.moves.files import library_files, plain
    from leanmark.moves.library import load_move
    from leanmark.moves.own import own_files

    if plain(name) not in {**library_files(), **own_files()}:
        return None
    try:
        return tuple(rung.rung for rung in load_move(name).rungs)
    except FieldError:
        return ()


def _print(report: Report) -> None:
    from leanmark.moves.ladder.panel import reference_people, words_of
    from leanmark.moves.names import CHECKED_ANCHOR_M

    if report.problems:
        for problem in report.problems:
            typer.echo(str(problem), err=True)
        wrong = len({problem.file for problem in report.problems})
        found = _counted(len(report.problems), "problem")
        typer.echo(f"{found} in {wrong} of {_counted(report.files, 'file')}", err=True)
        return
    people = [words_of(build) for build in reference_people().builds]
    counts = (_counted(len(report.moves), "move"), _counted(report.rungs, "rung"))
    typer.echo(f"in order: {_counted(report.files, 'file')}, {', '.join(counts)}")
    if report.moves:
        whom = f"{len(people)} people from a {people[0]} to a {people[-1]}"
        typer.echo(f"every rung can be taken and held at its mark by {whom}, anchor at {CHECKED_ANCHOR_M} m")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")
