"""The solver's model against the list schedule that it begins from."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from ortools.sat.python import cp_model
from tests.cycle.floor.squads import ask as ask_of
from tests.cycle.floor.squads import asks, spell

from leanmark.cycle.floor.bound import least_length
from leanmark.cycle.floor.form import FloorAsk
from leanmark.cycle.floor.hint import Hint, hint_of
from leanmark.cycle.floor.list_schedule import list_schedule
from leanmark.cycle.floor.model import build_model, minimise
from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.score import order_cost
from leanmark.cycle.floor.search import is_exact
from leanmark.cycle.floor.simulate import play
from leanmark.cycle.floor.solve import solve
from leanmark.cycle.floor.tasks import Floor, floor_of
from leanmark.cycle.floor.weights import LENGTH_ONLY, usual_weights


@given(asks())
def test_the_list_schedule_is_a_solution_and_costs_what_it_is_said_to(ask: FloorAsk) -> None:
    """With nothing free to move, the model has one answer for starts and places, and walks may only be
    counted upwards: its least cost is the order's."""
    floor = floor_of(ask)
    hint = hint_of(floor, list_schedule(floor))
    horizon_s = max(hint.end_s(task) for task in floor.tasks)
    model = build_model(floor, hint, horizon_s, 0, free=frozenset())
    minimise(model, usual_weights())
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model.cp) == cp_model.OPTIMAL
    assert solver.objective_value == order_cost(floor, hint.order, usual_weights())


@given(asks())
def test_the_solver_never_answers_worse_than_its_first_solution(ask: FloorAsk) -> None:
    floor = floor_of(ask)
    first = list_schedule(floor)
    answer = solve(floor, first, 0, usual_weights(), 0.02)
    assert answer is not None
    assert answer.cost <= order_cost(floor, hint_of(floor, first).order, usual_weights())
    assert answer.cost == order_cost(floor, answer.order, usual_weights())


@given(asks())
def test_where_the_model_is_the_floor_itself_an_order_is_played_as_meant(ask: FloorAsk) -> None:
    floor = floor_of(ask)
    order = list_schedule(floor)
    if is_exact(floor):
        starts_s = {turn.task: turn.start_s for turn in play(floor, order, "as meant") if turn.number == 1}
        assert [starts_s[task.index] for task in floor.tasks] == list(order.starts_s)


@given(asks())
def test_the_least_length_by_arithmetic_is_never_above_the_solver_s(ask: FloorAsk) -> None:
    floor = floor_of(ask)
    if is_exact(floor):
        answer = solve(floor, list_schedule(floor), 0, LENGTH_ONLY, 0.1)
        assert answer is not None
        assert least_length(floor).length_s <= answer.length_s


@given(asks())
def test_first_sets_at_an_anchor_come_one_after_another(ask: FloorAsk) -> None:
    floor = floor_of(ask)
    answer = solve(floor, list_schedule(floor), 0, usual_weights(), 0.02)
    assert answer is not None
    for anchor in floor.anchors:
        here = [task for task in floor.on_straps if answer.order.places[task.index] == anchor]
        here.sort(key=lambda task: answer.order.starts_s[task.index])
        for before, after in pairwise(here):
            gap_s = answer.order.starts_s[after.index] - answer.order.starts_s[before.index]
            assert gap_s >= before.turn_s


def test_alike_anchors_are_named_by_their_first_spell() -> None:
    """Bo has most to do and is listed first, at the first anchor; Ada's spell is the first of the ask. Of
    the two plans that differ in names alone the model allows one."""
    rows = [spell("Ada", "row"), spell("Bo", "row"), spell("Bo", "press")]
    floor = floor_of(ask_of(*rows, anchors=("beam 1", "beam 2"), people_per_anchor=1))
    order = list_schedule(floor)
    hint = hint_of(floor, order)
    assert order.places[0] == 1
    assert hint.order.places[0] == 0
    swapped = Hint(order, (hint.stints[1], hint.stints[0]))
    found = [_status(floor, one) for one in (hint, swapped)]
    assert found == [cp_model.OPTIMAL, cp_model.INFEASIBLE]


def test_no_alike_anchor_is_left_out_before_a_later_one() -> None:
    floor = floor_of(ask_of(*(spell(name, "row") for name in "ABC"), anchors=("beam 1", "beam 2", "beam 3")))
    named = hint_of(floor, Order((0, 1, 2), (0, 0, 0)))
    skipping = Order((0, 2, 1), (0, 0, 0))
    assert named.order.places == hint_of(floor, skipping).order.places
    assert _status(floor, named) == cp_model.OPTIMAL
    assert _status(floor, Hint(skipping, named.stints)) == cp_model.INFEASIBLE


def _status(floor: Floor, hint: Hint) -> object:
    model = build_model(floor, hint, max(hint.end_s(task) for task in floor.tasks), 0, free=frozenset())
    minimise(model, usual_weights())
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return solver.solve(model.cp)
