"""``leanmark moves``: what the library holds."""

from __future__ import annotations

from typing import Annotated

import typer

from leanmark.cli.options import Json
from leanmark.cli.printed import print_json, table


def moves(
    move: Annotated[str | None, typer.Argument(help="One move, to list its rungs; all if left out.")] = None,
    as_json: Json = False,
) -> None:
    """List the moves of the library, or the rungs of one."""
    from leanmark.moves.library import load_move, move_names

    if move is None:
        found = [load_move(name) for name in move_names()]
        if as_json:
            rows = [
                {"move": m.move, "family": m.family, "kit": m.kit, "rungs": [r.rung for r in m.rungs]}
                for m in found
            ]
            print_json(rows)
            return
        typer.echo(
            table(
                ("move", "family", "kit", "rungs"),
                [(m.move, m.family, m.kit, str(len(m.rungs))) for m in found],
            )
        )
        return
    one = load_move(move)
    if as_json:
        print_json(one)
        return
    typer.echo(f"{one.move}: {one.purpose}\nset-up: {one.setup}\ncaution: {one.caution}\n")
    typer.echo(
        table(("rung", "name", "note"), [(str(k), r.rung, r.note) for k, r in enumerate(one.rungs, 1)])
    )
