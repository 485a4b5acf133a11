"""A floor plan on a screen: what to know, each anchor round by round, who spots whom, everybody's time."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leanmark.cli.cycle_overview import counted, table_or_lines, wrapped

if TYPE_CHECKING:
    from leanmark.cycle.floor.form import FloorPlan, Stint, Turn
    from leanmark.cycle.form import Cycle, Line
    from leanmark.squad.squad import Squad


def floor_words(plan: FloorPlan, cycle: Cycle, squad: Squad, day: dt.date) -> str:
    """The whole plan."""
    parts = [_head(plan, cycle, squad, day)]
    if plan.notes:
        parts.append("\n".join(["To know", "-------", *(wrapped(note, "", "  ") for note in plan.notes)]))
    parts += [*_places(plan, cycle, squad)]
    if plan.pairs:
        parts.append(_spotting(plan))
    parts.append(_times(plan))
    return "\n\n".join(parts)


def _head(plan: FloorPlan, cycle: Cycle, squad: Squad, day: dt.date) -> str:
    from leanmark.cycle.floor.clock import clock
    from leanmark.sheets.cycle.words import day_words

    who = f"{counted(len(plan.ask.who), 'trainee')}, {counted(len(plan.ask.anchors), 'anchor')}"
    changes = sum(use.strap_changes for use in plan.anchors)
    waited_s = sum(wait.wait_s for wait in plan.waits)
    return "\n".join(
        [
            wrapped(f"{cycle.name}, {day_words(day)}, {squad.rig.name}: {who}"),
            wrapped(
                f"{clock(plan.length_s)} min from the first set to the end of the last, and there are "
                f"{plan.ask.minutes:g}; no plan takes less than {clock(plan.bound_s)}, and first come, first "
                f"served takes {clock(plan.list_length_s)}"
            ),
            wrapped(f"{counted(changes, 'strap change')}; waiting beyond rests, all together: "
                    f"{waited_s / 60.0:.0f} min"),
        ]
    )  # fmt: skip


def _places(plan: FloorPlan, cycle: Cycle, squad: Squad) -> Iterator[str]:
    """Each anchor with its straps and everybody's sets there, then the floor away from the straps."""
    from leanmark.cycle.floor.form import FLOOR
    from leanmark.sheets.cycle.floor_sheet import ON_FLOOR, spells_of

    lines = {
        line.uid: line for one in cycle.plans for session in one.sessions for line in session.lines
    }  # fmt: skip
    spells = spells_of(plan.turns)
    for anchor in (*plan.ask.anchors, FLOOR):
        own = [spell for spell in spells if spell[0].anchor == anchor]
        if own:
            stints = [stint for stint in plan.stints if stint.anchor == anchor]
            name = ON_FLOOR if anchor == FLOOR else anchor
            yield "\n".join([name, "-" * len(name), *_place(own, stints, lines, squad)])


def _place(
    spells: Sequence[tuple[Turn, ...]], stints: Sequence[Stint], lines: dict[str, Line], squad: Squad
) -> Iterator[str]:
    """Straps and sets at one place, by the time at which they start."""
    from leanmark.cycle.floor.clock import clock
    from leanmark.sheets.cycle.words import mark_words

    straps = [*stints]
    for spell in spells:
        first = spell[0]
        while straps and straps[0].start_s <= first.start_s:
            yield _strap(straps.pop(0))
        at = ", ".join(clock(turn.start_s) for turn in spell)
        line = lines.get(first.line)
        mark = mark_words(line, squad.units) if line and line.strap else ""
        yield wrapped("; ".join(filter(None, [f"{at}  {first.trainee}: {first.move}", mark])), "  ", "    ")


def _strap(stint: Stint) -> str:
    from leanmark.cycle.floor.clock import clock

    if stint.start_s > stint.change_from_s:
        return f"strap {stint.strap}, set anew at {clock(stint.change_from_s)}"
    return f"strap {stint.strap}, set before the session"


def _spotting(plan: FloorPlan) -> str:
    """Who spots whom, from when on."""
    from leanmark.cycle.floor.clock import clock

    starts: dict[tuple[str, str], Turn] = {}
    for turn in plan.turns:
        starts.setdefault((turn.trainee, turn.line), turn)
    rows = [
        (clock(starts[key].start_s), pair.spotter, pair.trainee, starts[key].move)
        for pair in sorted(plan.pairs, key=lambda pair: starts[pair.trainee, pair.line].start_s)
        for key in [(pair.trainee, pair.line)]
    ]
    return table_or_lines(("from", "who spots", "whom", "in"), rows)


def _times(plan: FloorPlan) -> str:
    """When each is there, and how long each stands idle."""
    from leanmark.cycle.floor.clock import clock

    rows = [
        (one.trainee, clock(one.first_s), clock(one.last_s), f"{one.wait_s / 60.0:.1f} min", str(one.walks))
        for one in plan.waits
    ]
    return table_or_lines(("trainee", "first set", "done at", "waits", "walks"), rows)
