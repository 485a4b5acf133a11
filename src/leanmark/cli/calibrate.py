"""``leanmark calibrate``: narrow one person's unknowns from scale readings."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.printed import print_json, table
from leanmark.cli.quantities import read_quantity
from leanmark.moves.known import PRIOR_DEVIATION, Known
from leanmark.units import UnitSystem, show_force, show_length

if TYPE_CHECKING:
    from leanmark.moves.calibration import Fit, Reading


def calibrate(
    move: o.MoveName,
    reading: Annotated[
        list[str], typer.Option("--reading", help="Mark and what the scale shows there: '-60 cm = 32 kgf'.")
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
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Hang a scale between anchor and strap, hold the start of the move still, read it at several marks."""
    from leanmark.cli.asked import Asked
    from leanmark.moves.calibration import calibrate_from

    readings = [_reading(text) for text in reading]
    asked = Asked(move, rung, squad, trainee, stature, mass, sex, anchor, setting, strap, floor, straps)
    system = asked.unit_system(units)
    standing = asked.standing(as_calibrated=False)
    fit = calibrate_from(standing, readings, read_quantity("--scale-error", scale_error))
    _refuse_what_does_not_fit(reading, fit, system)
    known = Known.of(standing.move.move, fit.calibration)
    rows = list(zip(readings, fit.before_n.tolist(), fit.after_n.tolist(), strict=True))
    if as_json:
        found = [{"mark_m": r.mark_m, "read_n": r.tension_n, "before_n": b, "after_n": a} for r, b, a in rows]
        print_json({"calibration": asdict(known), "readings": found})
        return
    head = ("mark", "scale", "model before", "model after")
    shown = [
        (show_length(r.mark_m, system), *(show_force(force, system, 1) for force in (r.tension_n, b, a)))
        for r, b, a in rows
    ]
    typer.echo(f"{table(head, shown)}\n\n{told(known)}\n\n{squad_lines(known)}")


def _reading(text: str) -> Reading:
    from leanmark.errors import FieldError
    from leanmark.moves.calibration import Reading

    mark_text, equals, force_text = text.partition("=")
    if not equals:
        raise FieldError("--reading", text, "a mark, '=', a force", "write for example '-60 cm = 32 kgf'")
    mark_m = read_quantity("--reading", mark_text, "--mark")
    return Reading(mark_m, read_quantity("--reading", force_text))


def _refuse_what_does_not_fit(texts: list[str], fit: Fit, system: UnitSystem) -> None:
    from leanmark.errors import FieldError

    if not fit.off.any():
        return
    worst = int(fit.off.argmax())
    nearest = show_force(float(fit.after_n[worst]), system, 1)
    allowed = f"near {nearest}, as close as the model can come"
    remedy = "check mark, strap length, anchor and scale; for a coarse scale state a larger --scale-error"
    raise FieldError("--reading", texts[worst], allowed, remedy)


def told(known: Known) -> str:
    """What the readings told, in words."""
    com = f"{100.0 * known.com_share:+.1f} ± {100.0 * known.com_share_deviation:.1f}"
    pressure = f"{known.pressure:+.2f} ± {known.pressure_deviation:.2f}"
    before = [f"(before: ± {100.0 * PRIOR_DEVIATION[0]:.1f})", f"(before: ± {PRIOR_DEVIATION[1]:.2f})"]
    lines = [
        f"mass centre above the table's: {com} % of stature {before[0]}",
        f"place of the pressure: {pressure} {before[1]}, where −1 gives the least strap force, +1 the most",
    ]
    return "\n".join(lines).replace("-", "−")


def squad_lines(known: Known) -> str:
    """The lines to paste into a squad file."""
    values = [f"{name} = {value}" for name, value in asdict(known).items() if name != "move"]
    note = "# paste below the trainee's own fields in the squad file"
    return "\n".join([note, "[trainee.calibration]", f'move = "{known.move}"', *values])
