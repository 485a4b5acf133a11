"""The columns of the table of sets, each declared once: CSV, Parquet and the docs come from them.

One row is one set. Where a set is done on each side it is still one row: its reps and hold are of one
side, its times, work and impulse of both together.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal, get_args
from zoneinfo import ZoneInfo

from leanmark.cycle.files.local_time import local_time
from leanmark.cycle.form import Cycle, Line, Part, Plan, Session, Step
from leanmark.dose.effort import rpe_of
from leanmark.errors import FieldError
from leanmark.moves.report_form import Range
from leanmark.moves.schema import Stage

Kind = Literal["text", "whole number", "number", "yes or no", "date", "time"]
Cell = str | int | float | bool | dt.date | dt.datetime | None
_NO_STRAP: Final = "; empty where no strap is used"
_BOTH: Final = "; both sides together"
STAGES: Final[tuple[Stage, ...]] = get_args(Stage)


@dataclass(frozen=True)
class OneSet:
    """One set of one line: where it stands in the cycle, and its number from 1."""

    cycle: Cycle
    zone: ZoneInfo
    plan: Plan
    session: Session
    order: int
    line: Line
    number: int


@dataclass(frozen=True)
class Column:
    """One column: its name, the kind of its cells, unit (empty where it has none), meaning, and how a set
    fills it. An empty cell is None, in a column of text an empty text."""

    name: str
    kind: Kind
    unit: str
    meaning: str
    cell: Callable[[OneSet], Cell]


def starts_of(one: OneSet) -> dt.datetime:
    """When the session of a set starts, on the clocks of the cycle's zone."""
    return local_time(one.session.starts, one.zone)


def side_words(each_side: bool) -> str:
    """How a set uses the sides of the body."""
    return "each in turn" if each_side else "both at once"


def tempo_words(tempo_s: tuple[float, ...]) -> str:
    """A tempo as it is written: ``2-1-1.5-0``."""
    return "-".join(f"{time_s:g}" for time_s in tempo_s)


def _of_stage(stage: Stage) -> list[Column]:
    """What is done at one speed stage. Two parts at the same stage are added up; tempo and rung are of the
    first."""
    return [
        Column(
            f"reps_{stage}",
            "whole number",
            "",
            f"{stage} reps, of one side",
            lambda one: _reps(one.line, stage),
        ),
        Column(
            f"tempo_{stage}",
            "text",
            "s",
            f"tempo of the {stage} reps: eccentric-pause-concentric-pause; empty where there are none",
            lambda one: next((tempo_words(part.tempo_s) for part in one.line.parts if _is(part, stage)), ""),
        ),
        Column(
            f"rung_{stage}",
            "text",
            "",
            f"rung of the {stage} reps, or of the hold; empty where there are none",
            lambda one: next((part.rung for part in one.line.parts if part.stage == stage), ""),
        ),
    ]


def _interval(
    name: str, unit: str, meaning: str, of: Callable[[OneSet], Range | None], empty: str = ""
) -> list[Column]:
    """Value, low and high end of an interval; ``name`` holds ``{}`` where the end is named. empty: when the
    cells are."""

    def end(which: str) -> Callable[[OneSet], Cell]:
        return lambda one: None if (interval := of(one)) is None else getattr(interval, which)

    return [
        Column(name.format(""), "number", unit, f"{meaning}{empty}", end("value")),
        Column(name.format("low_"), "number", unit, f"{meaning}, low end{empty}", end("low")),
        Column(name.format("high_"), "number", unit, f"{meaning}, high end{empty}", end("high")),
    ]


def _steps(which: Literal["easier", "harder"]) -> list[Column]:
    def step(one: OneSet) -> Step | None:
        return one.line.easier if which == "easier" else one.line.harder

    return [
        Column(
            f"{which}_rung",
            "text",
            "",
            f"rung of the next {which} mark; empty where there is none",
            lambda one: found.rung if (found := step(one)) else "",
        ),
        Column(
            f"{which}_mark_m",
            "number",
            "m",
            f"the next {which} floor mark",
            lambda one: found.mark_m if (found := step(one)) else None,
        ),
    ]


def _reps(line: Line, stage: Stage) -> int:
    return sum(part.reps for part in line.parts if part.stage == stage)


def _is(part: Part, stage: Stage) -> bool:
    return part.stage == stage and part.reps > 0


def _on_strap(one: OneSet, value: float) -> float | None:
    """A number that means nothing where no strap is used."""
    return value if one.line.strap else None


def _rpe(one: OneSet) -> float | None:
    try:
        return float(rpe_of(one.line.reps_in_reserve))
    except FieldError:
        return None


