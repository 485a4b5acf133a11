"""``leanmark moves``: what the library holds; each command about it has its file, ``moves_<verb>.py``."""

from __future__ import annotations

import typer

from leanmark.cli import (
    moves_animate,
    moves_cards,
    moves_check,
    moves_ladder,
    moves_list,
    moves_pictures,
    moves_schema,
    moves_show,
)
from leanmark.cli.options import Json
from leanmark.cli.own_moves import tell_unreadable

group = typer.Typer(rich_markup_mode=None)
group.command("show")(moves_show.show)
group.command("ladder")(moves_ladder.ladder)
group.command("cards")(moves_cards.cards)
group.command("pictures")(moves_pictures.pictures)
group.command("animate")(moves_animate.animate)
group.command("check")(moves_check.check)
group.command("schema")(moves_schema.schema)


@group.callback(invoke_without_command=True)
def moves(
    context: typer.Context,
    find: moves_list.Words = None,
    family: moves_list.Family = None,
    kit: moves_list.Kit = None,
    plane: moves_list.Plane = None,
    joint: moves_list.Joint = None,
    muscle: moves_list.Muscle = None,
    gate: moves_list.Gate = None,
    stage: moves_list.Stage = None,
    without: moves_list.Without = None,
    as_json: Json = False,
) -> None:
    """List the moves of the library, all of them or those that fit."""
    if context.invoked_subcommand is not None:
        return
    wanted = moves_list.asked_for(find, family, kit, plane, joint, muscle, gate, stage, without or ())
    moves_list.print_found(wanted, as_json)
    tell_unreadable()
