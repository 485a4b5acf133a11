"""Solve a block: the best choice found, and the least that any choice can cost.

The whole model gives the bound and, for small questions, the answer. Large ones are bettered part by part:
all stays but one pattern, one session, two patterns, or the number of sets, and the same model is solved for
what is free (large neighbourhood search: Shaw 1998, CP 98, LNCS 1520:417, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from random import Random
from typing import Final

from ortools.sat.python import cp_model

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.cost_model import add_cost
from leanmark.cycle.greedy import keeps_rules
from leanmark.cycle.model import model_of
from leanmark.cycle.score import cost

EFFORT: Final = 1.0
"""How long the solver works at a block, 1 being the usual; it counts in deterministic time, the same on every
machine, so that the same seed gives the same plan."""
_WHOLE: Final = 0.06
_PART: Final = 0.03
_FEASIBLE: Final = 2.0
"""Deterministic times for the whole model, a part, and any plan at all; own figures."""
_PARTS: Final = 24
"""Parts that are tried at most; own figure."""
_BETTER: Final = 1e-6

Place = tuple[int, int]


@dataclass(frozen=True)
class Part:
    """What is free to change: the moves of some patterns, those of one frame, or the sets of those that are
    done."""

    patterns: tuple[str, ...] = ()
    frame: int | None = None
    done: bool = False

    def free(self, block: Block, sets: Sets, place: Place) -> bool:
        """Whether a place is free."""
        if self.done and sets.get(place):
            return True
        return place[0] == self.frame or block.options[place[1]].pattern in self.patterns


@dataclass(frozen=True)
class Choice:
    """sets: of every place that is done; cost: of all goals; bound: no choice costs less."""

    sets: Sets
    cost: float
    bound: float

    @property
    def best(self) -> bool:
        """Whether it is proved that no choice is better."""
        return self.cost <= self.bound + _BETTER


def solver(seed: int, effort: float) -> cp_model.CpSolver:
    """A solver that gives the same answer each time."""
    made = cp_model.CpSolver()
    made.parameters.random_seed = seed % 2**31
    made.parameters.num_workers = 1
    made.parameters.max_deterministic_time = effort
    return made


def solve(block: Block, hint: Sets, seed: int, effort: float = EFFORT) -> Choice | None:
    """The best choice found; None where the wishes clash. hint: a choice to start from."""
    whole = _solved(block, hint, seed, _WHOLE * effort)
    if whole is None:
        return None
    sets, bound = whole
    if keeps_rules(block, hint) and (sets is None or cost(block, hint) < cost(block, sets)):
        sets = hint
    if sets is None:
        sets = _any_plan(block, seed)
        if sets is None:
            return None
    if cost(block, sets) > bound + _BETTER:
        sets = _bettered(block, sets, seed, effort)
    found = cost(block, sets)
    return Choice(sets, found, min(bound, found))


def _solved(
    block: Block, hint: Sets, seed: int, effort: float, *, quick: bool = False
) -> tuple[Sets | None, float] | None:
    """A choice, if one was found, and the bound; None where there is proved to be none. quick: without the
    preparations that pay for large questions alone."""
    model = model_of(block)
    scale = add_cost(model)
    for place, sets in model.sets.items():
        model.cp.add_hint(sets, hint.get(place, 0))
        model.cp.add_hint(model.does[place], bool(hint.get(place, 0)))
    made = solver(seed, effort)
    made.parameters.linearization_level = 2
    if quick:
        made.parameters.cp_model_presolve = False
    status = made.solve(model.cp)
    if status == cp_model.INFEASIBLE:
        return None
    bound = max(made.best_objective_bound / scale, 0.0)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None if status == cp_model.MODEL_INVALID else (None, bound)
    return {place: int(made.value(n)) for place, n in model.sets.items() if made.value(n)}, bound


def _any_plan(block: Block, seed: int) -> Sets | None:
    """Any choice that keeps all rules and wishes, whatever it costs."""
    model = model_of(block)
    made = solver(seed, _FEASIBLE)
    if made.solve(model.cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {place: int(made.value(n)) for place, n in model.sets.items() if made.value(n)}


def _bettered(block: Block, sets: Sets, seed: int, effort: float) -> Sets:
    """The choice, bettered part by part until a round over all parts betters nothing or time is up."""
    best, price = sets, cost(block, sets)
    left = max(int(_PARTS * effort), 1)
    random = Random(seed)
    while left > 0:
        before = price
        for freed in _parts(block, random):
            part = _solved(_only(block, best, freed), best, seed, _PART, quick=True)
            left -= 1
            if part and part[0] is not None and cost(block, part[0]) < price - _BETTER:
                best, price = part[0], cost(block, part[0])
            if left <= 0:
                break
        if price >= before - _BETTER:
            break
    return best


def _parts(block: Block, random: Random) -> Iterator[Part]:
    """Patterns, the sets alone, sessions, pairs of patterns."""
    patterns = sorted({option.pattern for option in block.options})
    pairs = list(combinations(patterns, 2))
    yield from (Part(patterns=(pattern,)) for pattern in patterns)
    yield Part(done=True)
    yield from (Part(frame=frame) for frame in range(len(block.frames)))
    yield from (Part(patterns=pair) for pair in random.sample(pairs, min(len(pairs), len(patterns))))


def _only(block: Block, sets: Sets, part: Part) -> Block:
    """The block with everything fixed but a part."""
    fixed = [place for place in block.places() if not part.free(block, sets, place)]
    return replace(
        block,
        kept={**block.kept, **{place: sets[place] for place in fixed if sets.get(place)}},
        dropped=block.dropped | {place for place in fixed if not sets.get(place)},
    )
