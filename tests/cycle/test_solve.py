"""The solver against trying every choice."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from tests.cycle.small_blocks import least_cost, rules_broken, small_blocks, wishes_broken

from leanmark.cycle.block import Block
from leanmark.cycle.greedy import greedy, keeps_rules
from leanmark.cycle.model import ENOUGH
from leanmark.cycle.score import cost
from leanmark.cycle.solve import solve

ROUNDING = 1e-6
"""Costs are sums of some hundred terms of up to a thousand."""


@settings(max_examples=150)
@given(small_blocks)
def test_small_blocks_are_solved_to_the_best_choice(block: Block) -> None:
    best = least_cost(block)
    found = solve(block, greedy(block), seed=3)
    if best is None:
        assert found is None
        return
    assert found is not None
    assert not rules_broken(block, found.sets)
    assert not wishes_broken(block, found.sets)
    assert found.cost == pytest.approx(cost(block, found.sets))
    assert found.cost == pytest.approx(best, abs=ROUNDING)
    assert found.bound <= best + ROUNDING
    assert found.best


@settings(max_examples=100)
@given(small_blocks)
def test_a_hurried_answer_keeps_rules_and_is_honest_about_its_bound(block: Block) -> None:
    best = least_cost(block)
    found = solve(block, {}, seed=3, effort=1e-9)
    if best is None or found is None:
        assert best is None or found is None
        return
    assert not rules_broken(block, found.sets)
    assert not wishes_broken(block, found.sets)
    assert found.bound - ROUNDING <= best <= found.cost + ROUNDING


@settings(max_examples=100)
@given(small_blocks)
def test_solving_is_never_worse_than_the_hint(block: Block) -> None:
    hint = greedy(block)
    if rules_broken(block, hint) or wishes_broken(block, hint):
        return
    for effort in (1e-9, 0.02, 1.0):
        found = solve(block, hint, seed=3, effort=effort)
        assert found is not None
        assert found.cost <= cost(block, hint) + ROUNDING


@settings(max_examples=150)
@given(small_blocks)
def test_greedy_breaks_no_rule(block: Block) -> None:
    """It may leave two wishes unmet: enough moves, and a move that has to be in."""
    block = replace(block, kept={})
    sets = greedy(block)
    assert not rules_broken(block, sets)
    assert {words for words in wishes_broken(block, sets) if "has to be in" not in words} <= {ENOUGH}


@settings(max_examples=150)
@given(small_blocks)
def test_a_start_is_taken_exactly_where_it_keeps_rules_and_wishes(block: Block) -> None:
    block = replace(block, kept={})
    sets = greedy(block)
    assert keeps_rules(block, sets) == (not rules_broken(block, sets) and not wishes_broken(block, sets))
