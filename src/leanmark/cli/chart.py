"""``leanmark chart``: load over the floor mark and over the rep."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.extras import Added, Pushed, added_masses, pushes
from leanmark.cli.places import check_folder
from leanmark.cli.printed import print_json


def chart(
    move: o.MoveName,
    out: Annotated[Path, typer.Option("--out", help="Folder for the two SVG files.")] = Path(),
    rung: o.RungName = None,
    mark: o.Mark = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: o.Stature = None,
    mass: o.Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    setting: o.Setting = None,
    strap: o.Strap = None,
    floor: o.Floor = None,
    straps: o.Straps = None,
    add: Added = None,
    push: Pushed = None,
    tempo: o.TempoText = None,
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Draw the load over the floor mark, with intervals and barred marks, and over a rep at its tempo."""
    from leanmark.cli.asked import Asked
    from leanmark.cli.drawn import write_whole
    from leanmark.cli.tempo import tempo_of
    from leanmark.figures.load_charts import mark_chart, rep_chart
    from leanmark.moves.curves import mark_curve, rep_curve
    from leanmark.moves.of_rung import tempo_s_of
    from leanmark.moves.translate import mark_of

    if not as_json:
        check_folder("--out", out)
    asked = Asked(
        move,
        rung,
        squad,
        trainee,
        stature,
        mass,
        sex,
        anchor,
        setting,
        strap,
        floor,
        straps,
        added_masses(add),
        pushes(push),
    )
    system = asked.unit_system(units)
    standing = asked.standing()
    mark_m = o.given("--mark", mark, mark_of(standing.move, standing.rung).start_m)
    assert mark_m is not None
    over_mark = mark_curve(standing)
    over_rep = (
        None
        if standing.task.still
        else rep_curve(standing, mark_m, tempo_of(tempo or tempo_s_of(standing.move, standing.rung)))
    )
    if as_json:
        print_json({"over_mark": over_mark, "over_rep": over_rep})
        return
    out.mkdir(parents=True, exist_ok=True)
    name = standing.move.move.replace(" ", "-")
    write_whole(out / f"{name}-over-mark.svg", mark_chart(over_mark, system))
    typer.echo(f"load over the floor mark: {out / f'{name}-over-mark.svg'}")
    if over_rep:
        write_whole(out / f"{name}-over-rep.svg", rep_chart(over_rep))
        typer.echo(f"load over the rep: {out / f'{name}-over-rep.svg'}")
