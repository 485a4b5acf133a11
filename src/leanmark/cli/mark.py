"""``leanmark mark``: where to stand for a wanted load."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.extras import Added, Pushed, added_masses, pushes
from leanmark.cli.printed import print_json, table
from leanmark.cli.quantities import read_percent
from leanmark.units import UnitSystem, show_length

if TYPE_CHECKING:
    from leanmark.mechanics.inverse import Interval
    from leanmark.moves.stand import MarkAnswer


def mark(
    move: o.MoveName,
    load: Annotated[list[str], typer.Option("--load", help="Wanted load in %; may be given several times.")],
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
    add: Added = None,
    push: Pushed = None,
    units: o.Units = "metric",
    as_json: o.Json = False,
) -> None:
    """Floor marks for wanted loads, and the intervals of marks that can be held, with what ends them."""
    import numpy as np

    from leanmark.cli.asked import Asked
    from leanmark.errors import FieldError
    from leanmark.moves.stand import marks

    system = o.unit_system(units)
    wanted = [read_percent("--load", text) for text in load]
    standing = Asked(
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
    ).standing()
    found = marks(standing, np.array(wanted) / 100.0)[0]
    if as_json:
        print_json([as_data(answer) for answer in found])
    if not any(answer.answers for answer in found):
        raise FieldError("--load", wanted, within_reach(found[0]), "ask for another, or change strap or rung")
    if not as_json:
        typer.echo(shown(found, system))
        typer.echo(f"\ncaution: {standing.move.caution}")


def as_data(answer: MarkAnswer) -> dict[str, object]:
    """One wanted load's answer as plain data; lengths in metres, loads in per cent."""
    from leanmark.mechanics.reasons import REASONS

    return {
        "wanted_percent": 100.0 * answer.wanted,
        "marks": [{"mark_m": a.mark_m, "load_percent": 100.0 * a.load} for a in answer.answers],
        "feasible": [
            {
                "low_m": i.low_m,
                "high_m": i.high_m,
                "low_reason": REASONS[i.low_reason],
                "high_reason": REASONS[i.high_reason],
                "least_percent": 100.0 * i.least_load,
                "greatest_percent": 100.0 * i.greatest_load,
            }
            for i in answer.feasible
        ],
        "reason": "" if answer.answers else why_not(answer),
    }


def why_not(answer: MarkAnswer) -> str:
    """Why a wanted load cannot be had."""
    return f"out of reach: {within_reach(answer)}" if answer.feasible else within_reach(answer)


def within_reach(answer: MarkAnswer) -> str:
    """The loads that can be had, or why there are none."""
    from leanmark.mechanics.reasons import REASONS

    if not answer.feasible:
        return f"no mark in the move's range can be held: {REASONS[answer.scan_reason]}"
    least = 100.0 * min(i.least_load for i in answer.feasible)
    most = 100.0 * max(i.greatest_load for i in answer.feasible)
    return f"marks that can be held give {least:.0f} to {most:.0f} %"


def shown(found: list[MarkAnswer], system: UnitSystem) -> str:
    """The answers as text."""
    rows = []
    for answer in found:
        wanted = f"{100.0 * answer.wanted:.0f} %"
        if not answer.answers:
            rows.append((wanted, "none", why_not(answer)))
        rows += [(wanted, show_length(a.mark_m, system), f"{100.0 * a.load:.1f} %") for a in answer.answers]
    held = [_interval_row(interval, system) for interval in found[0].feasible]
    text = table(("wanted", "floor mark", "load there"), rows)
    if held:
        text += "\n\nmarks that can be held:\n" + table(
            ("from", "to", "load", "nearer end", "farther end"), held
        )
    return text


def _interval_row(interval: Interval, system: UnitSystem) -> tuple[str, ...]:
    from leanmark.mechanics.reasons import REASONS

    ends = [
        REASONS[code] or "end of the move's range" for code in (interval.low_reason, interval.high_reason)
    ]
    loads = f"{100 * interval.least_load:.0f} to {100 * interval.greatest_load:.0f} %"
    return show_length(interval.low_m, system), show_length(interval.high_m, system), loads, *ends
