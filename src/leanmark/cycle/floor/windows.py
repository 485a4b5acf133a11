"""Betters a large plan a window at a time: a few spells near a moment may move, all others stand still."""

from __future__ import annotations

import random
from collections.abc import Mapping
from typing import Final

from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.solve import solve
from leanmark.cycle.floor.tasks import Floor
from leanmark.cycle.floor.weights import GoalName

WINDOW_SPELLS: Final = 20
"""How many spells may move at once: most such windows are solved to the end; own figure, by trial."""
WINDOW_EFFORT: Final = 0.05
"""Deterministic seconds for one window; own figure, by trial."""


def better_by_windows(
    floor: Floor, order: Order, least_length_s: int, weights: Mapping[GoalName, int], windows: int
) -> Order:
    """The order after so many windows at random moments, drawn by the ask's seed. Never worse in the
    model."""
    draw = random.Random(floor.ask.seed)
    for _ in range(windows):
        moment_s = draw.uniform(0.0, max(order.starts_s))
        free = _nearest(order, moment_s)
        answer = solve(floor, order, least_length_s, weights, WINDOW_EFFORT, free)
        order = answer.order if answer else order
    return order


def _nearest(order: Order, moment_s: float) -> frozenset[int]:
    """The spells that start nearest to a moment."""
    starts_s = order.starts_s
    by_distance = sorted(range(len(starts_s)), key=lambda index: (abs(starts_s[index] - moment_s), index))
    return frozenset(by_distance[:WINDOW_SPELLS])
