"""``leanmark mark``: where to stand for a wanted load."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import options as o
from leanmark.cli.extras import Added, Pushed, added_masses, pushes
from leanmark.cli.printed import print_json, table, whole_range
from leanmark.cli.quantities import read_percent
from leanmark.units import UnitSystem, show_length

if TYPE_CHECKING:
    from leanmark.mechanics.inverse import Interval
    from leanmark.moves.stand import Held, MarkAnswer


def mark(
    move: o.MoveName,
    load: Annotated[list[str], typer.Option("--load", help="Wanted load in %.")],
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
    units: o.Units = None,
    as_json: o.Json = False,
) -> None:
    """Floor marks for wanted loads, and the intervals of marks that can be held, with what ends them."""
    import numpy as np

    from leanmark.cli.asked import Asked
    from leanmark.errors import FieldError
    from leanmark.moves.of_rung import cautions_of
    from leanmark.moves.report_form import LOAD_WORDS
    from leanmark.moves.stand import held_loads, marks

    wanted = [read_percent("--load", text) for text in load]
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
    found = marks(standing, np.array(wanted) / 100.0)[0]
    places = np.array([a.mark_m for answer in found for a in answer.answers])
    held = held_loads(standing, places, np.zeros(len(places), dtype=np.intp)) if len(places) else None
    if as_json:
        print_json(as_data(found, held))
    if not any(answer.answers for answer in found):
        raise FieldError("--load", wanted, within_reach(found[0]), "ask for another, or change strap or rung")
    if not as_json:
        typer.echo(shown(found, held, system))
        typer.echo(f"load: {LOAD_WORDS[standing.move.load]}, the largest held over the rep")
        typer.echo("")
        for words in cautions_of(standing.move, standing.rung):
            typer.echo(f"caution: {words}")


def as_data(found: list[MarkAnswer], held: Held | None) -> list[dict[str, object]]:
    """Every wanted load's answer as plain data; lengths in metres, loads in per cent. held: of all answers'
    marks in order."""
    from leanmark.mechanics.reasons import REASONS

    intervals = iter(_intervals(held))
    return [
        {
            "wanted_percent": 100.0 * answer.wanted,
            "marks": [
                {"mark_m": a.mark_m, "load_percent": 100.0 * a.load, "low_percent": low, "high_percent": high}
                for a, (low, high) in zip(answer.answers, intervals, strict=False)
            ],
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
        for answer in found
    ]


def _intervals(held: Held | None) -> list[tuple[float, float]]:
    if held is None:
        return []
    ends = [(100.0 * end).tolist() for end in (held.low, held.high)]
    return list(zip(*ends, strict=True))


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


def shown(found: list[MarkAnswer], held: Held | None, system: UnitSystem) -> str:
    """The answers as text. held: of all answers' marks in order."""
    intervals = iter(_intervals(held))
    rows = []
    for answer in found:
        wanted = f"{100.0 * answer.wanted:g} %"
        if not answer.answers:
            rows.append((wanted, "none", why_not(answer)))
        rows += [
            (wanted, show_length(a.mark_m, system), whole_range(low, high, "%"))
            for a, (low, high) in zip(answer.answers, intervals, strict=False)
        ]
    lines = [table(("wanted", "floor mark", "interval of the load there"), rows), ""]
    for interval in found[0].feasible:
        lines += _interval_lines(interval, system)
    return "\n".join(lines)


def _interval_lines(interval: Interval, system: UnitSystem) -> list[str]:
    from leanmark.mechanics.reasons import REASONS

    low, high = show_length(interval.low_m, system), show_length(interval.high_m, system)
    load = whole_range(100.0 * interval.least_load, 100.0 * interval.greatest_load, "%")
    end = "the end of the move's range"
    return [
        f"can be held from {low} to {high}, with {load}",
        f"  below {low}: {REASONS[interval.low_reason] or end}",
        f"  above {high}: {REASONS[interval.high_reason] or end}",
    ]
