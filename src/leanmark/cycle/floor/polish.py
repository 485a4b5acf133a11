"""Betters a plan by trial: move one spell, or change two about, play the session set by set, keep what is
hardly worse. What it judges by is the session as it is shown, not the solver's model."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from typing import Final

from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.score import cost, length_s
from leanmark.cycle.floor.simulate import Played, play
from leanmark.cycle.floor.tasks import Floor, Task
from leanmark.cycle.floor.weights import GoalName

EXCHANGES: Final = 0.3
"""Share of the trials that change two spells about; the others move one; own figure, by trial."""
FORGIVEN: Final = 0.001
"""How much dearer a step may be at first, a share of the least cost; none at the end; own figure, by
trial."""
SHIFT_S: Final = 400
"""How far a spell is moved at most; own figure: about one spell's length."""


def polished(
    floor: Floor, order: Order, weights: Mapping[GoalName, int], longest_s: int, trials: int
) -> Order:
    """The cheapest order met in so many trials drawn by the ask's seed, none above ``longest_s`` unless the
    given one is."""
    draw = random.Random(floor.ask.seed)
    straps = floor.on_straps
    turns = play(floor, order, "at once")
    best = kept = as_played(floor, order.places, turns)
    least = now = cost(floor, turns, weights)
    longest_s = max(longest_s, length_s(turns))
    for trial in range(trials if len(straps) > 1 else 0):
        tried = in_class_order(floor, _changed(kept, straps, draw))
        turns = play(floor, tried, "at once")
        costs = cost(floor, turns, weights)
        allowed = now + FORGIVEN * least * (1.0 - trial / trials)
        if costs <= allowed and length_s(turns) <= longest_s:
            kept, now = as_played(floor, tried.places, turns), costs
            if now < least:
                best, least = kept, now
    return best


def as_played(floor: Floor, places: tuple[int, ...], turns: Sequence[Played]) -> Order:
    """The order in which a session was played."""
    starts_s = [0] * len(floor.tasks)
    for turn in turns:
        if turn.number == 1:
            starts_s[turn.task] = turn.start_s
    return Order(places, tuple(starts_s))


def _changed(order: Order, straps: Sequence[Task], draw: random.Random) -> Order:
    places, starts_s = list(order.places), list(order.starts_s)
    one = draw.choice(straps)
    other = draw.choice(straps)
    there, here = places[other.index], places[one.index]
    if draw.random() < EXCHANGES and there in one.places and here in other.places:
        places[one.index], places[other.index] = there, here
        starts_s[one.index], starts_s[other.index] = starts_s[other.index], starts_s[one.index]
    else:
        if draw.random() < 0.5:  # as often with another anchor as with the same
            places[one.index] = draw.choice(one.places)
        starts_s[one.index] = max(0, starts_s[one.index] + draw.randint(-SHIFT_S, SHIFT_S))
    return Order(tuple(places), tuple(starts_s))


def in_class_order(floor: Floor, order: Order) -> Order:
    """The order with every trainee's classes one after another."""
    starts_s = list(order.starts_s)
    for tasks in floor.of_person:
        before_s = latest_s = -1
        for position, task in enumerate(tasks):
            if position and task.order > tasks[position - 1].order:
                before_s = latest_s
            starts_s[task.index] = max(starts_s[task.index], before_s + 1)
            latest_s = max(latest_s, starts_s[task.index])
    return Order(order.places, tuple(starts_s))
