"""A coach's own moves on the command line: the folder that holds them, and those that cannot be read."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

from leanmark.errors import one_line
from leanmark.moves.own import OWN_MOVES, own_folder, unreadable

OwnMoves = Annotated[
    Path | None,
    typer.Option(
        "--own-moves",
        help=f"Folder with move files of your own, laid over the library; {OWN_MOVES} if left out.",
    ),
]


def use_own_moves(context: typer.Context, folder: Path | None) -> None:
    """Lay a folder over the library until the command ends, for it and for the processes that it starts.

    Raises FieldError for a folder that is not there.
    """
    if folder is not None:
        before = os.environ.get(OWN_MOVES)
        context.call_on_close(lambda: _put(before))
        _put(str(folder))
    if os.environ.get(OWN_MOVES):
        own_folder()


def _put(folder: str | None) -> None:
    if folder is None:
        os.environ.pop(OWN_MOVES, None)
    else:
        os.environ[OWN_MOVES] = folder


def tell_unreadable() -> None:
    """Say on the standard error which own files are left out because they cannot be read."""
    for name, path in unreadable().items():
        shown = one_line(str(path), longest=200)
        said = f"leanmark: your own move '{one_line(name)}' is left out: run leanmark moves check {shown}"
        typer.echo(said, err=True)
