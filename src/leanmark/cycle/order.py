"""The order of a session's moves: quick work first, demanding work early, trunk late, few strap changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, pairwise, permutations
from typing import Final

from ortools.sat.python import cp_model
from ortools.sat.python.cp_model import CpModel, IntVar, LinearExpr

from leanmark.cycle.block import BALLISTIC, MAIN, STRETCHES
from leanmark.cycle.solve import solver
from leanmark.cycle.weights import ORDER_WEIGHTS

ALIKE: Final = 0.1
"""Shares of strength that differ by less count as equally demanding; own figure."""
EFFORT: Final = 0.2
"""Deterministic time of the solver for one session; a session of nine moves takes about a tenth of it."""


@dataclass(frozen=True)
class Item:
    """One move of a session. demand: share of reference strength, to one decimal; speed: 0 controlled, 1
    fast, 2 ballistic; setting: of the strap, empty where none is used."""

    move: str
    demand: float
    speed: int
    setting: str
    grips: bool
    trunk: bool
    mobility: bool

    @property
    def part(self) -> int:
        """The part of the session that it belongs to, as ``Option.hangs`` has it."""
        return STRETCHES if self.mobility else BALLISTIC if self.speed == FASTEST else MAIN


def ordered(items: Sequence[Item], seed: int) -> tuple[int, ...]:
    """Numbers of the items in the best order."""
    return _solved(tuple(items), seed)


def wrong_pairs(first: Item, second: Item) -> dict[str, int]:
    """What it costs, by goal, that one item comes anywhere before another; amounts, not weighted."""
    return {
        "demanding work early": int(second.demand - first.demand > ALIKE),
        "quick work first": max(second.speed - first.speed, 0),
        "trunk late": int(first.trunk and not second.trunk),
    }


def never_before(first: Item, second: Item) -> bool:
    """Whether a rule forbids that one item comes before another: ballistic reps are done fresh, stretches at
    the end."""
    return first.part > second.part


FASTEST: Final = 2


def strap_changes(items: Sequence[Item]) -> int:
    """How often the strap is set anew, items being in order; moves without a strap leave it as it hangs."""
    settings = [item.setting for item in items if item.setting]
    return sum(a != b for a, b in pairwise(settings))


@cache
def _solved(items: tuple[Item, ...], seed: int) -> tuple[int, ...]:
    if len(items) < 2:
        return tuple(range(len(items)))
    cp = CpModel()
    place = [cp.new_int_var(0, len(items) - 1, f"place {item.move}") for item in items]
    cp.add_all_different(place)
    costs = [*_before_costs(cp, items, place), *_follow_costs(cp, items, place)]
    cp.minimize(LinearExpr.sum(costs))
    made = solver(seed, EFFORT)
    if made.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return _by_rule(items)
    return tuple(sorted(range(len(items)), key=lambda number: made.value(place[number])))


def _by_rule(items: tuple[Item, ...]) -> tuple[int, ...]:
    """An order that keeps the hard rules, where the solver ran out of time."""
    key = [(item.part, item.setting, item.trunk) for item in items]
    return tuple(sorted(range(len(items)), key=lambda number: key[number]))


def _before_costs(cp: CpModel, items: tuple[Item, ...], place: list[IntVar]) -> list[LinearExpr]:
    """Costs of all pairs, whichever comes first."""
    costs: list[LinearExpr] = []
    for a, b in combinations(range(len(items)), 2):
        before = cp.new_bool_var(f"{a} before {b}")
        cp.add(place[a] < place[b]).only_enforce_if(before)
        cp.add(place[b] < place[a]).only_enforce_if(~before)
        for first, second, literal in ((a, b, before), (b, a, ~before)):
            if never_before(items[first], items[second]):
                cp.add_bool_or([~literal])
            wrong = wrong_pairs(items[first], items[second])
            costs.append(sum(ORDER_WEIGHTS[goal].weight * n for goal, n in wrong.items()) * literal)
    return costs


def _follow_costs(cp: CpModel, items: tuple[Item, ...], place: list[IntVar]) -> list[LinearExpr]:
    """Costs of what directly follows what: tired grip, strap changes, of which there are no more than the
    choice of moves has time for."""
    names = sorted({item.setting for item in items if item.setting}) or [""]
    hangs = [
        cp.new_constant(names.index(item.setting))
        if item.setting
        else cp.new_int_var(0, len(names) - 1, "hangs")
        for item in items
    ]
    changes: list[IntVar] = []
    costs: list[LinearExpr] = []
    for a, b in permutations(range(len(items)), 2):
        follows = _follows(cp, place[a], place[b])
        if items[a].grips and items[b].grips:
            costs.append(ORDER_WEIGHTS["grip spread"].weight * follows)
        change = cp.new_bool_var(f"change {a} {b}")
        cp.add(hangs[a] == hangs[b]).only_enforce_if(follows, ~change)
        changes.append(change)
    kinds = {(item.setting, item.part) for item in items if item.setting}
    cp.add(LinearExpr.sum([*changes]) <= max(len(kinds) - 1, 0))
    return [*costs, *(ORDER_WEIGHTS["strap changes"].weight * change for change in changes)]


def _follows(cp: CpModel, first: IntVar, second: IntVar) -> IntVar:
    follows = cp.new_bool_var("follows")
    cp.add(second - first == 1).only_enforce_if(follows)
    cp.add(second - first != 1).only_enforce_if(~follows)
    return follows
