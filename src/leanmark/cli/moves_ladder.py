"""``leanmark moves ladder``: whether ladders hold, with the demand of every rung."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli.options import Json
from leanmark.cli.printed import print_json, table

if TYPE_CHECKING:
    from leanmark.moves.ladder.demand import Solved
    from leanmark.moves.people import People


def ladder(
    moves: Annotated[list[str] | None, typer.Argument(help="Moves to check; all if left out.")] = None,
    cross: Annotated[
        bool, typer.Option("--cross", help="Every stature with every mass: 18 people instead of 6.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Check that ladders climb: demand over people of the 5th, 50th and 95th percentile, steps, findings.

    Exit code 2 when a ladder does not hold.
    """
    from leanmark.moves.ladder.demand import solved_ladders
    from leanmark.moves.ladder.panel import crossed_people, reference_people
    from leanmark.moves.ladder.steps import ladder_findings
    from leanmark.moves.ladder.table import lines_of
    from leanmark.moves.library import load_move, move_names
    from leanmark.moves.names import CHECKED_ANCHOR_M
    from leanmark.rig.rig import standard_rig

    people = crossed_people() if cross else reference_people()
    asked = [load_move(name) for name in moves or move_names()]
    ladders = solved_ladders(asked, people, standard_rig(CHECKED_ANCHOR_M))
    findings = [ladder_findings(rungs) for rungs in ladders]
    found = sum(map(len, findings))
    if as_json:
        print_json(
            [
                {"move": move.move, "ladder": lines_of(rungs), "findings": own}
                for move, rungs, own in zip(asked, ladders, findings, strict=True)
            ]
        )
    else:
        for rungs, own in zip(ladders, findings, strict=True):
            lines = [f"  does not hold: {finding.words()}" for finding in own]
            typer.echo("\n".join([_shown(rungs, people), *lines, ""]))
        typer.echo("every ladder holds" if not found else f"{found} findings")
    if found:
        raise typer.Exit(2)


def _shown(rungs: list[Solved], people: People) -> str:
    """Demand of each person and the range of the steps, a row for each rung."""
    from leanmark.moves.ladder.demand import demand_of
    from leanmark.moves.ladder.steps import LARGE_STEP_PERCENT, steps_of

    demands = [demand_of(one) for one in rungs]
    steps = steps_of(rungs, demands)
    everyone = range(len(people))
    climbs = ["—"] + [
        step.words(everyone)
        + (", large" if step.harder_by == "load" and max(step.percent) > LARGE_STEP_PERCENT else "")
        for step in steps
    ]
    rows = [
        (one.rung.rung, *_demand_cells(demand.share.tolist(), people), climb)
        for one, demand, climb in zip(rungs, demands, climbs, strict=True)
    ]
    return table((rungs[0].move.move, "women", "men", "step"), rows)


def _demand_cells(shares: list[float], people: People) -> list[str]:
    """Least to greatest demand of women and of men."""
    cells = []
    for sex in ("female", "male"):
        own = [100.0 * share for share, build in zip(shares, people.builds, strict=True) if build.sex == sex]
        cells.append(f"{min(own):.0f}–{max(own):.0f} %")
    return cells
