"""Session sheets: one trainee's session, one page where it fits, with figures and blanks to write in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Final

from leanmark.cycle.form import Cycle, Line, Plan, Session
from leanmark.each import Each
from leanmark.errors import FieldError
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.of_rung import cautions_of, cues_of
from leanmark.sheets.cards import SAFETY
from leanmark.sheets.cycle.drawn import FIGURE_PT, FigureKey, figure_key, figures_of, trainee_of
from leanmark.sheets.cycle.papers import PHONE_PT, SheetPaper, check_paper
from leanmark.sheets.cycle.words import (
    demand_words,
    effort_words,
    load_words,
    mark_words,
    minutes_words,
    parts_words,
    sets_words,
    stages_words,
    start_words,
    step_words,
    strap_words,
    tempo_words,
    tied,
)
from leanmark.sheets.typeset import typeset
from leanmark.squad.squad import NO_FILE, Squad
from leanmark.units import UnitSystem, show_length

TEMPLATE: Final = "cycle/session_sheet.typ"
_CUES: Final = 2
_ALWAYS: Final = ("Pain, dizziness or numbness:", "Marks")
_BALLISTIC: Final = (
    "Ballistic: land softly and stand still before the next rep; "
    "stop the set when a rep slows or a landing is loud."
)
"""Common practice, no published source."""


@dataclass(frozen=True)
class LineSheet:
    """One line as shown. figure: its number among the figures, −1 where there is none; facts: name, words and
    tone (ink, accent or ochre); blanks: how many sets are written in."""

    move: str
    rung: str
    sets: str
    parts: str
    figure: int
    said: str
    facts: tuple[tuple[str, str, str], ...]
    cues: tuple[str, ...]
    cautions: tuple[str, ...]
    spotter: bool
    blanks: int


@dataclass(frozen=True)
class SessionSheet:
    """One session as shown. first_figure: the place of its figures among those of the file."""

    trainee: str
    starts: str
    place: str
    minutes: str
    stages: str
    rig: str
    strap_changes: str
    lines: tuple[LineSheet, ...]
    safety: tuple[tuple[str, str], ...]
    first_figure: int = 0


def session_sheets(
    cycle: Cycle,
    squad: Squad,
    paper: SheetPaper = "a4",
    *,
    trainees: Collection[str] = (),
    days: Collection[dt.date] = (),
    numbers: Collection[int] = (),
    each: Each = map,
) -> bytes:
    """One PDF with the sheets of a cycle's sessions, trainee by trainee.

    squad: with the builds and the rig of the cycle. trainees, days, numbers: only the sessions of these
    names, local dates and numbers in the cycle; empty means all. each: maps over the trainees, here or on
    other processors.

    Raises FieldError where no session is left, for a trainee that the squad lacks, for moves that the library
    lacks, and for an unknown paper.
    """
    check_paper(paper)
    chosen = chosen_sessions(cycle, trainees, days, numbers)
    jobs = [(plan, own, cycle.weeks, _alone(squad, plan.trainee)) for plan, own in chosen]
    figures: list[str] = []
    sheets: list[SessionSheet] = []
    for drawn, made in each(_solved, jobs):
        sheets += [replace(sheet, first_figure=len(figures)) for sheet in made]
        figures += drawn
    data = {
        "title": f"Session sheets: {cycle.name}",
        "cycle": cycle.name,
        "paper": paper,
        "phone_width_pt": PHONE_PT,
        "figure_pt": FIGURE_PT,
        "figures": figures,
        "sheets": [asdict(sheet) for sheet in sheets],
    }
    return typeset(TEMPLATE, "sheets", data)


def chosen_sessions(
    cycle: Cycle, trainees: Collection[str], days: Collection[dt.date], numbers: Collection[int]
) -> list[tuple[Plan, tuple[Session, ...]]]:
    """The plans and sessions asked for. Raises FieldError where none is left."""
    found = []
    for plan in cycle.plans:
        own = tuple(
            session
            for session in plan.sessions
            if (not trainees or plan.trainee in trainees)
            and (not days or session.starts.date() in days)
            and (not numbers or session.number in numbers)
        )
        if own:
            found.append((plan, own))
    if not found:
        asked = ", ".join(str(one) for one in (*trainees, *sorted(days), *sorted(numbers))) or "all"
        held = ", ".join(f"{plan.trainee} ({len(plan.sessions)})" for plan in cycle.plans) or "none"
        raise FieldError("sessions", asked, f"sessions of the cycle: {held}", "ask for one that it holds")
    return found


def _alone(squad: Squad, name: str) -> Squad:
    """The squad with one trainee only, light enough to be sent to another processor."""
    return replace(squad, trainees=(trainee_of(squad, name),), origin=NO_FILE)


def _solved(job: tuple[Plan, tuple[Session, ...], int, Squad]) -> tuple[list[str], list[SessionSheet]]:
    """One trainee's figures and sheets."""
    plan, sessions, weeks, squad = job
    lines = [line for session in sessions for line in session.lines]
    drawn = figures_of(lines, squad.trainees[0], squad)
    order = {key: number for number, key in enumerate(drawn)}
    return [*drawn.values()], [session_sheet(plan, session, weeks, squad, order) for session in sessions]


