"""A person on a rig in a move: loads of marks, marks of loads, each with its interval and reasons."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.body.added_mass import AddedMass, with_added_mass
from leanmark.body.bodies import Bodies
from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.dynamics import REP_NODES
from leanmark.mechanics.interval import DEFAULT_UNCERTAINTY, Uncertainty, spread
from leanmark.mechanics.inverse import Answer, Interval, Scan, intervals, marks_for, scan
from leanmark.mechanics.measure import measured, peak_over_rep
from leanmark.mechanics.position import Rep, solve_rep, solve_reps, solving
from leanmark.mechanics.reasons import FINE
from leanmark.mechanics.rep import lobatto_nodes
from leanmark.mechanics.task import Geometry, PushUse, Task
from leanmark.moves.known import pressures
from leanmark.moves.people import People, mean_by_position
from leanmark.moves.schema import Move, Rung
from leanmark.moves.translate import mark_of, strap_setting, task_of
from leanmark.rig.rig import Rig

SCAN_MARKS: Final = 21
"""Marks looked at between the ends of a move's range before limits and crossings are refined."""
SCAN_NODES: Final = 3
"""Poses looked at in a rep for its largest held load: start, middle and end."""


@dataclass(frozen=True)
class Stand:
    """One rung on one rig for some people, ready to be asked.

    strap_m: strap length, anchor to strap end [m], one for all. pressure: (P, 3) where each person's pressure
    sits in this move: believed, least and greatest place.
    """

    move: Move
    rung: Rung
    rig: Rig
    people: People
    task: Task
    strap_m: float
    pressure: Floats

    def geometry(self, mark_m: Floats) -> Geometry:
        """The kit at marks (N,)."""
        count = len(mark_m)
        anchor = np.tile([0.0, 0.0, self.rig.anchor_height_m], (count, 1))
        ratio = None
        if self.rig.strap_mode == "slipping loop":
            ratio = float(np.exp(np.pi * self.rig.loop_friction))
        return Geometry(
            anchor,
            np.full(count, self.strap_m),
            np.asarray(mark_m, dtype=float),
            self.rig.handle_offset_m,
            self.rig.cradle_offset_m,
            self.rig.floor_friction,
            ratio,
        )

    def nodes(self, count: int) -> Floats:
        """Nodes of the rep: one for a hold, else ``count`` from start to end."""
        return np.zeros(1) if self.task.still else lobatto_nodes(count)

    def rep(self, mark_m: Floats, who: Ints, nodes: int = REP_NODES) -> tuple[Rep, Ints]:
        """Solved reps of the people ``who`` (N,) at marks (N,): a row for each table of each person, and
        the position (N,) that each row belongs to."""
        return reps_of([self], [mark_m], [who], nodes)[0]

    def known_of(self, who: Ints, unknown: Uncertainty) -> Uncertainty:
        """What is still unknown of each row (N,) of people: readings narrow the mass centre."""
        com_share = np.minimum(unknown.com_share, self.people.com_deviation[who])
        return replace(unknown, com_share=com_share)

    def profile(self, mark_m: Floats, who: Ints) -> tuple[Floats, Ints]:
        """Largest held load over the rep (N,) and the first reason against the position (N,)."""
        rep, position = self.rep(mark_m, who, SCAN_NODES)
        loads = rep.static_loads()
        value = peak_over_rep(measured(loads, rep.supports, self.move.load), len(rep.nodes))
        worst = _first_reason(rep.reasons(loads))
        reason = np.full(len(mark_m), FINE, dtype=np.intp)
        reason[position[worst != FINE]] = worst[worst != FINE]
        return mean_by_position(value, position, len(mark_m)), reason

    def scanned(self, marks: int = SCAN_MARKS) -> Scan:
        """Loads of all the people over the rung's range of marks."""
        mark = mark_of(self.move, self.rung)
        low, high = (np.full(len(self.people), end) for end in (mark.low_m, mark.high_m))
        return scan(self.profile, low, high, marks)


def reps_of(
    stands: Sequence[Stand], marks_m: Sequence[Floats], who: Sequence[Ints], nodes: int = REP_NODES
) -> list[tuple[Rep, Ints]]:
    """``Stand.rep`` of several stands side by side, which is quicker than one after another."""
    solvings, belongs = [], []
    for standing, mark_m, own in zip(stands, marks_m, who, strict=True):
        rows, position = standing.people.rows(own)
        bodies, geometry = standing.people.bodies.take(rows), standing.geometry(mark_m[position])
        solvings.append(solving(standing.task, bodies, geometry, standing.nodes(nodes)))
        belongs.append(position)
    found = []
    for standing, own, position, rep in zip(stands, who, belongs, solve_reps(solvings), strict=True):
        pressure = np.repeat(standing.pressure[own[position]], len(rep.nodes), axis=0)
        found.append((replace(rep, pressure=pressure), position))
    return found


def _first_reason(reasons: Ints) -> Ints:
    """The first reason met along each rep, (N, K) to (N,)."""
    first = (reasons != FINE).argmax(axis=1)
    picked: Ints = np.take_along_axis(reasons, first[:, None], axis=1)[:, 0]
    return picked


