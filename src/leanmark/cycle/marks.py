"""Floor marks for wanted demands: how a rung's demand and load run over its marks for each trainee, and what
the engine says at the marks that are chosen."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from msgspec.structs import replace

from leanmark.dose.work import RepWork, rep_work
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats, Ints
from leanmark.mechanics.measure import measured, peak_over_rep
from leanmark.mechanics.position import static_loads
from leanmark.mechanics.reasons import FINE
from leanmark.moves.ladder.demand import DEMAND_NODES, Solved, demand_of
from leanmark.moves.people import People, mean_by_position
from leanmark.moves.report_form import Range
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import Held, Stand, held_of, reps_of, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig

MARKS: Final = 9
"""Marks of a rung at which demand is solved before one is chosen; what is chosen is solved again. Own
figure."""
NODES: Final = 3
FINE_M: Final = 0.01
"""Marks are written to a centimetre: the width of a tape's edge."""
EDGE_M: Final = 0.02
"""Kept clear of a mark that cannot be held; own figure, as ``ladder.finer.EDGE_M``."""
LOAD_WITHIN: Final = 0.02
"""What counts as the same load, share of body weight or of strength; own figure."""
TOLERANCES_M: Final = (0.01, 0.15)
"""Least and most tolerance that is written; own figures: a tape's edge, half a foot."""

Wanted = tuple[int, Move, Rung]
"""A person by number, a move and one of its rungs."""


@dataclass(frozen=True)
class Reach:
    """Demand and load of a rung over marks that one person can hold, around the rung's own: mark_m, demand,
    load (M,), marks rising by a centimetre."""

    start_m: float
    mark_m: Floats
    demand: Floats
    load: Floats

    def mark_for(self, wanted: float) -> float:
        """The mark whose demand is nearest to the wanted one, of equals the nearest to the rung's own."""
        miss = np.round(np.abs(np.log(np.maximum(self.demand, 1e-3) / wanted)), 3)
        order = np.lexsort((np.abs(self.mark_m - self.start_m), miss))
        return float(self.mark_m[order[0]])

    def demand_at(self, mark_m: float) -> float:
        """Demand at a mark, between the solved ones on a straight line."""
        return float(np.interp(mark_m, self.mark_m, self.demand))

    def tolerance_m(self, mark_m: float) -> float:
        """How far off a mark keeps the load."""
        if len(self.mark_m) < 2:
            return TOLERANCES_M[1]
        slope = np.gradient(self.load, self.mark_m)
        steep = float(np.abs(np.interp(mark_m, self.mark_m, slope)))
        least, most = TOLERANCES_M
        return float(np.floor(100.0 * np.clip(LOAD_WITHIN / max(steep, 1e-6), least, most)) / 100.0)


def reaches(rig: Rig, people: People, wanted: Sequence[Wanted]) -> dict[tuple[int, str, str], Reach]:
    """The reach of rungs for people; by person, move and rung."""
    groups = _by_rung(wanted)
    stands = [stand(move, rung, rig, people) for move, rung, _ in groups]
    grids = [_grid(move, rung) for move, rung, _ in groups]
    marks = [np.tile(grid, len(who)) for grid, (_, _, who) in zip(grids, groups, strict=True)]
    whose = [np.repeat(who, len(grid)) for grid, (_, _, who) in zip(grids, groups, strict=True)]
    found = reps_of(stands, marks, whose, NODES)
    loads = static_loads([rep for rep, _ in found])
    result: dict[tuple[int, str, str], Reach] = {}
    for standing, grid, (move, rung, who), (rep, position), own in zip(
        stands, grids, groups, found, loads, strict=True
    ):
        one = Solved(move, rung, people, rep, own, position)
        for number, reach in zip(who, _split(standing, one, grid, len(who)), strict=True):
            result[number, move.move, rung.rung] = reach
    return result


def _by_rung(wanted: Sequence[Wanted]) -> list[tuple[Move, Rung, list[int]]]:
    groups: dict[tuple[str, str], tuple[Move, Rung, list[int]]] = {}
    for person, move, rung in wanted:
        members = groups.setdefault((move.move, rung.rung), (move, rung, []))[2]
        if person not in members:
            members.append(person)
    return list(groups.values())


def _grid(move: Move, rung: Rung) -> Floats:
    """Marks to look at: over the rung's range, its own among them."""
    mark = mark_of(move, rung)
    grid: Floats = np.union1d(np.linspace(mark.low_m, mark.high_m, MARKS), [mark.start_m])
    return grid


