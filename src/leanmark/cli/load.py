"""``leanmark load``: what a position puts on a person."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.extras import Added, Pushed, added_masses, pushes
from leanmark.cli.places import check_file
from leanmark.cli.printed import print_json, table, whole_range
from leanmark.cli.quantities import read_people
from leanmark.units import UnitSystem, show_force, show_force_range, show_length

if TYPE_CHECKING:
    from leanmark.moves.report_form import LoadReport, PhaseReport


def load(
    move: o.MoveName,
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
    flight: Annotated[
        str | None,
        typer.Option("--flight", help="Rise of the body in a ballistic rep: '10 cm'; none if left out."),
    ] = None,
    people: Annotated[
        str, typer.Option("--people", help="People pulling on the anchor at once, 1 to 8.")
    ] = "1",
    figure: o.Figure = None,
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Forces, joint moments and margins of one position, with their intervals."""
    from leanmark.cli.asked import Asked
    from leanmark.cli.tempo import tempo_of
    from leanmark.errors import FieldError
    from leanmark.moves.of_rung import cautions_of, stages_of, tempo_s_of
    from leanmark.moves.report import load_report
    from leanmark.moves.translate import mark_of

    if figure:
        check_file("--figure", figure)
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
    flight_m = o.given("--flight", flight)
    if flight_m is not None and "ballistic" not in stages_of(standing.move, standing.rung):
        raise FieldError(
            "--flight",
            flight,
            "a rung with a ballistic stage",
            f"leave it out: {standing.rung.rung} of {standing.move.move} has none",
        )
    pulling = read_people("--people", people)
    pace = tempo_of(tempo or tempo_s_of(standing.move, standing.rung))
    report = load_report(standing, mark_m, pace, flight_m, people_on_beam=pulling)
    if figure:
        from leanmark.cli.drawn import write_position

        write_position(standing, mark_m, figure, system)
    if as_json:
        print_json(report)
        return
    typer.echo(shown(report, system))
    typer.echo("")
    for words in cautions_of(standing.move, standing.rung):
        typer.echo(f"caution: {words}")
    if figure:
        typer.echo(f"figure: {figure}")


def shown(report: LoadReport, system: UnitSystem) -> str:
    """The report as text."""
    on_straps = any(phase.straps for phase in report.phases)
    parts = [
        _where(report, system, on_straps),
        *_reason_lines(report),
        "",
        table(_HEAD, [_phase_row(phase, system) for phase in report.phases]),
        f"load: {report.load_is}" + ("; straps: all together" if on_straps else ""),
        *(_moving_lines(report, system) if on_straps else ()),
        *_joint_lines(report),
    ]
    return "\n".join(parts)


_HEAD = ("held at", "lean", "load", "interval", "straps", "interval", "grip needed", "grip margin")
_NONE = "—"
_WIDTH = 100
"""Columns within which sentences are broken; own figure."""


def _where(report: LoadReport, system: UnitSystem, on_straps: bool) -> str:
    mark, strap, anchor = (
        show_length(length_m, system) for length_m in (report.mark_m, report.strap_m, report.anchor_height_m)
    )
    kit = f", strap {strap}, anchor {anchor}" if on_straps else ""
    return f"{report.move}, {report.rung}: {report.mark_of} at {mark} from the plumb point{kit}"


def _reason_lines(report: LoadReport) -> list[str]:
    """Why it cannot be done, each reason with the phases that it stops."""
    lines = []
    for reason in report.reasons:
        phases = [phase.phase for phase in report.phases if phase.reason == reason]
        lines.append(f"cannot be done ({', '.join(phases) or 'on the way'}): {reason}")
    return lines


def _moving_lines(report: LoadReport, system: UnitSystem) -> list[str]:
    lines = []
    if report.moving:
        moving = report.moving
        tempo = "-".join(f"{part:g}" for part in moving.tempo_s)
        margin = f"slack margin {moving.slack_margin_percent:.0f} % of body weight"
        state = margin if moving.taut else "too fast: the strap goes slack"
        peak = f"peak {show_force(moving.peak_strap_n, system)}, {moving.peak_to_held:.2f} × the held peak"
        rough = (
            "" if moving.smooth else "; rough: a joint meets the end of its range midway, so peaks may be off"
        )
        lines.append(f"at tempo {tempo}: {peak}; {state}{rough}")
    if report.flight:
        flight = report.flight
        strap, floor = (show_force(force, system) for force in (flight.peak_strap_n, flight.peak_floor_n))
        peaks = f"strap peak {strap}, floor peak {floor}"
        state = peaks if flight.possible else "not possible: a strap would have to push, or nothing rises"
        lines.append(f"with a flight of {show_length(flight.flight_m, system)}: {state}")
    if report.grip:
        lines.append(f"grip: {report.grip}")
    if report.anchor:
        lines.append(textwrap.fill(f"anchor: {report.anchor}", _WIDTH, subsequent_indent="  "))
    return lines


def _joint_lines(report: LoadReport) -> list[str]:
    told = [phase for phase in report.phases if phase.joints and _can_be_held(phase)]
    if not told:
        return []
    worst = max(told, key=lambda phase: phase.joints[0].share_percent)
    rows = [
        (
            joint.joint,
            joint.action,
            f"{joint.moment_nm:.0f} N·m",
            whole_range(joint.low_nm, joint.high_nm, "N·m"),
            f"{joint.share_percent:.0f} %",
        )
        for joint in worst.joints
    ]
    head = ("joint", "action", "moment", "interval", "share of reference strength")
    return ["", f"largest joint moments, {worst.phase}:", table(head, rows)]


def _can_be_held(phase: PhaseReport) -> bool:
    """Whether the numbers of a phase are forces that can be: the body takes the position, straps only pull
    and floors only push."""
    from leanmark.mechanics.reasons import REASONS, SLACK, TIPS

    taken = bool(phase.straps or phase.floor)
    return taken and phase.reason not in (REASONS[SLACK], REASONS[TIPS])


def _phase_row(phase: PhaseReport, system: UnitSystem) -> tuple[str, ...]:
    if not _can_be_held(phase):
        return (phase.phase, *[_NONE] * (len(_HEAD) - 1))
    load, total = phase.load_percent, phase.strap_total_n
    return (
        phase.phase,
        f"{phase.lean_deg:.0f}°",
        f"{load.value:.0f} %",
        whole_range(load.low, load.high, "%"),
        show_force(total.value, system) if phase.straps else _NONE,
        show_force_range(total.low, total.high, system) if phase.straps else _NONE,
        f"{phase.friction_needed:.2f}",
        f"{phase.grip_margin:+.2f}".replace("-", "−"),
    )
