"""Weekly sums of one trainee's plan, as charts take them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leanmark.cycle.dosing import STEADY
from leanmark.cycle.form import Line, Plan, Session
from leanmark.dose.goals import PATTERNS
from leanmark.dose.stages import STAGES
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.moves.library import families


@dataclass(frozen=True)
class Tally:
    """families: F names in the library's order; sets: (F, W); stages: S names; reps: (S, W), one side's where
    a set is done on each side; deload_weeks: weeks whose sessions are all planned easier ones."""

    families: tuple[str, ...]
    sets: Ints
    stages: tuple[str, ...]
    reps: Ints
    deload_weeks: tuple[int, ...]


def tally(plan: Plan, weeks: int) -> Tally:
    """The plan's sets and reps, week by week."""
    lines = [(session.week, line) for session in plan.sessions for line in session.lines]
    named = {line.family for _, line in lines}
    order = [name for name in families() if name in named]
    rows = (*order, *sorted(named.difference(order)))
    sets = np.zeros((len(rows), weeks), dtype=np.intp)
    reps = np.zeros((len(STAGES), weeks), dtype=np.intp)
    for week, line in lines:
        sets[rows.index(line.family), week - 1] += line.sets
        for part in line.parts:
            reps[STAGES.index(part.stage), week - 1] += line.sets * part.reps
    return Tally(rows, sets, tuple(STAGES), reps, deload_weeks(plan))


def deload_weeks(plan: Plan) -> tuple[int, ...]:
    """Weeks whose sessions are all planned easier ones."""
    easy = {session.week for session in plan.sessions if session.deload}
    full = {session.week for session in plan.sessions if not session.deload}
    return tuple(sorted(easy - full))


def places_weeks(plan: Plan) -> Floats:
    """When each session is, in weeks: the sessions of a week spread evenly over it, week 1 from 1 to 2."""
    by_week: dict[int, list[Session]] = {}
    for session in plan.sessions:
        by_week.setdefault(session.week, []).append(session)
    return np.array(
        [
            session.week + (by_week[session.week].index(session) + 0.5) / len(by_week[session.week])
            for session in plan.sessions
        ]
    )


def waves(plan: Plan) -> dict[str, Floats]:
    """The load that each session wants, and the mean demand of the moves that are set to it, as shares of
    capacity; moves trained for steadiness, spring or range are not."""
    wanted = np.array([session.wanted for session in plan.sessions])
    demand = np.array([_mean_share(session.lines) for session in plan.sessions])
    return {"wanted, share of capacity": wanted, "demand of the moves set to it, mean": demand}


def _mean_share(lines: tuple[Line, ...]) -> float:
    each = [(line.demand / line.capacity, PATTERNS.get(line.family)) for line in lines if line.capacity > 0.0]
    set_to_it = [share for share, pattern in each if pattern not in STEADY]
    shares = set_to_it or [share for share, _ in each]
    return float(np.mean(shares)) if shares else 0.0