def _split(standing: Stand, one: Solved, grid: Floats, people: int) -> list[Reach]:
    demand = demand_of(one)
    value = peak_over_rep(measured(one.loads, one.rep.supports, standing.move.load), one.steps)
    load = mean_by_position(value, one.position, one.count)
    start_m = mark_of(standing.move, standing.rung).start_m
    shape = (people, len(grid))
    rows = zip(
        demand.share.reshape(shape), load.reshape(shape), (demand.reason == FINE).reshape(shape), strict=True
    )
    return [_reach(start_m, grid, share, own_load, fine) for share, own_load, fine in rows]


def _reach(start_m: float, grid: Floats, demand: Floats, load: Floats, fine: Floats) -> Reach:
    """The run of marks that can be held around the rung's own, to the centimetre."""
    at = int(np.searchsorted(grid, start_m))
    low = high = at
    while low > 0 and fine[low - 1]:
        low -= 1
    while high < len(grid) - 1 and fine[high + 1]:
        high += 1
    first = grid[low] + (EDGE_M if low > 0 else 0.0)
    last = grid[high] - (EDGE_M if high < len(grid) - 1 else 0.0)
    steps = np.arange(np.ceil(first / FINE_M), np.floor(last / FINE_M) + 1) * FINE_M
    mark_m = np.round(steps, 2) if len(steps) else np.array([start_m])
    run = slice(low, high + 1)
    return Reach(
        start_m, mark_m, np.interp(mark_m, grid[run], demand[run]), np.interp(mark_m, grid[run], load[run])
    )


@dataclass(frozen=True)
class At:
    """What the engine says of one person on one rung at one mark. fine: it can be held. load_is: what
    ``load`` is a share of, a key of ``moves.report_form.LOAD_WORDS``. work: of a rep, (1,) each."""

    fine: bool
    demand: float
    action: str
    load_is: str
    load: Range
    strap_n: Range
    work: RepWork


def solved_marks(
    rig: Rig, people: People, wanted: Mapping[tuple[int, str, str], tuple[Move, Rung, Sequence[float]]]
) -> dict[tuple[int, str, str, float], At]:
    """The engine's answer at chosen marks, by person, move, rung and mark. wanted: by person, move and
    rung."""
    groups: dict[tuple[str, str], list[tuple[int, float]]] = {}
    texts: dict[tuple[str, str], tuple[Move, Rung]] = {}
    for (person, move_name, rung_name), (move, rung, marks) in wanted.items():
        texts[move_name, rung_name] = (move, rung)
        groups.setdefault((move_name, rung_name), []).extend((person, mark) for mark in marks)
    stands = [stand(*texts[key], rig, people) for key in groups]
    whose = [np.array([person for person, _ in places]) for places in groups.values()]
    marks_m = [np.array([mark for _, mark in places]) for places in groups.values()]
    reps = reps_of(stands, marks_m, whose, DEMAND_NODES)
    loads = static_loads([rep for rep, _ in reps])
    found: dict[tuple[int, str, str, float], At] = {}
    for (key, places), standing, who, (rep, position), own in zip(
        groups.items(), stands, whose, reps, loads, strict=True
    ):
        one = Solved(*texts[key], people, rep, own, position)
        answers = _answers(standing, one, who)
        found |= {(p, *key, m): answer for (p, m), answer in zip(places, answers, strict=True)}
    return found


def _answers(standing: Stand, one: Solved, who: Ints) -> list[At]:
    demand, work = demand_of(one), rep_work(one)
    held = held_of(standing, one.rep, one.position, who)
    straps = held if standing.move.load == "straps" else None
    if straps is None and one.rep.supports.straps:
        straps = held_of(_by_straps(standing), one.rep, one.position, who)
    weight_n = [standing.people.builds[person].mass_kg * GRAVITY_M_S2 for person in who]
    return [
        At(
            bool(demand.reason[at] == FINE),
            float(demand.share[at]),
            demand.action[at],
            standing.move.load,
            _range(held, at),
            _range(straps, at, weight_n[at]) if straps else Range(0.0, 0.0, 0.0),
            _one_of(work, at),
        )
        for at in range(len(who))
    ]


def _one_of(work: RepWork, at: int) -> RepWork:
    every = (work.work_j, work.moving_n, work.start_n, work.end_n)
    return RepWork(*(values[at : at + 1] for values in every))


def _by_straps(standing: Stand) -> Stand:
    return dataclasses.replace(standing, move=replace(standing.move, load="straps"))


def _range(held: Held, at: int, times: float = 1.0) -> Range:
    return Range(*(float(values[at]) * times for values in (held.load, held.low, held.high)))
