"""What the commands of a cycle are asked about: the file, and trainees, moves and dates by name."""

from __future__ import annotations

import datetime as dt
import unicodedata
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle
    from leanmark.sheets.cycle.papers import SheetPaper
    from leanmark.squad.squad import Squad

CycleFile = Annotated[Path, typer.Argument(help="A cycle file, as `leanmark cycle build` writes it.")]
OneTrainee = Annotated[str, typer.Option("--trainee", help="Whose plan: the name, or a part of it.")]
AnyTrainee = Annotated[
    str | None, typer.Option("--trainee", help="Only this one: the name, or a part of it.")
]
AnyTrainees = Annotated[
    list[str] | None, typer.Option("--trainee", help="Only this one: the name, or a part of it.")
]
Paper = Annotated[str, typer.Option("--paper", help="a4, letter or phone.")]
Date = Annotated[str | None, typer.Option("--date", help="The day: 2026-11-30; the next one if left out.")]


def read_both(path: Path) -> tuple[Cycle, Squad]:
    """A cycle file, and the squad that it was built from. Raises CycleFileError or SquadFileError."""
    from leanmark.cycle.edit import squad_of
    from leanmark.cycle.files.json_file import read_cycle

    cycle = read_cycle(path)
    return cycle, squad_of(cycle)


def find_name(given: str, names: Sequence[str], option: str = "--trainee") -> str:
    """The name that was typed, in full or by a part that no other name has; case and accents do not count.

    Raises FieldError for a part of several names, or of none, with the nearest.
    """
    from leanmark.cli.asked import LISTED_NAMES
    from leanmark.squad.text import nearest

    wanted = _key(given)
    for name in names:
        if _key(name) == wanted:
            return name
    holding = [name for name in names if wanted and wanted in _key(name)]
    if len(holding) == 1:
        return holding[0]
    listed = holding or [*names]
    more = f" and {len(listed) - LISTED_NAMES} more" if len(listed) > LISTED_NAMES else ""
    meant = None if holding else nearest(given, names)
    remedy = "write more of the name" if holding else "write a name, or a part of it"
    allowed = (", ".join(listed[:LISTED_NAMES]) + more) or "none: nobody is there"
    raise FieldError(option, given, allowed, f"did you mean '{meant}'?" if meant else remedy)


def _key(name: str) -> str:
    """Letters without case, accents and needless spaces."""
    plain = unicodedata.normalize("NFKD", name.casefold())
    return " ".join("".join(char for char in plain if not unicodedata.combining(char)).split())


def find_names(given: Sequence[str] | None, names: Sequence[str]) -> list[str]:
    """The names that were typed, in the order of the squad. Raises FieldError as ``find_name``."""
    found = {find_name(one, names) for one in given or ()}
    return [name for name in names if name in found]


def trainees_of(cycle: Cycle) -> list[str]:
    """The trainees of a cycle, in order."""
    return [plan.trainee for plan in cycle.plans]


def find_move(option: str, given: str, cycle: Cycle) -> str:
    """A move of the library or of the cycle. Raises FieldError for another name."""
    from leanmark.cli.moves_list import known_word
    from leanmark.moves.library import move_names

    used = {line.move for plan in cycle.plans for session in plan.sessions for line in session.lines}
    return known_word(option, given, sorted({*move_names(), *used})) or given


def read_date(option: str, text: str) -> dt.date:
    """A date as ISO 8601 writes it. Raises FieldError for anything else."""
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise FieldError(
            option, text, "a date: year-month-day", f"write for example {option} 2026-11-30"
        ) from None


def today() -> dt.date:
    """The date here and now."""
    return dt.datetime.now().astimezone().date()


def session_date(cycle: Cycle, text: str | None) -> dt.date:
    """The day asked for; left out, the first with sessions from today, or else the first of all.

    Raises FieldError for a day without sessions, with the nearest one that has some.
    """
    days = sorted({session.starts.date() for plan in cycle.plans for session in plan.sessions})
    if not days:
        raise FieldError("--date", text or "the next one", "none: the cycle has no sessions", "build it anew")
    if text is None:
        return next((day for day in days if day >= today()), days[0])
    day = read_date("--date", text)
    if day not in days:
        near = min(days, key=lambda one: abs(one - day))
        allowed = f"a day with sessions, from {days[0]} to {days[-1]}"
        raise FieldError("--date", str(day), allowed, f"the nearest is {near}")
    return day


def check_sheet_paper(paper: str) -> SheetPaper:
    """The paper asked for. Raises FieldError for another word."""
    from leanmark.cli.options import one_of
    from leanmark.sheets.cycle.papers import SHEET_PAPERS

    return one_of("--paper", paper, SHEET_PAPERS)
