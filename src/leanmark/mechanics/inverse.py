"""From a wanted load to floor marks: every interval of feasible marks, and why it ends where it ends."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.reasons import FINE

Profile = Callable[[Floats, Ints], tuple[Floats, Ints]]
"""Marks (N,) [m] of people (N,) by number, to their loads (N,) and reasons (N,)."""

MARK_TOLERANCE_M: Final = 3e-3
"""Limits of feasible intervals are found to this [m], finer than tape on a floor."""
_SECANTS: Final = 30
"""Steps within a bracket before it counts as a leap of the load; smooth loads take about four."""
LOAD_TOLERANCE: Final = 1e-5
"""Answers meet the wanted load to this."""


@dataclass(frozen=True)
class Scan:
    """Loads of P people over M marks: mark_m (P, M), load (P, M), reason (P, M)."""

    mark_m: Floats
    load: Floats
    reason: Ints


@dataclass(frozen=True)
class Interval:
    """A run of feasible marks of one person: from low_m to high_m, the load there and the reason it ends at
    each side (FINE where only the search ends), and the least and greatest load between."""

    low_m: float
    high_m: float
    low_load: float
    high_load: float
    low_reason: int
    high_reason: int
    least_load: float
    greatest_load: float


@dataclass(frozen=True)
class Answer:
    """A mark that gives the wanted load to one person, with the interval it lies in."""

    mark_m: float
    load: float
    interval: Interval


def scan(profile: Profile, low_m: Floats, high_m: Floats, marks: int) -> Scan:
    """Loads of P people at ``marks`` even steps from low_m to high_m, (P,) each."""
    people = len(low_m)
    grid = low_m[:, None] + (high_m - low_m)[:, None] * np.linspace(0.0, 1.0, marks)
    who = np.repeat(np.arange(people), marks)
    load, reason = profile(grid.reshape(-1), who)
    return Scan(grid, load.reshape(people, marks), reason.reshape(people, marks))


def intervals(profile: Profile, found: Scan) -> list[list[Interval]]:
    """Feasible intervals of every person, limits refined by bisection all at once."""
    edges = _edges(found)
    limits = _bisected(profile, found, edges)
    return [_runs(found, person, limits) for person in range(len(found.mark_m))]


def _edges(found: Scan) -> list[tuple[int, int]]:
    """(person, left mark number) of every change between feasible and not."""
    fine = found.reason == FINE
    people, marks = np.nonzero(fine[:, 1:] != fine[:, :-1])
    return list(zip(people.tolist(), marks.tolist(), strict=True))


def _bisected(
    profile: Profile, found: Scan, edges: list[tuple[int, int]]
) -> dict[tuple[int, int], tuple[float, int, float]]:
    """Per edge: the last feasible mark, the reason beyond it, and the load there."""
    if not edges:
        return {}
    who = np.array([person for person, _ in edges])
    left = np.array([mark for _, mark in edges])
    fine_left = found.reason[who, left] == FINE
    inside = np.where(fine_left, found.mark_m[who, left], found.mark_m[who, left + 1])
    outside = np.where(fine_left, found.mark_m[who, left + 1], found.mark_m[who, left])
    load = np.where(fine_left, found.load[who, left], found.load[who, left + 1])
    reason = np.where(fine_left, found.reason[who, left + 1], found.reason[who, left])
    while np.abs(inside - outside).max() > MARK_TOLERANCE_M:
        middle = 0.5 * (inside + outside)
        value, why = profile(middle, who)
        fine = why == FINE
        inside, outside = np.where(fine, middle, inside), np.where(fine, outside, middle)
        load, reason = np.where(fine, value, load), np.where(fine, reason, why)
    return {
        edge: (float(i), int(r), float(v)) for edge, i, r, v in zip(edges, inside, reason, load, strict=True)
    }


def _runs(
    found: Scan, person: int, limits: dict[tuple[int, int], tuple[float, int, float]]
) -> list[Interval]:
    fine = found.reason[person] == FINE
    steps = np.diff(np.r_[0, fine.astype(int), 0])
    runs = []
    for first, after in zip(np.flatnonzero(steps == 1), np.flatnonzero(steps == -1), strict=True):
        inner = found.load[person, first:after]
        low = limits.get(
            (person, int(first) - 1), (float(found.mark_m[person, first]), FINE, float(inner[0]))
        )
        last = (float(found.mark_m[person, after - 1]), FINE, float(inner[-1]))
        high = limits.get((person, int(after) - 1), last)
        loads = np.r_[low[2], inner, high[2]]
        least, greatest = float(loads.min()), float(loads.max())
        runs.append(Interval(low[0], high[0], low[2], high[2], low[1], high[1], least, greatest))
    return runs


def marks_for(
    profile: Profile, found: Scan, feasible: list[list[Interval]], wanted: Floats
) -> list[list[list[Answer]]]:
    """Every feasible mark at which a person's load is wanted, nearest to the plumb point first: a list by
    person, then by wanted load (W,).

    Crossings on the scan are refined by regula falsi (Illinois rule), all at once. Where the load leaps past
    the wanted one, no mark gives it and none is returned.
    """
    brackets = [
        (number, *bracket)
        for number, load in enumerate(wanted.tolist())
        for bracket in _brackets(found, feasible, load)
    ]
    answers: list[list[list[Answer]]] = [[[] for _ in wanted] for _ in feasible]
    if not brackets:
        return answers
    who = np.array([b[1] for b in brackets])
    goal = wanted[[b[0] for b in brackets]]
    mark, load = _refined(profile, who, np.array([b[2:6] for b in brackets]), goal)
    for (number, person, *_, interval), m, value in zip(brackets, mark, load, strict=True):
        if abs(value - wanted[number]) <= LOAD_TOLERANCE:
            answers[person][number].append(Answer(float(m), float(value), interval))
            answers[person][number].sort(key=lambda answer: abs(answer.mark_m))
    return answers


def _brackets(
    found: Scan, feasible: list[list[Interval]], wanted: float
) -> list[tuple[int, float, float, float, float, Interval]]:
    """(person, low mark, high mark, load there, load there, interval) around every crossing; loads are
    counted from the wanted one."""
    brackets = []
    for person, runs in enumerate(feasible):
        for run in runs:
            inner = (found.mark_m[person] > run.low_m) & (found.mark_m[person] < run.high_m)
            marks = np.r_[run.low_m, found.mark_m[person, inner], run.high_m]
            loads = np.r_[run.low_load, found.load[person, inner], run.high_load] - wanted
            for k in _crossings(loads):
                brackets.append((person, marks[k], marks[k + 1], loads[k], loads[k + 1], run))
    return brackets


def _crossings(loads: Floats) -> Ints:
    """Steps within which a row of numbers passes zero; a zero counts in the step that ends at it, or in the
    first step where the row begins with it."""
    below = loads < 0.0
    passed = (loads[:-1] != 0.0) & ((loads[1:] == 0.0) | (below[1:] != below[:-1]))
    passed[:1] |= loads[:1] == 0.0
    return np.flatnonzero(passed)


def _refined(profile: Profile, who: Ints, ends: Floats, wanted: Floats) -> tuple[Floats, Floats]:
    """Marks and loads within brackets; those that meet the wanted load are left as they are."""
    low, high, below, above = ends.T.copy()
    mark, miss = high.copy(), above.copy()
    for _ in range(_SECANTS):
        rows = np.flatnonzero(np.abs(miss) > LOAD_TOLERANCE)
        if not len(rows):
            break
        gap = above[rows] - below[rows]
        share = np.where(gap == 0.0, 0.5, -below[rows] / np.where(gap == 0.0, 1.0, gap))
        mark[rows] = low[rows] + (high[rows] - low[rows]) * np.clip(share, 0.0, 1.0)
        miss[rows] = profile(mark[rows], who[rows])[0] - wanted[rows]
        same = miss[rows] * above[rows] > 0.0
        below[rows] = np.where(same, 0.5 * below[rows], above[rows])
        low[rows] = np.where(same, low[rows], high[rows])
        high[rows], above[rows] = mark[rows], miss[rows]
    return mark, miss + wanted
