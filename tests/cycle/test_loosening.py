"""Loosening a wish never makes the plan worse.

The yardstick is the looser wish's own: a knee that may be loaded again, or more minutes, asks for more than
before. By that yardstick the tight plan stays possible, so that the best of the looser question is at least
as good, and the bound is not above it. A plan is seldom proved the best, so that the plans found may differ
within their gaps; a start from the tight plan is never left for a worse one. A move that has to be in and a
like add no goals when they go, so that the plans are compared by one yardstick, strictly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from tests.cycle.pool import LOW
from tests.cycle.squads import Drawn, gates, squads

from leanmark.cycle.choose import choose
from leanmark.cycle.frames import blocks, planned
from leanmark.cycle.greedy import keeps_rules
from leanmark.cycle.person import Person
from leanmark.cycle.score import cost
from leanmark.cycle.solve import solve
from leanmark.squad.wishes import DEFAULT_KIT

ROUNDING = 1e-6


def wishing(person: Person, **changed: Any) -> Person:  # noqa: ANN401
    wishes = replace(person.trainee.wishes, **changed)
    return replace(person, trainee=replace(person.trainee, wishes=wishes))


LOOSER: dict[str, Callable[[Person], Person]] = {
    "an avoid less": lambda one: wishing(one, avoid=one.trainee.wishes.avoid[1:]),
    "no pain": lambda one: wishing(one, pain=()),
    "more minutes": lambda one: wishing(one, minutes=one.minutes + 20.0),
    "all gates": lambda one: wishing(one, gates=gates()),
    "more kit": lambda one: replace(one, kit=one.kit | DEFAULT_KIT | {"partner"}),
    "nothing has to be in": lambda one: wishing(one, must=()),
    "a like less": lambda one: wishing(one, likes=one.trainee.wishes.likes[1:]),
}


SAME_GOALS = ("nothing has to be in", "a like less")


@pytest.mark.parametrize("what", LOOSER)
def test_a_looser_wish_leaves_the_plan_possible_and_no_dearer(what: str) -> None:
    @settings(max_examples=20, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow])
    @given(squads(1))
    def no_worse(drawn: Drawn) -> None:
        tight = drawn.persons()[0]
        found = choose(tight, effort=LOW).solved
        if not found or found[0].clash:
            return
        question, choice = found[0].planned.block, found[0].choice
        loose = LOOSER[what](tight)
        block = planned(loose, blocks(loose, ())[0], (), None, {}).block
        number = {option.move: at for at, option in enumerate(block.options)}
        same = {(frame, number[question.options[o].move]): n for (frame, o), n in choice.sets.items()}
        assert keeps_rules(block, same)
        if what in SAME_GOALS:
            assert cost(block, same) <= choice.cost + ROUNDING
        again = solve(block, same, seed=1, effort=LOW)
        assert again is not None
        assert again.bound - ROUNDING <= again.cost <= cost(block, same) + ROUNDING

    no_worse()
