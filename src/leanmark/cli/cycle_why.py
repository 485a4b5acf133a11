"""``leanmark cycle why``: the rules and weights that put a move into a session, or left it out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.options import Json
from leanmark.cli.printed import print_json

if TYPE_CHECKING:
    from leanmark.cycle.form import Line, Plan
    from leanmark.cycle.why import Why


def why(
    cycle_file: n.CycleFile,
    trainee: n.OneTrainee,
    move: Annotated[str, typer.Option("--move", help="Which move, whether it is planned or not.")],
    session: Annotated[
        int, typer.Option("--session", help="Which session by its number; left out, the first with the move.")
    ] = 0,
    as_json: Json = False,
) -> None:
    """Tell why a move is in a session, or is not: rules, weights, and what the plan would cost otherwise."""
    from dataclasses import asdict

    from leanmark.cli.cycle_show import chosen
    from leanmark.cli.cycle_wait import late_word
    from leanmark.cycle.why import why_move

    cycle, _ = n.read_both(cycle_file)
    name = n.find_name(trainee, n.trainees_of(cycle))
    wanted = n.find_move("--move", move, cycle)
    plan = chosen(cycle, name, None, session or None)[0]
    with late_word("looking for a plan otherwise"):
        found = why_move(cycle, name, wanted, session)
    number, line = _where(plan, wanted, session)
    if as_json:
        head = {"trainee": name, "move": wanted, "session": number, "planned": line is not None}
        print_json(head | asdict(found))
        return
    typer.echo("\n".join(_words(found, name, wanted, number, line)))


def _where(plan: Plan, move: str, session: int) -> tuple[int, Line | None]:
    """The session that is asked about, and its line of the move."""
    asked = [one for one in plan.sessions if session in (0, one.number)]
    for one in asked:
        for line in one.lines:
            if line.move == move:
                return one.number, line
    return min((one.number for one in asked), default=session), None


def _words(found: Why, name: str, move: str, number: int, line: Line | None) -> Iterator[str]:
    from leanmark.cli.cycle_overview import table_or_lines, wrapped
    from leanmark.cycle.files.words import dose_words

    is_in = f"{move} is in, {line.rung}: {dose_words(line)}" if line else f"{move} is not in"
    yield wrapped(f"{name}, session {number}: {is_in}")
    yield ""
    yield from (wrapped(rule, f"{at}. ", "   ") for at, rule in enumerate(found.rules, start=1))
    if found.goals:
        rows = [
            (goal.goal, str(goal.weight), goal.unit, f"{goal.now:.0f}", f"{goal.otherwise:.0f}")
            for goal in found.goals
        ]
        without = "without it" if line else "with it"
        yield ""
        yield table_or_lines(("soft goal", "weight", "of a unit", "costs now", without), rows)
    moved = {"would come": found.comes, "would go": found.goes}
    yield from (wrapped(f"{word}: {', '.join(moves)}", "", "  ") for word, moves in moved.items() if moves)
    if found.words:
        yield wrapped(found.words)