def session_sheet(
    plan: Plan, session: Session, weeks: int, squad: Squad, figures: dict[FigureKey, int]
) -> SessionSheet:
    """One session in words. figures: the number of each figure."""
    rig, units = squad.rig, squad.units
    most = max(one.number for one in plan.sessions)
    changes = session.strap_changes
    return SessionSheet(
        trainee=plan.trainee,
        starts=start_words(session),
        place=f"week {session.week} of {weeks}, session {session.number} of {most}",
        minutes=minutes_words(session.minutes),
        stages=stages_words(session) + (", a planned easier session" if session.deload else ""),
        rig=f"{rig.name}: anchor at {show_length(rig.anchor_height_m, units)}, {rig.floor_name}",
        strap_changes=f"{changes} strap change{'' if changes == 1 else 's'}",
        lines=tuple(line_sheet(line, units, figures) for line in session.lines),
        safety=_safety(session.lines),
    )


def line_sheet(line: Line, units: UnitSystem, figures: dict[FigureKey, int]) -> LineSheet:
    """One line in words. Raises FieldError for a move or a rung that the library lacks."""
    move = load_move(line.move)
    rung = find_rung(move, line.rung)
    ballistic = any(part.stage == "ballistic" for part in line.parts)
    facts = (
        ("strap", strap_words(line, units), "ochre"),
        ("floor mark", mark_words(line, units), "accent"),
        ("load", load_words(line, units), "ink"),
        ("demand", demand_words(line), "ink"),
        ("tempo", tempo_words(line), "ink"),
        ("effort", effort_words(line), "ink"),
        ("rest", f"{line.rest_s:.0f} s", "ink"),
        ("easier", step_words(line, line.easier, units), "ink"),
        ("harder", step_words(line, line.harder, units), "ink"),
    )
    return LineSheet(
        move=line.move,
        rung=line.rung,
        sets=sets_words(line),
        parts=parts_words(line),
        figure=figures.get(figure_key(line, units), -1),
        said=f"{line.move}, {line.rung}" + (f", {marked}" if (marked := mark_words(line, units)) else ""),
        facts=tuple((name, tied(said), tone) for name, said, tone in facts if said),
        cues=cues_of(move, rung)[:_CUES],
        cautions=(*cautions_of(move, rung), *((_BALLISTIC,) if ballistic else ())),
        spotter=line.spotter,
        blanks=line.sets,
    )


def _safety(lines: Sequence[Line]) -> tuple[tuple[str, str], ...]:
    """The safety lines that these moves call for."""
    kits = {load_move(line.move).kit for line in lines if line.strap}
    wanted = {*_ALWAYS}
    if kits:
        wanted.add("Anchor:")
    if "cradles" in kits:
        wanted.add("Feet in cradles:")
    if any(part.stage == "ballistic" for line in lines for part in line.parts):
        wanted.add("Ballistic reps")
    return tuple((head, words) for head, words in SAFETY if head in wanted)
