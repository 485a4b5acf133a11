"""The coach's overview of a cycle: for each trainee the charts, the sessions at a glance, goals and notes."""

from __future__ import annotations

from collections.abc import Collection
from functools import partial

from leanmark.cycle.form import Cycle, GoalScore, Line, Plan, Session
from leanmark.each import Each
from leanmark.errors import FieldError
from leanmark.figures.plots.load_wave import load_wave
from leanmark.figures.plots.row_bars import speed_stages, weekly_sets
from leanmark.sheets.cycle.coach_sheet import Block, CoachSheet, Table, coach_pdf, look_for
from leanmark.sheets.cycle.papers import SheetPaper, check_paper
from leanmark.sheets.cycle.tallies import Tally, places_weeks, tally, waves
from leanmark.sheets.cycle.words import day_words, minutes_words, short_start_words, stages_words


def overview(
    cycle: Cycle, paper: SheetPaper = "a4", *, trainees: Collection[str] = (), each: Each = map
) -> bytes:
    """One PDF with every trainee's overview, or only that of those named; each begins on its own page.

    Raises FieldError where the cycle has no trainee of these, and for an unknown paper.
    """
    check_paper(paper)
    plans = [plan for plan in cycle.plans if not trainees or plan.trainee in trainees]
    if not plans:
        known = ", ".join(plan.trainee for plan in cycle.plans) or "none: the cycle holds no trainee"
        raise FieldError("trainee", ", ".join(trainees) or "all", known, "name one of them")
    about = f"{cycle.name}: {cycle.weeks} weeks from {day_words(cycle.starts)}"
    sheets = list(each(partial(plan_sheet, weeks=cycle.weeks, about=about, paper=paper), plans))
    return coach_pdf(sheets, paper, f"Overview: {cycle.name}", about)


def plan_sheet(plan: Plan, weeks: int, about: str, paper: SheetPaper) -> CoachSheet:
    """One trainee's overview."""
    count = len(plan.sessions)
    said = f"{about}, {count} session{'' if count == 1 else 's'}"
    if not plan.sessions:
        empty = Block(words="No session is planned.", cautions=plan.notes)
        return CoachSheet(plan.trainee, said, (empty, *_goals(plan)))
    found = tally(plan, weeks)
    blocks = (
        *([Block(head="To know", cautions=plan.notes)] if plan.notes else []),
        _wave(plan, weeks, found, paper),
        *_bars(found, paper),
        Block(head="Sessions at a glance", table=_sessions(plan)),
        *_goals(plan),
    )
    return CoachSheet(plan.trainee, said, blocks)


def _wave(plan: Plan, weeks: int, found: Tally, paper: SheetPaper) -> Block:
    svg = load_wave(places_weeks(plan), waves(plan), weeks, look_for(paper), found.deload_weeks)
    return Block(head="Load wave", picture=svg, said=f"Load wave of {plan.trainee} over {weeks} weeks")


def _bars(found: Tally, paper: SheetPaper) -> list[Block]:
    blocks = []
    weeks, look = found.sets.shape[1], look_for(paper)
    if found.reps.any():
        svg = speed_stages(found.stages, found.reps, look, found.deload_weeks)
        words = "Holds have no reps and are not counted here; of sets on each side one side's reps are."
        said = f"Reps a week by speed stage over {weeks} weeks"
        blocks.append(Block(head="Speed stages: reps a week", words=words, picture=svg, said=said))
    if found.sets.any():
        svg = weekly_sets(found.families, found.sets, look, found.deload_weeks)
        said = f"Sets a week by move family over {weeks} weeks"
        blocks.append(Block(head="Sets a week by move family", picture=svg, said=said))
    return blocks


def _sessions(plan: Plan) -> Table:
    rows = tuple(
        (
            str(session.number),
            str(session.week),
            short_start_words(session),
            minutes_words(session.minutes),
            stages_words(session),
            _moves(session),
        )
        for session in plan.sessions
    )
    heads = ("session", "week", "starts", "takes", "speed stages", "moves, sets × reps or hold")
    return Table(heads, rows, (0, 0, 1.25, 1.1, 1.1, 3.2))


def _moves(session: Session) -> str:
    return "; ".join(f"{line.move} {_short(line)}" for line in session.lines) or "nothing"


def _short(line: Line) -> str:
    """``3 × 18`` or ``2 × 25 s each side``."""
    reps = sum(part.reps for part in line.parts)
    holds = sum(part.hold_s for part in line.parts)
    each = " each side" if line.each_side else ""
    done = " + ".join([*([str(reps)] if reps else []), *([f"{holds:g} s"] if holds else [])])
    return f"{line.sets} × {done}{each}{', pinned' if line.pinned else ''}"


def _goals(plan: Plan) -> list[Block]:
    if not plan.goals:
        return []
    gap = plan.objective - plan.bound
    share = f": a gap of {100.0 * gap / plan.objective:.0f} %" if plan.objective > 0.0 else ""
    words = f"All goals cost {plan.objective:.5g}; no plan costs less than {plan.bound:.5g}{share}."
    rows = tuple(
        (
            goal.goal,
            f"{goal.amount:.1f}",
            str(goal.weight),
            f"{goal.cost:.0f}",
            f"{goal.baseline:.0f}",
            _better(goal),
        )
        for goal in plan.goals
    )
    heads = ("goal", "missed by", "weight", "cost", "cost of the greedy plan", "against it")
    return [Block(head="Goals", words=words, table=Table(heads, rows, (2.4, 1, 0.8, 0.8, 1.4, 1.4)))]


def _better(goal: GoalScore) -> str:
    if goal.baseline == goal.cost:
        return "alike"
    if goal.baseline <= 0.0:
        return f"{goal.cost - goal.baseline:.4g} more"
    share = 100.0 * (goal.cost / goal.baseline - 1.0)
    return f"{abs(share):.0f} % {'less' if share < 0.0 else 'more'}"
