"""``leanmark moves``: what the library holds; each command about it has its file, ``moves_<verb>.py``."""

from __future__ import annotations

import typer

from leanmark.cli import moves_animate, moves_cards, moves_pictures, moves_show
from leanmark.cli.options import Json
from leanmark.cli.printed import print_json, table

group = typer.Typer(rich_markup_mode=None)
group.command("show")(moves_show.show)
group.command("cards")(moves_cards.cards)
group.command("pictures")(moves_pictures.pictures)
group.command("animate")(moves_animate.animate)


@group.callback(invoke_without_command=True)
def moves(context: typer.Context, as_json: Json = False) -> None:
    """List the moves of the library."""
    if context.invoked_subcommand is not None:
        return
    from leanmark.moves.library import load_move, move_names

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
