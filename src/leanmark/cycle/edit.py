"""Edits by hand: swap, keep, drop or dose a move, and plan the rest of the trainee's cycle around it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from leanmark.cycle.build import build
from leanmark.cycle.form import Cycle, Line, Pin, Plan, Session
from leanmark.errors import FieldError
from leanmark.moves.library import load_move, move_names
from leanmark.moves.problems import nearest
from leanmark.squad.read import squad_from_bytes
from leanmark.squad.squad import Squad

SAME_M: Final = 0.005
"""Marks nearer than this are the same; own figure, half of what a mark is written to."""
ChangeKind = Literal["comes in", "goes out", "changes"]


@dataclass(frozen=True)
class Change:
    """One line that differs from the cycle before: what it was and what it is now, in words, empty where
    there is none."""

    trainee: str
    session: int
    kind: ChangeKind
    move: str
    before: str
    after: str


@dataclass(frozen=True)
class Edited:
    """The new cycle, and every line that is not as it was."""

    cycle: Cycle
    changes: tuple[Change, ...]


def edit(cycle: Cycle, pins: Sequence[Pin], today: dt.date | None = None) -> Edited:
    """The cycle with more edits by hand: what they fix stays, the rest of those trainees' plans is solved
    again and keeps what it can.

    Raises FieldError for a trainee, session or move that is not there, and for a move or mark that a rule
    bars: rules of safety are not edited by hand, but in the squad file.
    """
    squad = squad_of(cycle)
    for pin in pins:
        _check(cycle, pin)
    names = list(dict.fromkeys(pin.trainee for pin in pins))
    made = build(squad, pins=(*cycle.pins, *pins), before=cycle, names=names, seed=cycle.seed, today=today)
    for pin in pins:
        _check_kept(made, pin)
    return Edited(made, tuple(changes(cycle, made)))


def squad_of(cycle: Cycle) -> Squad:
    """The squad that a cycle was built from. Raises SquadFileError where its text cannot be used."""
    return squad_from_bytes(cycle.squad_text.encode(), f"squad of {cycle.name}")


def plan_of(cycle: Cycle, trainee: str) -> Plan:
    """A trainee's plan. Raises FieldError for a name that is not there."""
    for plan in cycle.plans:
        if plan.trainee == trainee:
            return plan
    raise _not_there("trainee", trainee, tuple(plan.trainee for plan in cycle.plans))


def session_of(plan: Plan, number: int) -> Session:
    """A session by its number. Raises FieldError for one that is not there."""
    for session in plan.sessions:
        if session.number == number:
            return session
    numbers = ", ".join(str(session.number) for session in plan.sessions)
    raise FieldError("session", number, numbers or "none", f"name a session of {plan.trainee}")


def _not_there(field: str, name: str, known: tuple[str, ...]) -> FieldError:
    near = nearest(name, known)
    return FieldError(
        field, name, "; ".join(known), f"did you mean '{near}'?" if near else "name one of them"
    )


def _check(cycle: Cycle, pin: Pin) -> None:
    plan = plan_of(cycle, pin.trainee)
    sessions = [session_of(plan, pin.session)] if pin.session else list(plan.sessions)
    there = tuple(dict.fromkeys(line.move for session in sessions for line in session.lines))
    if pin.what in ("drop", "swap", "dose") and pin.move not in there:
        raise _not_there("move", pin.move, there)
    for move in (pin.move, pin.other):
        if move and move not in there and move not in move_names():
            raise _not_there("move", move, move_names())
    if pin.what == "swap" and not pin.other:
        raise FieldError("other", "nothing", "the move that comes in its place", "name it")
    if pin.what == "dose" and not (pin.sets or pin.reps or pin.mark_m is not None):
        raise FieldError("dose", "nothing", "sets, reps or a mark", "give one of them")


def _check_kept(made: Cycle, pin: Pin) -> None:
    """Whether the plan holds what was fixed; it does not where a rule bars it."""
    move = {"drop": "", "swap": pin.other}.get(pin.what, pin.move)
    plan = plan_of(made, pin.trainee)
    lines = [
        line
        for session in plan.sessions
        if pin.session in (0, session.number)
        for line in session.lines
        if line.move == move
    ]
    if move and not lines:
        raise FieldError("move", move, "a move that no rule bars", f"{_why_not(plan, move)}; {_IN_FILE}")
    if pin.mark_m is not None and any(abs(line.mark_m - pin.mark_m) > SAME_M for line in lines):
        mark = load_move(move).mark
        held = f"a mark of the rung '{lines[0].rung}' that {plan.trainee} can hold"
        allowed = f"{held}, within {mark.low_m:g} to {mark.high_m:g}"
        raise FieldError("mark_m", pin.mark_m, allowed, "choose another mark, or leave it to the plan")


_IN_FILE: Final = "change the squad file and build again"


def _why_not(plan: Plan, move: str) -> str:
    for left in plan.left_out:
        if left.move == move:
            return left.reasons[0]
    return next(iter(plan.notes), "it cannot be had there")


def changes(before: Cycle, after: Cycle) -> Iterator[Change]:
    """Every line that differs between two cycles of one squad, in order."""
    earlier = {plan.trainee: plan for plan in before.plans}
    for plan in after.plans:
        was = _lines_of(earlier[plan.trainee]) if plan.trainee in earlier else {}
        now = _lines_of(plan)
        for session, move in sorted({*was, *now}):
            old, new = was.get((session, move)), now.get((session, move))
            if old is None or new is None:
                kind: ChangeKind = "comes in" if old is None else "goes out"
                yield Change(plan.trainee, session, kind, move, _words(old), _words(new))
            elif _words(old) != _words(new):
                yield Change(plan.trainee, session, "changes", move, _words(old), _words(new))


def _lines_of(plan: Plan) -> dict[tuple[int, str], Line]:
    return {(session.number, line.move): line for session in plan.sessions for line in session.lines}


def _words(line: Line | None) -> str:
    """The dose in words, marks to the centimetre."""
    if line is None:
        return ""
    done = ", ".join(
        f"{part.hold_s:g} s" if part.hold_s else f"{part.reps} {part.stage}" for part in line.parts
    )
    mark = f"{100.0 * line.mark_m:.0f} cm".replace("-", "−")
    return f"{line.rung}, {line.mark_of} at {mark}, {line.sets} × {done}"
