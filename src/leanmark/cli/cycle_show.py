"""``leanmark cycle show``: the overview of a cycle, a trainee's sessions, or sessions line by line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.options import Json, Units, unit_system
from leanmark.cli.printed import print_json
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle, Plan


def show(
    cycle_file: n.CycleFile,
    trainee: n.AnyTrainee = None,
    week: Annotated[int | None, typer.Option("--week", help="Only this week, line by line.")] = None,
    session: Annotated[
        int | None, typer.Option("--session", help="Only this session by its number, line by line.")
    ] = None,
    units: Units = None,
    as_json: Json = False,
) -> None:
    """Print a cycle: the overview, a trainee's sessions, or the sessions of a week line by line."""
    from leanmark.cli.cycle_overview import notes_words, overview_words, wrapped
    from leanmark.cli.cycle_shown import at_a_glance, line_by_line

    cycle, squad = n.read_both(cycle_file)
    system = unit_system(units) if units else squad.units
    plans = chosen(cycle, n.find_name(trainee, n.trainees_of(cycle)) if trainee else None, week, session)
    if as_json:
        print_json(plans)
    elif week is not None or session is not None:
        typer.echo(line_by_line(cycle, plans, system))
    elif trainee:
        typer.echo(f"{at_a_glance(cycle, plans[0])}\n\n{notes_words(plans)}")
        typer.echo(f"\n{wrapped('line by line: add --week or --session')}")
    else:
        typer.echo(f"{overview_words(cycle)}\n\n{notes_words(plans)}")
        more = "one trainee: add --trainee; line by line: add --week or --session"
        typer.echo(f"\n{wrapped(more)}")


def chosen(cycle: Cycle, trainee: str | None, week: int | None, session: int | None) -> list[Plan]:
    """The plans with the sessions asked for. Raises FieldError where there is none of these."""
    import msgspec

    own = [plan for plan in cycle.plans if trainee in (None, plan.trainee)]
    if week is None and session is None:
        return own
    kept = [
        msgspec.structs.replace(
            plan,
            sessions=tuple(
                one
                for one in plan.sessions
                if week in (None, one.week) and session in (None, one.number)
            ),
        )
        for plan in own
    ]  # fmt: skip
    if not any(plan.sessions for plan in kept):
        raise _none(own, week, session)
    return [plan for plan in kept if plan.sessions]


def _none(plans: list[Plan], week: int | None, session: int | None) -> FieldError:
    if session is not None:
        numbers = [one.number for plan in plans for one in plan.sessions if week in (None, one.week)]
        option, given, noun = "--session", session, "sessions"
    else:
        numbers = [one.week for plan in plans for one in plan.sessions]
        option, given, noun = "--week", week or 0, "weeks"
    allowed = f"{noun} {min(numbers)} to {max(numbers)}" if numbers else f"none: there are no {noun}"
    return FieldError(option, given, allowed, "ask for one that is planned")
