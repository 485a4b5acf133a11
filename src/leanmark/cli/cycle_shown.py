"""A cycle's sessions in words, on a screen as narrow as a phone or as wide as a desk."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from leanmark.cli.cycle_overview import counted, wrapped
from leanmark.units import UnitSystem

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle, Line, Plan, Session

_IN: Final = "    "
_ALWAYS: Final = "To know before the first rep"


def at_a_glance(cycle: Cycle, plan: Plan) -> str:
    """One trainee's sessions, each with its moves."""
    from leanmark.sheets.cycle.words import minutes_words, short_start_words, stages_words

    lines = [wrapped(f"{plan.trainee}, {cycle.name}: {counted(len(plan.sessions), 'session')}")]
    for session in plan.sessions:
        head = (
            f"{session.number:>3}  week {session.week}, {short_start_words(session)}, "
            f"{minutes_words(session.minutes)}, {stages_words(session)}"
        )
        lines += [wrapped(head, "", "     "), wrapped(_moves(session), "     ")]
    return "\n".join(lines)


def _moves(session: Session) -> str:
    return "; ".join(f"{line.move}, {_short(line)}" for line in session.lines) or "nothing"


def _short(line: Line) -> str:
    """``3 × 8 controlled, 6 fast, each side``."""
    from leanmark.sheets.cycle.words import parts_words

    return f"{line.sets} × {parts_words(line)}" + (", each side" if line.each_side else "")


def line_by_line(cycle: Cycle, plans: Sequence[Plan], units: UnitSystem) -> str:
    """Sessions in full, and what to look out for in them."""
    from leanmark.cycle.files.words import cautions

    whole = {plan.trainee: plan for plan in cycle.plans}
    shown = [
        _session(cycle, whole[plan.trainee], session, units) for plan in plans for session in plan.sessions
    ]
    all_sessions = [session for plan in plans for session in plan.sessions]
    careful = [wrapped(words, "- ", "  ") for words in cautions(*all_sessions)]
    return "\n\n".join([*shown, "\n".join([_ALWAYS, "-" * len(_ALWAYS), *careful])])


def _session(cycle: Cycle, plan: Plan, session: Session, units: UnitSystem) -> str:
    from leanmark.sheets.cycle.words import minutes_words, stages_words, start_words

    most = max(one.number for one in plan.sessions)
    head = (
        f"{plan.trainee}, session {session.number} of {most}, week {session.week} of {cycle.weeks}: "
        f"{start_words(session)}"
    )
    about = (
        f"{minutes_words(session.minutes)}; {stages_words(session)}; "
        f"{counted(session.strap_changes, 'strap change')}"
    )
    lines = [wrapped(head), wrapped(about)]
    for number, line in enumerate(session.lines, start=1):
        lines += ["", wrapped(f"{number:>2}  {line.move}, {line.rung}", "", _IN)]
        lines += [wrapped(words, _IN, f"{_IN}  ") for words in _line(line, units)]
    return "\n".join(lines)


def _line(line: Line, units: UnitSystem) -> Iterator[str]:
    """What is done, where, how hard, and what is next."""
    from leanmark.cycle.files.words import dose_words
    from leanmark.sheets.cycle import words as w

    yield dose_words(line)
    yield "; ".join(filter(None, [_strap(line, units), w.mark_words(line, units)]))
    yield w.load_words(line, units)
    yield f"demand {w.demand_words(line)}"
    rest = f"rest {line.rest_s:.0f} s"
    yield "; ".join([w.effort_words(line), rest] if any(part.reps for part in line.parts) else [rest])
    steps = {
        "easier": w.step_words(line, line.easier, units),
        "harder": w.step_words(line, line.harder, units),
    }
    yield from (f"{name}: {said}" for name, said in steps.items() if said)
    if line.spotter:
        yield "somebody stands by through every set"
    if line.pinned:
        yield "fixed by hand"


def _strap(line: Line, units: UnitSystem) -> str:
    from leanmark.sheets.cycle.words import strap_words

    return f"strap {strap_words(line, units)}" if line.strap else strap_words(line, units)
