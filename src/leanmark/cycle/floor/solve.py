"""Solves the model, seeded and on one thread, so that the same ask gives the same order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from ortools.sat.python import cp_model

from leanmark.cycle.floor.hint import hint_of
from leanmark.cycle.floor.model import FloorModel, build_model, minimise
from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.tasks import NOWHERE, Floor
from leanmark.cycle.floor.weights import GoalName

WHOLE_INTERVALS: Final = 120
"""Spells times anchors up to which the model is solved as a whole; own figure, by trial: beyond it, windows
find better plans in the same time."""
MOST_INTERVALS: Final = 1200
"""Spells times anchors above which the solver is not asked: a window alone takes seconds; own figure."""


@dataclass(frozen=True)
class Answer:
    """The solver's order, and what it says of cost and length in its model."""

    order: Order
    proven: bool
    length_s: int
    cost: float
    cost_bound: float


def intervals(floor: Floor) -> int:
    """How large the model would be."""
    return sum(len(task.places) or 1 for task in floor.tasks)


def solve(
    floor: Floor,
    first: Order,
    least_length_s: int,
    weights: Mapping[GoalName, int],
    effort: float,
    free: frozenset[int] | None = None,
) -> Answer | None:
    """The best order found from ``first`` on. effort: deterministic seconds of the solver, the same on every
    machine; free: the tasks that may move, all where not given. None where time ran out before any."""
    hint = hint_of(floor, first)
    horizon_s = max(hint.end_s(task) for task in floor.tasks)
    model = build_model(floor, hint, horizon_s, min(least_length_s, horizon_s), free)
    minimise(model, weights)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = floor.ask.seed
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model.cp)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    length_s = solver.value(model.goals["length"])
    proven = status == cp_model.OPTIMAL
    return Answer(
        _order(model, solver), proven, length_s, solver.objective_value, solver.best_objective_bound
    )


def _order(model: FloorModel, solver: cp_model.CpSolver) -> Order:
    places = tuple(
        next((place for place in task.places if solver.boolean_value(model.at[task.index, place])), NOWHERE)
        for task in model.floor.tasks
    )
    return Order(places, tuple(solver.value(start) for start in model.starts))
