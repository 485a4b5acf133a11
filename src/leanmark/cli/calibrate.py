"""``leanmark calibrate``: narrow one person's unknowns from scale readings."""

from __future__ import annotations

from typing import Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.quantities import read_quantity
from leanmark.units import show_force, show_length


def calibrate(
    move: o.MoveName,
    reading: Annotated[
        list[str], typer.Option("--reading", help="Mark and scale, '-60 cm = 32 kgf'; once per reading.")
    ],
    rung: o.RungName = None,
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
    scale_error: Annotated[
        str, typer.Option("--scale-error", help="How far the scale may be off.")
    ] = "0.5 kgf",
    units: o.Units = "metric",
    as_json: o.Json = False,
) -> None:
    """Hang a scale between anchor and strap, hold the start of the move still, read it at several marks."""
    import msgspec
    import numpy as np

    from leanmark.cli.asked import Asked
    from leanmark.cli.printed import table
    from leanmark.errors import FieldError
    from leanmark.mechanics.calibrate import PRIOR
    from leanmark.moves.calibration import Reading, calibrate_from, predicted

    system = o.unit_system(units)
    readings = []
    for text in reading:
        mark_text, equals, force_text = text.partition("=")
        if not equals:
            raise FieldError("--reading", text, "a mark, '=', a force", "write for example '-60 cm = 32 kgf'")
        mark_m = read_quantity("--reading", mark_text, "--mark")
        readings.append(Reading(mark_m, read_quantity("--reading", force_text)))
    standing = Asked(
        move, rung, squad, trainee, stature, mass, sex, anchor, setting, strap, floor, straps
    ).standing()
    found = calibrate_from(standing, readings, read_quantity("--scale-error", scale_error))
    marks = np.array([r.mark_m for r in readings])
    before, after = predicted(standing, marks, np.stack([PRIOR.mean, found.mean]))
    data = {
        "com_share": {"value": float(found.mean[0]), "deviation": float(found.deviation[0])},
        "pressure": {"value": float(found.mean[1]), "deviation": float(found.deviation[1])},
        "readings": [
            {"mark_m": r.mark_m, "read_n": r.tension_n, "before_n": float(b), "after_n": float(a)}
            for r, b, a in zip(readings, before, after, strict=True)
        ],
    }
    if as_json:
        typer.echo(msgspec.json.encode(data).decode())
        return
    rows = [
        (show_length(r.mark_m, system), *(show_force(force, system, 1) for force in (r.tension_n, b, a)))
        for r, b, a in zip(readings, before.tolist(), after.tolist(), strict=True)
    ]
    typer.echo(table(("mark", "scale", "model before", "model after"), rows))
    com, pressure = found.mean
    com_sd, pressure_sd = found.deviation
    typer.echo(
        f"\nmass centre {100 * com:+.1f} ± {100 * com_sd:.1f} % of stature against the table "
        f"(before: ± {100 * PRIOR.deviation[0]:.1f})\n"
        f"pressure {pressure:+.2f} ± {pressure_sd:.2f} from its least-effort place "
        f"(-1 and +1 are the ends of the patch; before: ± {PRIOR.deviation[1]:.2f})"
    )