def stand(
    move: Move,
    rung: Rung,
    rig: Rig,
    people: People,
    strap_m: float | None = None,
    setting: str | None = None,
    added: Sequence[AddedMass] = (),
    pushes: Sequence[PushUse] = (),
) -> Stand:
    """Put people on a rig in a rung. The strap's length is given, or the named or the rung's own setting.

    added: masses that everyone wears; pushes: a partner's, in world axes.

    Raises FieldError for a strap outside the rig's range and for what ``task_of`` cannot read.
    """
    if strap_m is None:
        strap_m = rig.strap_length_m(setting or strap_setting(move, rung))
    elif not rig.strap_shortest_m <= strap_m <= rig.strap_longest_m:
        raise FieldError(
            "strap_m",
            strap_m,
            f"{rig.strap_shortest_m:g} to {rig.strap_longest_m:g}",
            "give a length that the straps of this rig have",
        )
    for worn in added:
        people = replace(people, bodies=with_added_mass(people.bodies, worn))
    task = task_of(move, rung)
    task = replace(task, pushes=(*task.pushes, *pushes))
    return Stand(move, rung, rig, people, task, strap_m, pressures(people.known, move.move))


@dataclass(frozen=True)
class Held:
    """Held loads at N marks: load (N,) with low and high (N,), and the reason against it (N,)."""

    load: Floats
    low: Floats
    high: Floats
    reason: Ints


def held_loads(
    standing: Stand, mark_m: Floats, who: Ints, unknown: Uncertainty = DEFAULT_UNCERTAINTY
) -> Held:
    """The largest held load over the rep at each mark, with the interval that the pressure's place, the
    segment tables and measuring errors allow."""
    rep, position = standing.rep(mark_m, who, SCAN_NODES)
    return held_of(standing, rep, position, who, unknown)


def held_of(
    standing: Stand, rep: Rep, position: Ints, who: Ints, unknown: Uncertainty = DEFAULT_UNCERTAINTY
) -> Held:
    """``held_loads`` of positions already solved, by people ``who`` (N,): their reps, and the position (N,)
    of each row."""
    steps, measure = len(rep.nodes), standing.move.load
    balance = rep.balance()
    in_straps = measure == "straps" and bool(rep.supports.straps)
    loads, *ends = rep.loads_within(balance) if in_straps else (rep.loads(balance),)
    value, *reached = (
        peak_over_rep(measured(found, rep.supports, measure), steps) for found in (loads, *ends)
    )
    still_unknown = standing.known_of(who[position], unknown)
    half = spread(_solver(standing, SCAN_NODES), rep_bodies(rep), rep_geometry(rep), still_unknown)
    low = np.maximum(np.min([value, *reached], axis=0) - half, 0.0)
    high = np.max([value, *reached], axis=0) + half
    worst = _first_reason(rep.reasons(loads))
    count = len(who)
    reason = np.full(count, FINE, dtype=np.intp)
    reason[position[worst != FINE]] = worst[worst != FINE]
    return Held(
        mean_by_position(value, position, count),
        _by_position(np.minimum, low, position, count, np.inf),
        _by_position(np.maximum, high, position, count, -np.inf),
        reason,
    )


def _by_position(pick: np.ufunc, values: Floats, position: Ints, count: int, empty: float) -> Floats:
    out = np.full(count, empty)
    pick.at(out, position, values)
    return out


def rep_bodies(rep: Rep) -> Bodies:
    """The people of a rep's positions, one row each instead of one a node."""
    return rep.bodies.take(np.arange(rep.count) * len(rep.nodes))


def rep_geometry(rep: Rep) -> Geometry:
    """The settings of a rep's positions, one row each instead of one a node."""
    return rep.geometry.take(np.arange(rep.count) * len(rep.nodes))


def _solver(standing: Stand, nodes: int) -> Callable[[Bodies, Geometry], Floats]:
    steps = len(standing.nodes(nodes))

    def solve(bodies: Bodies, geometry: Geometry) -> Floats:
        rep = solve_rep(standing.task, bodies, geometry, standing.nodes(steps))
        loads = rep.static_loads()
        return peak_over_rep(measured(loads, rep.supports, standing.move.load), steps)

    return solve


@dataclass(frozen=True)
class MarkAnswer:
    """Where one person stands for one wanted load: the answers, or none with the reasons and what the
    feasible marks offer instead."""

    wanted: float
    answers: list[Answer]
    feasible: list[Interval]
    scan_reason: int


def marks(standing: Stand, wanted: Floats) -> list[list[MarkAnswer]]:
    """Marks of every person (P) for every wanted load (W,): a list by person, then by load."""
    found = standing.scanned()
    feasible = intervals(standing.profile, found)
    answers = marks_for(standing.profile, found, feasible, wanted)
    return [
        [
            MarkAnswer(
                float(load), answers[person][k], feasible[person], _common_reason(found.reason[person])
            )
            for k, load in enumerate(wanted)
        ]
        for person in range(len(standing.people))
    ]


def _common_reason(reasons: Ints) -> int:
    """The reason met at most marks, FINE if none."""
    wrong = reasons[reasons != FINE]
    return int(np.bincount(wrong).argmax()) if len(wrong) else FINE
