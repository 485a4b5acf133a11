"""Betters a plan by trial: move a spell or a stint, play the session set by set, keep what is hardly worse.
What it judges by is the session as it is shown, not the solver's model."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from typing import Final

from leanmark.cycle.floor.order import Order, stints_of
from leanmark.cycle.floor.score import cost, length_s
from leanmark.cycle.floor.simulate import Played, play
from leanmark.cycle.floor.tasks import Floor, Task
from leanmark.cycle.floor.weights import GoalName

KINDS: Final = {"join": 0.40, "exchange": 0.15, "shift": 0.17, "move": 0.18, "stint": 0.10}
"""How often each kind of trial is made: a spell joins another of its setting, two change about, one goes
sooner or later, one does so at another anchor, a whole stint does; own figures, by trial."""
FORGIVEN: Final = 0.001
"""How much dearer a step may be at first, a share of the least cost; none at the end; own figure, by
trial."""
SHIFT_S: Final = 400
"""How far a spell is moved at most; own figure: about one spell's length."""
STINT_SHIFT_S: Final = 1500
"""Likewise a stint; own figure: half a session."""


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
        tried = in_class_order(floor, _changed(floor, kept, straps, draw))
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


def _changed(floor: Floor, order: Order, straps: Sequence[Task], draw: random.Random) -> Order:
    """The order with one change of a kind drawn by ``KINDS``."""
    places, starts_s = list(order.places), list(order.starts_s)
    one = draw.choice(straps)
    kind = draw.choices(tuple(KINDS), tuple(KINDS.values()))[0]
    if kind == "join":
        mate = draw.choice([task for task in straps if task.setting == one.setting])
        if places[mate.index] in one.places:
            places[one.index] = places[mate.index]
        starts_s[one.index] = max(0, starts_s[mate.index] + draw.choice((-1, 1)))
    elif kind == "exchange":
        other = draw.choice(straps)
        there, here = places[other.index], places[one.index]
        if there in one.places and here in other.places:
            places[one.index], places[other.index] = there, here
            starts_s[one.index], starts_s[other.index] = starts_s[other.index], starts_s[one.index]
    elif kind == "stint":
        _move_stint(floor, order, places, starts_s, draw)
    else:
        places[one.index] = draw.choice(one.places) if kind == "move" else places[one.index]
        starts_s[one.index] = max(0, starts_s[one.index] + draw.randint(-SHIFT_S, SHIFT_S))
    return Order(tuple(places), tuple(starts_s))


def _move_stint(
    floor: Floor, order: Order, places: list[int], starts_s: list[int], draw: random.Random
) -> None:
    """Move all spells of one stint, sooner or later, to an anchor that may be another."""
    stints = stints_of(floor, order, draw.choice(floor.anchors))
    to = draw.choice(floor.anchors)
    by_s = draw.randint(-STINT_SHIFT_S, STINT_SHIFT_S)
    for index in draw.choice(stints)[1] if stints else ():
        places[index] = to if to in floor.tasks[index].places else places[index]
        starts_s[index] = max(0, starts_s[index] + by_s)


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