COLUMNS: Final[tuple[Column, ...]] = (
    Column("trainee", "text", "", "the trainee's name", lambda one: one.plan.trainee),
    Column(
        "date", "date", "", "day of the session, in the cycle's time zone", lambda one: starts_of(one).date()
    ),
    Column("starts", "time", "", "when the session starts, with the offset of its clocks", starts_of),
    Column("week", "whole number", "", "week of the cycle, from 1", lambda one: one.session.week),
    Column("session", "whole number", "", "the trainee's session, from 1", lambda one: one.session.number),
    Column("deload", "yes or no", "", "a planned easier session", lambda one: one.session.deload),
    Column("order", "whole number", "", "place of the move in the session, from 1", lambda one: one.order),
    Column("set", "whole number", "", "number of the set, from 1", lambda one: one.number),
    Column("sets", "whole number", "", "how many sets of the move there are", lambda one: one.line.sets),
    Column("move", "text", "", "the move", lambda one: one.line.move),
    Column("rung", "text", "", "the rung of its ladder", lambda one: one.line.rung),
    Column("family", "text", "", "the move family", lambda one: one.line.family),
    Column(
        "side",
        "text",
        "",
        f"'{side_words(False)}', or '{side_words(True)}': the set is done on one side, then on the other",
        lambda one: side_words(one.line.each_side),
    ),
    *(column for stage in STAGES for column in _of_stage(stage)),
    Column(
        "hold_s",
        "number",
        "s",
        "time held, of one side",
        lambda one: sum(part.hold_s for part in one.line.parts),
    ),
    Column("strap", "text", "", f"strap setting{_NO_STRAP}", lambda one: one.line.strap),
    Column(
        "strap_m",
        "number",
        "m",
        f"anchor to strap end under load{_NO_STRAP}",
        lambda one: _on_strap(one, one.line.strap_m),
    ),
    Column("mark_of", "text", "", "the contact that is put on the floor mark", lambda one: one.line.mark_of),
    Column(
        "mark_m",
        "number",
        "m",
        f"floor mark from the plumb point, positive the way the trainee faces{_NO_STRAP}",
        lambda one: _on_strap(one, one.line.mark_m),
    ),
    Column(
        "tolerance_m",
        "number",
        "m",
        f"how far off the mark the load is still as wanted{_NO_STRAP}",
        lambda one: _on_strap(one, one.line.tolerance_m),
    ),
    Column(
        "load_is",
        "text",
        "",
        "what the load is a share of: straps, hands (body weight), largest share (reference strength)",
        lambda one: one.line.load_is,
    ),
    *_interval("load_{}share", "share", "expected load, 1 is all of it", lambda one: one.line.load),
    *_interval(
        "strap_{}n",
        "N",
        "force of all straps",
        lambda one: one.line.strap_n if one.line.strap else None,
        _NO_STRAP,
    ),
    Column(
        "demand_share",
        "number",
        "share",
        "largest joint moment of the rep held still, as a share of reference strength",
        lambda one: one.line.demand,
    ),
    Column(
        "capacity_share",
        "number",
        "share",
        "what the trainee is taken to manage once, as a share of reference strength",
        lambda one: one.line.capacity,
    ),
    Column(
        "action", "text", "", "the joint action that takes the largest share", lambda one: one.line.action
    ),
    Column(
        "reps_in_reserve",
        "number",
        "reps",
        "reps that could still be done at the end of the set",
        lambda one: one.line.reps_in_reserve,
    ),
    Column("rpe", "number", "", "the same as RPE; empty where that scale no longer counts reps", _rpe),
    Column("rest_s", "number", "s", "rest after the set", lambda one: one.line.rest_s),
    Column("set_s", "number", "s", f"time of the set{_BOTH}", lambda one: one.line.set_s),
    Column("under_load_s", "number", "s", f"time under load{_BOTH}", lambda one: one.line.under_load_s),
    Column("work_j", "number", "J", f"work against gravity{_BOTH}", lambda one: one.line.work_j),
    Column("impulse_ns", "number", "N s", f"impulse of the straps{_BOTH}", lambda one: one.line.impulse_ns),
    *_steps("easier"),
    *_steps("harder"),
    Column("spotter", "yes or no", "", "somebody stands by", lambda one: one.line.spotter),
    Column("pinned", "yes or no", "", "the coach fixed the line", lambda one: one.line.pinned),
    Column("uid", "text", "", "stable name of the line; with set, of the row", lambda one: one.line.uid),
    Column("session_uid", "text", "", "stable name of the session", lambda one: one.session.uid),
    Column("cycle_uid", "text", "", "stable name of the cycle", lambda one: one.cycle.uid),
    Column(
        "revision", "whole number", "", "rises with each edit of the cycle", lambda one: one.cycle.revision
    ),
)
