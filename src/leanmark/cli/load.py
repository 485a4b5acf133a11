"""``leanmark load``: what a position puts on a person."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.table import table
from leanmark.units import UnitSystem, show_force, show_length

if TYPE_CHECKING:
    from leanmark.moves.report import LoadReport, PhaseReport


def load(
    move: o.MoveName,
    rung: o.RungName = None,
    mark: Annotated[
        str | None, typer.Option("--mark", help="Floor mark from the plumb point: '-40 cm'.")
    ] = None,
    squad: o.SquadFile = None,
    trainee: o.TraineeName = None,
    stature: o.Stature = None,
    mass: o.Mass = None,
    sex: o.Sex = None,
    anchor: o.Anchor = None,
    setting: o.Setting = None,
    strap: o.Strap = None,
    floor: o.Floor = None,
    tempo: Annotated[
        str | None, typer.Option("--tempo", help="Seconds down-pause-up-pause: 2-1-1-0.")
    ] = None,
    flight: Annotated[
        str | None, typer.Option("--flight", help="Ballistic: rise of the body, '10 cm'.")
    ] = None,
    figure: o.Figure = None,
    units: o.Units = "metric",
    as_json: o.Json = False,
) -> None:
    """Forces, joint moments and margins of one position, with their intervals."""
    import msgspec

    from leanmark.cli.asked import Asked
    from leanmark.cli.tempo import tempo_of
    from leanmark.moves.report import load_report
    from leanmark.moves.translate import mark_of

    system = o.unit_system(units)
    standing = Asked(move, rung, squad, trainee, stature, mass, sex, anchor, setting, strap, floor).standing()
    mark_m = o.length_m("--mark", mark, mark_of(standing.move, standing.rung).start_m)
    assert mark_m is not None
    report = load_report(
        standing, mark_m, tempo_of(tempo or standing.move.tempo_s), o.length_m("--flight", flight)
    )
    typer.echo(msgspec.json.encode(report).decode() if as_json else shown(report, system))
    if not as_json:
        typer.echo(f"\ncaution: {standing.move.caution}")
    if figure:
        from leanmark.cli.drawn import write_position

        write_position(standing, mark_m, figure, system)
        typer.echo(f"figure: {figure}", err=True)


def shown(report: LoadReport, system: UnitSystem) -> str:
    """The report as text."""
    lines = [
        f"{report.move}, {report.rung}: {report.mark_of} at {show_length(report.mark_m, system)} from the plumb "
        f"point, strap {show_length(report.strap_m, system)}, anchor {show_length(report.anchor_height_m, system)}",
        *(f"cannot be done: {reason}" for reason in report.reasons),
        "",
        table(
            ("held at", "lean", "load", "interval", "straps", "interval", "grip needed", "grip margin"),
            [_phase_row(phase, system) for phase in report.phases],
        ),
        f"load: {report.load_is}; strap force in all straps together",
    ]
    if report.moving:
        moving = report.moving
        tempo = "-".join(f"{part:g}" for part in moving.tempo_s)
        state = (
            f"least strap tension {moving.slack_margin_percent:.0f} % of body weight"
            if moving.taut
            else "too fast: the strap goes slack"
        )
        lines.append(
            f"at tempo {tempo}: peak {show_force(moving.peak_strap_n, system)} ({moving.peak_to_held:.2f} of the held peak); {state}"
        )
    if report.flight:
        flight = report.flight
        state = (
            "" if flight.possible else "; not possible: a strap would have to push, or the body does not rise"
        )
        lines.append(
            f"with a flight of {show_length(flight.flight_m, system)}: strap peak {show_force(flight.peak_strap_n, system)}, floor peak {show_force(flight.peak_floor_n, system)}{state}"
        )
    worst = max(report.phases, key=lambda phase: phase.joints[0].share_percent if phase.joints else 0.0)
    lines += [
        "",
        f"largest joint moments, {worst.phase}:",
        table(
            ("joint", "action", "moment", "share of reference strength"),
            [(j.joint, j.action, f"{j.moment_nm:.0f} N·m", f"{j.share_percent:.0f} %") for j in worst.joints],
        ),
    ]
    return "\n".join(lines)


def _phase_row(phase: PhaseReport, system: UnitSystem) -> tuple[str, ...]:
    load, total = phase.load_percent, phase.strap_total_n
    return (
        phase.phase,
        f"{phase.lean_deg:.0f}°",
        f"{load.value:.0f} %",
        f"{load.low:.0f} to {load.high:.0f} %",
        show_force(total.value, system),
        f"{show_force(total.low, system)} to {show_force(total.high, system)}",
        f"{phase.friction_needed:.2f}",
        f"{phase.grip_margin:+.2f}" + (f"  ({phase.reason})" if phase.reason else ""),
    )
