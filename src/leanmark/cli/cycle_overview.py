"""The overview of a cycle on a screen: week by week, how near the goals, and what the coach must know."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from leanmark.cli.printed import table
from leanmark.errors import one_line

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle, Plan

NARROWEST, WIDEST = 36, 100
"""Columns of a screen that are used, from a phone's to a desk's; own figures."""
TESTS: Final = "tests that would open harder rungs"
"""How the note of a plan begins that names gates to test."""
_NAME: Final = 18
_GAP: Final = 2


def screen_width() -> int:
    """Columns of the terminal, within what is used of it."""
    return min(max(shutil.get_terminal_size((WIDEST, 24)).columns, NARROWEST), WIDEST)


def wrapped(text: str, indent: str = "", hanging: str | None = None) -> str:
    """Text broken to the screen's width. hanging: what its later lines begin with, as the first if None."""
    return textwrap.fill(
        text,
        screen_width(),
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_on_hyphens=False,
    )


def table_or_lines(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table where the screen is wide enough, else a paragraph for each row: the first cell, then the other
    cells with their heads."""
    laid = table(head, rows)
    if max(map(len, laid.splitlines())) <= screen_width():
        return laid
    told = [
        ", ".join(f"{name} {cell}" for name, cell in zip(head[1:], row[1:], strict=True) if cell)
        for row in rows
    ]
    return "\n".join(wrapped(f"{row[0]}: {words}", "", "  ") for row, words in zip(rows, told, strict=True))


def counted(number: int, what: str) -> str:
    """``1 session``, ``2 sessions``."""
    return f"{number} {what}" + ("" if number == 1 else "s")


def overview_words(cycle: Cycle) -> str:
    """Every trainee's weeks and goals."""
    from leanmark.sheets.cycle.words import day_words

    weeks = counted(cycle.weeks, "week")
    head = f"{cycle.name} of {cycle.squad}: {weeks} from {day_words(cycle.starts)}, seed {cycle.seed}"
    return "\n\n".join([wrapped(head), *_week_tables(cycle), _goals(cycle.plans)])


def _week_tables(cycle: Cycle) -> Iterator[str]:
    """Tables one below the other, each with as many weeks as the screen is wide enough for."""
    columns = [
        (str(week), *(_week(plan, week) for plan in cycle.plans)) for week in range(1, cycle.weeks + 1)
    ]
    names = _names(cycle.plans)
    widths = [max(map(len, column)) + _GAP for column in columns]
    room = screen_width() - max(map(len, [*names, "trainee"]))
    while columns:
        count, used = 1, widths[0]
        while count < len(columns) and used + widths[count] <= room:
            used += widths[count]
            count += 1
        head, *rows = zip(("trainee", *names), *columns[:count], strict=True)
        yield table(head, rows)
        columns, widths = columns[count:], widths[count:]
    words = "Each week: sessions/minutes/sets."
    deload = any(session.deload for plan in cycle.plans for session in plan.sessions)
    yield wrapped(f"{words} * a deload, planned easier." if deload else words)


def _names(plans: Sequence[Plan]) -> list[str]:
    return [one_line(plan.trainee, _NAME) for plan in plans]


def _week(plan: Plan, week: int) -> str:
    own = [session for session in plan.sessions if session.week == week]
    if not own:
        return "—"
    minutes = sum(session.minutes.value for session in own)
    sets = sum(line.sets for session in own for line in session.lines)
    return f"{len(own)}/{minutes:.0f}/{sets}" + ("*" if all(session.deload for session in own) else "")


def _goals(plans: Sequence[Plan]) -> str:
    rows = [
        (name, f"{plan.objective:.0f}", f"{plan.bound:.0f}", f"{_baseline(plan):.0f}", _most_missed(plan))
        for name, plan in zip(_names(plans), plans, strict=True)
    ]
    said = (
        "Missed: what missing the soft goals costs by their weights, 0 where all are met. Least: no plan can "
        "miss by less. Greedy: the plan made move by move."
    )
    head = ("trainee", "missed", "least", "greedy", "most of it")
    return f"{table_or_lines(head, rows)}\n\n{wrapped(said)}"


def _baseline(plan: Plan) -> float:
    return sum(goal.baseline for goal in plan.goals)


def _most_missed(plan: Plan) -> str:
    worst = max(plan.goals, key=lambda goal: goal.cost, default=None)
    return f"{worst.goal} {worst.cost:.0f}" if worst and worst.cost > 0.0 else ""


def notes_words(plans: Sequence[Plan]) -> str:
    """What the coach must know, each note once with everybody whom it is about. Of several trainees the tests
    are left for each one's own page: they are many, and bind nobody."""
    about: dict[str, list[str]] = {}
    for plan in plans:
        for note in plan.notes:
            if len(plans) == 1 or not note.startswith(TESTS):
                about.setdefault(note, []).append(plan.trainee)
    tests = len(plans) > 1 and any(note.startswith(TESTS) for plan in plans for note in plan.notes)
    more = [f"{TESTS}: leanmark cycle show … --trainee NAME lists them."] if tests else []
    if not about:
        return "\n".join(["To know: nothing, all wishes are met.", *map(wrapped, more)])
    lines = ["To know", "-------"]
    for note, names in about.items():
        who = "everybody" if len(names) == len(plans) > 1 else ", ".join(one_line(name) for name in names)
        lines.append(wrapped(f"{who}: {note}.", "", "  "))
    lines += [wrapped(words, "", "  ") for words in more]
    return "\n".join(lines)
