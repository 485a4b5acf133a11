"""``leanmark moves show``: one move and its rungs."""

from __future__ import annotations

import typer

from leanmark.cli.options import Json, MoveName
from leanmark.cli.printed import print_json, table


def show(move: MoveName, as_json: Json = False) -> None:
    """Show one move: set-up, cautions and rungs."""
    from leanmark.moves.library import load_move

    one = load_move(move)
    if as_json:
        print_json(one)
        return
    typer.echo(f"{one.move}: {one.purpose}\nset-up: {one.setup}\ncaution: {one.caution}\n")
    typer.echo(
        table(("rung", "name", "note"), [(str(k), r.rung, r.note) for k, r in enumerate(one.rungs, 1)])
    )
