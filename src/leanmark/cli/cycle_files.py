"""What a cycle is written to: JSON, tables of sets, calendars and sheets. All are made before any is
written, so that an end half-way leaves the folder as it was."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from leanmark.each import Each

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle, Plan
    from leanmark.sheets.cycle.papers import SheetPaper
    from leanmark.squad.squad import Squad

CYCLE_FILE: Final = "cycle.json"
Made = Iterator[tuple[str, bytes]]
"""Paths within the folder, and what is in the files."""


def table_files(cycle: Cycle, *, csv: bool = True, parquet: bool = True) -> Made:
    """Every set as CSV and as Parquet."""
    from leanmark.cycle.files.sets_csv import sets_csv
    from leanmark.cycle.files.sets_parquet import sets_parquet

    if csv:
        yield "sets.csv", sets_csv(cycle)
    if parquet:
        yield "sets.parquet", sets_parquet(cycle)


def calendar_files(cycle: Cycle, squad: Squad, earlier: Cycle | None = None) -> Made:
    """One calendar with an event for all who train at the same time, and one for each trainee.

    earlier: an earlier issue of the same cycle, whose sessions that are gone become cancelled.
    """
    from leanmark.cycle.files.calendar import calendar_file

    make = partial(calendar_file, cycle, dt.datetime.now(dt.UTC), earlier=earlier, units=squad.units)
    yield "calendar.ics", make(one_event="per session")
    for name, file in _own_files(cycle, squad, "calendars", ".ics"):
        yield file, make(trainee=name)


def sheet_count(cycle: Cycle) -> int:
    """How many sheets ``sheet_files`` gives."""
    return len(_with_sessions(cycle)) + 2 if _with_sessions(cycle) else 0


def sheet_files(cycle: Cycle, squad: Squad, paper: SheetPaper, each: Each, done: Callable[[], None]) -> Made:
    """Session sheets for each trainee, the overview and the tape marks; done: told of each file."""
    from leanmark.sheets.cycle.overview import overview
    from leanmark.sheets.cycle.tape_sheet import tape_sheet
    from leanmark.squad.squad import NO_FILE

    plans = _with_sessions(cycle)
    if not plans:
        return
    files = dict(_own_files(cycle, squad, "sessions", ".pdf"))
    alone = {one.name: replace(squad, trainees=(one,), origin=NO_FILE) for one in squad.trainees}
    jobs = [(_with_plan(cycle, plan), alone[plan.trainee]) for plan in plans]
    for plan, pdf in zip(plans, each(partial(_session_sheets, paper), jobs), strict=True):
        yield files[plan.trainee], pdf
        done()
    yield "overview.pdf", overview(cycle, paper, each=each)
    done()
    if any(line.strap for plan in plans for session in plan.sessions for line in session.lines):
        yield "tapes.pdf", tape_sheet(cycle, squad, paper)
    done()


def _session_sheets(paper: SheetPaper, job: tuple[Cycle, Squad]) -> bytes:
    from leanmark.sheets.cycle.sessions import session_sheets

    cycle, squad = job
    return session_sheets(cycle, squad, paper)


def _with_sessions(cycle: Cycle) -> list[Plan]:
    return [plan for plan in cycle.plans if plan.sessions]


def _with_plan(cycle: Cycle, plan: Plan) -> Cycle:
    """The cycle of one trainee, light enough to be sent to another processor."""
    import msgspec

    return msgspec.structs.replace(cycle, plans=(plan,), squad_text="", pins=())


def _own_files(cycle: Cycle, squad: Squad, folder: str, ending: str) -> Iterator[tuple[str, str]]:
    """Each trainee and the trainee's own file, numbered by the place in the squad."""
    from leanmark.sheets.cards import trainee_file_name

    places = {one.name: place for place, one in enumerate(squad.trainees, start=1)}
    for plan in cycle.plans:
        yield plan.trainee, f"{folder}/{trainee_file_name(places[plan.trainee], plan.trainee, ending)}"


def write_files(folder: Path, files: Sequence[tuple[str, bytes]]) -> list[Path]:
    """Write files below a folder, each whole or not at all; gives their paths."""
    from leanmark.cycle.files.whole import write_whole

    written = []
    for name, content in files:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        written.append(write_whole(path, content))
    return written
