"""What each goal of a floor plan weighs, in one table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

GoalName = Literal["length", "strap changes", "waiting", "walking"]


@dataclass(frozen=True)
class Weight:
    """What one unit of a goal costs; a unit of cost is a tenth of a second of the whole session."""

    unit: str
    cost: int
    source: str


WEIGHTS: Final[dict[GoalName, Weight]] = {
    "length": Weight("second of the session", 10, "own figure: the measure of all others"),
    "strap changes": Weight("strap set anew", 300, "own figure: worth half a minute of everybody's time"),
    "waiting": Weight(
        "second that one trainee waits", 1, "own figure: ten people waiting are a session longer"
    ),
    "walking": Weight("walk to another place", 50, "own figure: worth five seconds of everybody's time"),
}
"""The goals of a floor plan. Time that a change or a walk takes counts in the length as well."""
LENGTH_ONLY: Final[Mapping[GoalName, int]] = {"length": 1, "strap changes": 0, "waiting": 0, "walking": 0}
"""The shortest session, whatever else it costs."""


def usual_weights() -> dict[GoalName, int]:
    """The cost of a unit of each goal."""
    return {goal: weight.cost for goal, weight in WEIGHTS.items()}
