"""The order of a session against trying every order."""

from __future__ import annotations

from itertools import combinations, pairwise, permutations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leanmark.cycle.order import Item, ordered, strap_changes
from leanmark.cycle.weights import ORDER_WEIGHTS

MOST_TRIED = 6
"""720 orders."""


def items_of(number: int, most: int) -> tuple[Item, ...]:
    """A random session: stretches are slow, as in the library."""
    random = Random(number)
    count = random.randint(0, most)
    kinds = [random.choice(("plain", "plain", "trunk", "mobility")) for _ in range(count)]
    return tuple(
        Item(
            move=f"move {at}",
            demand=round(random.uniform(0.1, 1.0), 1),
            speed=0 if kind == "mobility" else random.choice((0, 0, 1, 2)),
            setting=random.choice(("", "short", "long", "mid-shin")),
            grips=random.random() < 0.5,
            trunk=kind == "trunk",
            mobility=kind == "mobility",
        )
        for at, kind in enumerate(kinds)
    )


def cost(items: list[Item]) -> int:
    """What an order costs, from the table's own words."""
    weight = {name: row.weight for name, row in ORDER_WEIGHTS.items()}
    total = weight["strap changes"] * strap_changes(items)
    for a, b in pairwise(items):
        total += weight["grip spread"] * (a.grips and b.grips)
    for a, b in combinations(items, 2):
        total += weight["demanding work early"] * (b.demand - a.demand > 0.1)
        total += weight["quick work first"] * max(b.speed - a.speed, 0)
        total += weight["trunk late"] * (a.trunk and not b.trunk)
    return total


def kept(items: list[Item]) -> bool:
    """Ballistic work first, stretches last, no more strap changes than the choice of moves paid for."""
    place = [2 if one.mobility else 0 if one.speed == 2 else 1 for one in items]
    paid = len({(one.setting, where) for one, where in zip(items, place, strict=True) if one.setting}) - 1
    return place == sorted(place) and strap_changes(items) <= max(paid, 0)


@settings(max_examples=60)
@given(st.integers(0, 2**32))
def test_up_to_six_moves_are_in_one_of_the_best_orders(number: int) -> None:
    items = items_of(number, MOST_TRIED)
    best = min(cost(list(row)) for row in permutations(items) if kept(list(row)))
    found = [items[at] for at in ordered(items, seed=1)]
    assert sorted(one.move for one in found) == sorted(one.move for one in items)
    assert kept(found)
    assert cost(found) == best


@settings(max_examples=25)
@given(st.integers(0, 2**32))
def test_long_sessions_keep_the_rules_and_change_straps_no_more_than_was_paid_for(number: int) -> None:
    items = items_of(number, 9)
    found = [items[at] for at in ordered(items, seed=1)]
    assert kept(found)


@settings(max_examples=40)
@given(st.integers(0, 2**32))
def test_out_of_time_the_rules_still_hold(number: int) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("leanmark.cycle.order.EFFORT", 0.0)
        items = items_of(number, 9)
        found = [items[at] for at in ordered(items, seed=number)]
    assert kept(found)


def test_a_session_of_none_or_one() -> None:
    one = items_of(3, 1) or items_of(4, 1)
    assert ordered((), 1) == ()
    assert ordered(one[:1], 1) == (0,) * len(one[:1])
    assert strap_changes(()) == 0
