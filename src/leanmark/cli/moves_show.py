"""``leanmark moves show``: one move, its ladder, and what is said on each rung."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.printed import print_json

if TYPE_CHECKING:
    from leanmark.cli.asked import Asked
    from leanmark.moves.people import People
    from leanmark.rig.rig import Rig

OneRung = Annotated[
    str | None, typer.Option("--rung", help="One rung by name or number, in full; all in short if left out.")
]
Stature = Annotated[
    str | None,
    typer.Option(
        "--stature", help="Body height: 178 cm; without anybody, a typical woman and man are shown."
    ),
]
Mass = Annotated[str | None, typer.Option("--mass", help="Body mass: 75 kg, 165 lb; goes with --stature.")]


def show(
    move: o.MoveName,
    rung: OneRung = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: Stature = None,
    mass: Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Show one move: set-up, cautions, the ladder with its demand, and what to say on each rung."""
    from leanmark.cli.asked import Asked
    from leanmark.cli.moves_shown import Shown
    from leanmark.moves.ladder.table import finer_table, ladder_table
    from leanmark.moves.library import find_rung, load_move

    asked = Asked(move, None, squad, trainee, stature, mass, sex, anchor, None, None, None)
    system = asked.unit_system(units)
    whole = load_move(move)
    only = find_rung(whole, rung) if rung else None
    people, rig = _who_and_where(asked)
    number = whole.rungs.index(only) if only else None
    lines, finer = ladder_table(whole, people, rig), finer_table(whole, people, rig, number)
    shown = Shown(whole, people, rig.anchor_height_m, lines, finer, system)
    if as_json:
        print_json(shown.data())
        return
    typer.echo(shown.text() if number is None else shown.rung_text(number))


def _who_and_where(asked: Asked) -> tuple[People, Rig]:
    """The person and rig asked for; where nobody is named, the woman and the man of the 50th percentile."""
    from leanmark.cli.asked import ANCHOR_M
    from leanmark.moves.ladder.panel import typical_people
    from leanmark.rig.rig import standard_rig

    if asked.squad or asked.trainee or asked.stature or asked.mass or asked.sex:
        standing = asked.standing()
        return standing.people, standing.rig
    anchor_m = o.given("--anchor", asked.anchor, ANCHOR_M)
    assert anchor_m is not None
    return typical_people(), standard_rig(anchor_m)
