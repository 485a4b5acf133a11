"""``leanmark floor``: a group session, who is at which anchor when."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.options import Json, Units, unit_system
from leanmark.cli.places import check_file
from leanmark.cli.printed import print_json
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.floor.form import FloorAsk
    from leanmark.cycle.form import Cycle
    from leanmark.squad.squad import Squad

MOST_SHARING: Final = 20
"""Own figure: more people on one anchor is a slip of the pen."""


def floor(
    cycle_file: n.CycleFile,
    date: n.Date = None,
    group: Annotated[
        str | None, typer.Option("--group", help="Only this group of the squad file, or a part of its name.")
    ] = None,
    trainee: n.AnyTrainees = None,
    people_per_anchor: Annotated[
        int | None,
        typer.Option("--people-per-anchor", help="How many share an anchor in turns; 3 if left out."),
    ] = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Write the floor sheet to this file.")] = None,
    paper: n.Paper = "a4",
    units: Units = None,
    as_json: Json = False,
) -> None:
    """Plan a group session: who is where when, strap changes, waits, and who spots whom."""
    from dataclasses import replace

    from leanmark.cli.cycle_wait import late_word
    from leanmark.cli.floor_shown import floor_words
    from leanmark.cycle.floor.plan import plan_floor

    cycle, squad = n.read_both(cycle_file)
    squad = replace(squad, units=unit_system(units)) if units else squad
    day = n.session_date(cycle, date)
    ask = _ask(cycle, squad, day, who_comes(cycle, squad, day, group, trainee or ()), people_per_anchor)
    sheet_paper = n.check_sheet_paper(paper)
    if pdf:
        check_file("--pdf", pdf)
    with late_word("planning the floor"):
        plan = plan_floor(ask)
    if pdf:
        from leanmark.cycle.files.whole import write_whole
        from leanmark.sheets.cycle.floor_sheet import floor_sheet

        write_whole(pdf, floor_sheet(plan, cycle, squad, sheet_paper))
    if as_json:
        print_json(plan)
        return
    typer.echo(floor_words(plan, cycle, squad, day))
    typer.echo(f"\nfloor sheet: {pdf}" if pdf else "\non paper: add --pdf FILE")


def who_comes(
    cycle: Cycle, squad: Squad, day: dt.date, group: str | None, given: tuple[str, ...] | list[str]
) -> list[str]:
    """Who trains on a day, of a group or of those named. Raises FieldError where that is nobody."""
    training = [plan.trainee for plan in cycle.plans if any(s.starts.date() == day for s in plan.sessions)]
    if given:
        names = n.find_names(given, n.trainees_of(cycle))
        away = [name for name in names if name not in training]
        if away:
            allowed = f"who trains on {day}: {', '.join(training)}"
            raise FieldError(
                "--trainee", ", ".join(away), allowed, "leave the name out, or choose another day"
            )
        training = names
    if group is None:
        return training
    groups = {one.name: one.wishes.group for one in squad.trainees}
    known = [*dict.fromkeys(filter(None, groups.values()))]
    wanted = n.find_name(group, known, "--group")
    own = [name for name in training if groups.get(name) == wanted]
    if not own:
        there = ", ".join(dict.fromkeys(groups[name] for name in training if groups[name]))
        allowed = f"a group that trains on {day}: {there or 'none'}"
        raise FieldError("--group", wanted, allowed, "choose another day or group")
    return own


def _ask(
    cycle: Cycle, squad: Squad, day: dt.date, names: list[str], people_per_anchor: int | None
) -> FloorAsk:
    from leanmark.cycle.floor.sessions import SHARING, from_sessions

    shared = SHARING if people_per_anchor is None else people_per_anchor
    if not 1 <= shared <= MOST_SHARING:
        raise FieldError("--people-per-anchor", shared, f"1 to {MOST_SHARING}", "give a number within these")
    return from_sessions(
        cycle,
        day,
        names,
        anchors=[f"anchor {number}" for number in range(1, squad.rig.anchor_count + 1)],
        minutes=minutes_on_straps(squad, names),
        people_per_anchor=shared,
    )


def minutes_on_straps(squad: Squad, names: list[str]) -> float:
    """The longest session that one of these is given, less a middling warm-up and cool-down, and at least a
    minute [min]."""
    from leanmark.dose.rules import middle

    given = [one.wishes.minutes or 0.0 for one in squad.trainees if one.name in names]
    return max(max(given, default=0.0) - middle("warm-up") - middle("cool-down"), 1.0)
