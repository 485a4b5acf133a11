"""``leanmark moves animate``: a rep as a moving figure."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.places import check_file


def animate(
    move: o.MoveName,
    out: Annotated[Path | None, typer.Option("--out", help="SVG file; MOVE.svg if left out.")] = None,
    rung: o.RungName = None,
    view: Annotated[
        str | None, typer.Option("--view", help="side, front or back; the mark's view if left out.")
    ] = None,
    theme: Annotated[str, typer.Option("--theme", help="light, dark or print.")] = "light",
    mark: o.Mark = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: o.Stature = None,
    mass: o.Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    setting: o.Setting = None,
    strap: o.Strap = None,
    tempo: o.TempoText = None,
    units: o.Units = None,
) -> None:
    """Write a rep as one moving SVG figure, at its tempo: it can be paused, and stands still for readers
    whose settings ask for less motion. Without a trainee it shows the 50th-percentile woman."""
    from leanmark.cli.asked import Asked
    from leanmark.cli.drawn import write_moving
    from leanmark.cli.someone import or_typical
    from leanmark.cli.tempo import tempo_of
    from leanmark.errors import FieldError
    from leanmark.figures.project import VIEWS
    from leanmark.figures.theme import THEMES
    from leanmark.moves.of_rung import tempo_s_of
    from leanmark.moves.translate import mark_of

    stature, mass, sex = or_typical(squad, stature, mass, sex)
    asked = Asked(move, rung, squad, trainee, stature, mass, sex, anchor, setting, strap, None)
    system, standing = asked.unit_system(units), asked.standing()
    if standing.task.still:
        allowed = "a rung that moves"
        raise FieldError("--rung", standing.rung.rung, allowed, "it is a hold: draw it with load --figure")
    view = o.one_of("--view", view or ("front" if standing.task.mark_across else "side"), VIEWS)
    theme = o.one_of("--theme", theme, THEMES)
    path = out or Path(f"{standing.move.move.replace(' ', '-')}.svg")
    check_file("--out", path)
    mark_m = o.given("--mark", mark, mark_of(standing.move, standing.rung).start_m)
    assert mark_m is not None
    pace = tempo_of(tempo or tempo_s_of(standing.move, standing.rung))
    write_moving(standing, mark_m, pace, path, view, theme, system)
    typer.echo(f"moving figure: {path}")
