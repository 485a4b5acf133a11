"""From an ask to the best session found: list schedule, solver, trials."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from msgspec import structs

from leanmark.cycle.floor.bound import Bound, least_length
from leanmark.cycle.floor.form import Solved, SolvedHow
from leanmark.cycle.floor.list_schedule import list_schedule
from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.polish import polished
from leanmark.cycle.floor.score import cost, length_s, order_cost
from leanmark.cycle.floor.simulate import ENTRIES, Played, play
from leanmark.cycle.floor.solve import MOST_INTERVALS, WHOLE_INTERVALS, intervals, solve
from leanmark.cycle.floor.tasks import Floor
from leanmark.cycle.floor.weights import LENGTH_ONLY, GoalName
from leanmark.cycle.floor.windows import better_by_windows

WHOLE_EFFORT: Final = 0.3
"""Deterministic seconds for the model as a whole; own figure: a few seconds on a clock."""
WINDOWS: Final = 12
"""How many windows a large plan is bettered in; own figure: two to three seconds for thirty people."""
PATIENCES_S: Final = (30, 60, 120, 240)
"""How long a change of setting is put off in the list schedules that the search may begin from; own
figures."""
TRIAL_TURNS: Final = 600_000
"""How many sets are played in trials; own figure: two to four seconds."""
MOST_TRIALS: Final = 1500
"""More trials than that better little; own figure, by trial."""


@dataclass(frozen=True)
class Found:
    """The session to show and the list schedule's, as played; what the solver says; the least length."""

    turns: list[Played]
    list_turns: list[Played]
    solved: Solved
    bound: Bound


def search(floor: Floor, weights: Mapping[GoalName, int], effort: float) -> Found:
    """The cheapest session found that is no longer than the list schedule. effort: 1 as usual, 0 for the list
    schedule alone."""
    bound = least_length(floor)
    first = list_schedule(floor)
    listed = [play(floor, first, entry) for entry in ENTRIES]
    list_turns = min(listed, key=lambda one: cost(floor, one, weights))
    if intervals(floor) > MOST_INTERVALS or effort <= 0.0:
        return Found(list_turns, list_turns, _unsolved(floor, first, weights, bound), bound)
    first = _first(floor, first, length_s(list_turns), weights)
    order, solved = _solve(floor, first, weights, bound, effort)
    best = _best(floor, [order], list_turns, weights)
    if not (solved.exact and solved.how == "best possible"):
        trials = round(effort * min(MOST_TRIALS, TRIAL_TURNS / len(list_turns)))
        start = min(first, order, key=lambda one: cost(floor, play(floor, one, "at once"), weights))
        tried = polished(floor, start, weights, length_s(list_turns), trials)
        best = _best(floor, [order, tried], list_turns, weights)
    if solved.exact:
        bound = replace(bound, length_s=max(bound.length_s, int(solved.length_bound_s)))
    return Found(best, list_turns, solved, bound)


def _first(floor: Floor, listed: Order, longest_s: int, weights: Mapping[GoalName, int]) -> Order:
    """The cheapest list schedule as played, of several patiences, that is not longer than the impatient
    one."""
    patient = [listed, *(list_schedule(floor, patience_s) for patience_s in PATIENCES_S)]
    fit = [one for one in patient if length_s(play(floor, one, "at once")) <= longest_s]
    return min(fit or [listed], key=lambda one: cost(floor, play(floor, one, "at once"), weights))


def _best(
    floor: Floor, orders: list[Order], list_turns: list[Played], weights: Mapping[GoalName, int]
) -> list[Played]:
    """The cheapest of the orders as played that is not longer than the list schedule, which is one of
    them."""
    played = [list_turns, *(play(floor, order, entry) for order in orders for entry in ENTRIES)]
    fit = [one for one in played if length_s(one) <= length_s(list_turns)]
    return min(fit, key=lambda one: cost(floor, one, weights))


def _solve(
    floor: Floor, first: Order, weights: Mapping[GoalName, int], bound: Bound, effort: float
) -> tuple[Order, Solved]:
    """The solver's order and what it says: a small model as a whole; where that is not proven best, or the
    model is large, in windows."""
    said = _unsolved(floor, first, weights, bound)
    order, first_cost = first, said.cost
    if intervals(floor) <= WHOLE_INTERVALS:
        order, said = _solve_whole(floor, first, weights, said, effort)
    if said.how != "best possible":
        order = better_by_windows(floor, order, int(said.length_bound_s), weights, round(effort * WINDOWS))
        now = _unsolved(floor, order, weights, bound)
        how: SolvedHow = "good" if now.cost < first_cost else "list schedule"
        said = structs.replace(said, how=how, length_s=now.length_s, cost=now.cost)
    return order, said


def _solve_whole(
    floor: Floor, first: Order, weights: Mapping[GoalName, int], said: Solved, effort: float
) -> tuple[Order, Solved]:
    """The model as a whole; where it is the floor itself, first for the least length that binds every
    plan."""
    least_s = int(said.length_bound_s)
    if said.exact:
        shortest = solve(floor, first, least_s, LENGTH_ONLY, effort * WHOLE_EFFORT)
        least_s = max(least_s, round(shortest.cost_bound)) if shortest else least_s
    answer = solve(floor, first, least_s, weights, effort * WHOLE_EFFORT)
    if answer is None:
        return first, structs.replace(said, length_bound_s=float(least_s))
    how: SolvedHow = "best possible" if answer.proven else "good"
    length_s = float(answer.length_s)
    return answer.order, Solved(how, length_s, float(least_s), answer.cost, answer.cost_bound, said.exact)


def _unsolved(floor: Floor, order: Order, weights: Mapping[GoalName, int], bound: Bound) -> Solved:
    """What can be said of an order without the solver: its cost in the model, and the least length's."""
    return Solved(
        "list schedule",
        float(max(order.starts_s[task.index] + task.length_s for task in floor.tasks)),
        float(bound.length_s),
        float(order_cost(floor, order, weights)),
        float(weights["length"] * bound.length_s),
        is_exact(floor),
    )


def is_exact(floor: Floor) -> bool:
    """Whether the model is the floor itself: one spell at a time at an anchor, since only one person may
    use it or every spell is a single set; one setting; and rests that outlast handing the strap over."""
    straps = floor.on_straps
    alone = floor.sharing == 1 or all(task.sets == 1 for task in straps)
    one_setting = len({task.setting for task in straps}) <= 1
    return alone and one_setting and all(task.rest_s >= task.swap_s for task in straps)
