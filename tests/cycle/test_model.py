"""The constraint model allows what the rules and wishes allow, no more and no less, and its objective is the
score."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model
from tests.cycle.small_blocks import choices, rules_broken, small_blocks, wishes_broken

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.cost_model import add_cost
from leanmark.cycle.model import model_of
from leanmark.cycle.score import cost

ROUNDING = 1e-6
"""Objectives are whole numbers, up to 10⁷ times a float's last digit here."""


def objective_at(block: Block, sets: Sets) -> float | None:
    """What the model says that a choice costs; None where it forbids it."""
    model = model_of(block)
    scale = add_cost(model)
    for place, variable in model.sets.items():
        model.cp.add(variable == sets.get(place, 0))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(model.cp)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    return solver.objective_value / scale if status == cp_model.OPTIMAL else None


@settings(max_examples=150)
@given(small_blocks, st.data())
def test_a_choice_is_allowed_exactly_where_it_keeps_rules_and_wishes_and_costs_its_score(
    block: Block, data: st.DataObject
) -> None:
    every = list(choices(block))
    sets = data.draw(st.sampled_from(every))
    found = objective_at(block, sets)
    wrong = [*rules_broken(block, sets), *wishes_broken(block, sets)]
    assert (found is None) == bool(wrong), wrong
    if found is not None:
        assert found == pytest.approx(cost(block, sets), abs=ROUNDING)


@settings(max_examples=100)
@given(small_blocks, st.data())
def test_allowed_choices_cost_their_score(block: Block, data: st.DataObject) -> None:
    allowed = [c for c in choices(block) if not rules_broken(block, c) and not wishes_broken(block, c)]
    if allowed:
        sets = data.draw(st.sampled_from(allowed))
        assert objective_at(block, sets) == pytest.approx(cost(block, sets), abs=ROUNDING)
