"""From the tables of a squad file to plain wishes: defaults filled in, the squad's values under a trainee's
own."""

from __future__ import annotations

import datetime as dt
from typing import TypeVar

from msgspec import UNSET, UnsetType

from leanmark.squad.cycle_table import DAY_NAMES, CycleTable, DayName
from leanmark.squad.trainee_table import GateTable, TraineeTable
from leanmark.squad.wishes import CycleWishes, GatePassed, PainNote, TrainingWishes

_T = TypeVar("_T")


def cycle_from(table: CycleTable, squad: str) -> CycleWishes:
    """The cycle as wanted; it is called like the squad where it has no name of its own."""
    return CycleWishes(
        name=_or(table.name, squad),
        starts=table.starts,
        weeks=table.weeks,
        days=_numbers(table.days),
        sessions=_or(table.sessions, len(table.days)),
        time=table.time,
        zone=table.zone,
        minutes=table.minutes,
        goal=table.goal,
        wave=_or(table.wave, None),
        days_off=_dates(table.days_off),
        seed=table.seed,
    )


def wishes_from(table: TraineeTable, cycle: CycleTable | None) -> TrainingWishes:
    """A trainee's wishes; what a cycle says of all counts where the trainee says nothing."""
    days = cycle.days if cycle and table.days is UNSET else _or(table.days, None)
    return TrainingWishes(
        group=_or(table.group, ""),
        goal=_or(table.goal, cycle.goal if cycle else None),
        emphasis=_words(table.emphasis),
        level=_or(table.level, None),
        levels=dict(_or(table.levels, {})),
        gates=tuple(_gate(gate) for gate in _or(table.gates, [])),
        avoid=_words(table.avoid),
        pain=tuple(PainNote(pain.place, pain.note) for pain in _or(table.pain, [])),
        likes=_words(table.likes),
        dislikes=_words(table.dislikes),
        must=_words(table.must),
        days=None if days is None else _numbers(days),
        minutes=_or(table.minutes, cycle.minutes if cycle else None),
        sessions=_sessions(table, cycle),
        days_off=_dates(table.days_off) | (_dates(cycle.days_off) if cycle else frozenset()),
    )


def _sessions(table: TraineeTable, cycle: CycleTable | None) -> int | None:
    """Sessions a week: the trainee's own, else as many as the squad has and the trainee's days allow."""
    if table.sessions is not UNSET:
        return table.sessions
    if cycle is None:
        return None
    days = len(_or(table.days, cycle.days))
    return min(_or(cycle.sessions, days), days)


def _gate(table: GateTable) -> GatePassed:
    return GatePassed(table.move, table.rung, _or(table.hold_s, None), _or(table.reps, None), table.stage)


def _numbers(days: list[DayName]) -> tuple[int, ...]:
    return tuple(sorted(DAY_NAMES.index(day) for day in days))


def _dates(days: list[dt.date] | UnsetType) -> frozenset[dt.date]:
    return frozenset(_or(days, []))


def _words(words: list[str] | UnsetType) -> tuple[str, ...]:
    return tuple(_or(words, []))


def _or(value: _T | UnsetType, default: _T) -> _T:
    return default if isinstance(value, UnsetType) else value
