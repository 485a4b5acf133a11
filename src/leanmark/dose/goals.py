"""Goals in plain choices, and what each asks for: reps, effort, sets, rest, holds, stages, patterns."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from leanmark.dose.rep_max import share_of_max
from leanmark.dose.rules import ACSM_2009, OWN, value
from leanmark.dose.waves import WaveKind
from leanmark.errors import FieldError
from leanmark.moves.schema import COMMON_PRACTICE, Stage

PATTERNS: Final[dict[str, str]] = {
    "vertical pull": "pull",
    "horizontal pull": "pull",
    "horizontal press": "push",
    "overhead press": "push",
    "squat": "knee",
    "lunge": "knee",
    "hinge": "hip",
    "hamstring": "hip",
    "front of trunk": "trunk",
    "side of trunk": "trunk",
    "back of trunk": "trunk",
    "rotation": "trunk",
    "elbow flexion": "arms",
    "elbow extension": "arms",
    "calf and foot": "calf",
    "shoulder care": "shoulder care",
    "hop and sprint": "jump",
    "mobility": "mobility",
}
"""Move family to pattern; own grouping. Mobility is not counted in a goal's shares."""
QUICK_PATTERNS: Final = ("trunk", "calf", "shoulder care", "mobility")
"""Patterns that the rule "quick recovery" is for."""


def recovery_h(family: str) -> float:
    """Least time [h] between two sessions that train a move family. Raises FieldError for an unknown one."""
    quick = pattern_of(family) in QUICK_PATTERNS
    return value("quick recovery" if quick else "recovery")


def pattern_of(family: str) -> str:
    """The pattern of a move family. Raises FieldError for an unknown one."""
    if family not in PATTERNS:
        raise FieldError("family", family, ", ".join(PATTERNS), "name a move family of the library")
    return PATTERNS[family]


@dataclass(frozen=True)
class Goal:
    """What a goal asks for.

    reps, reps_in_reserve: (at the foot, at the top of the load wave); sets: (least, most) of a move in a
    session; rest_s: after each set; hold_s: (shortest, longest) hold; stages: that may open; weekly_sets:
    (least, most) for a muscle group; pattern_shares: wanted share of the weekly sets, which sum to 1; wave:
    the usual one; sources.
    """

    name: str
    means: str
    reps: tuple[int, int]
    reps_in_reserve: tuple[float, float]
    sets: tuple[int, int]
    rest_s: float
    hold_s: tuple[float, float]
    stages: tuple[Stage, ...]
    weekly_sets: tuple[int, int]
    pattern_shares: dict[str, float]
    wave: WaveKind
    sources: tuple[str, ...]

    def limit_at(self, height: float) -> float:
        """Reps to failure wanted at a height of the wave: reps and reserve together, on a straight line.

        Raises FieldError outside 0 to 1.
        """
        _check_height(height)
        foot, top = (r + left for r, left in zip(self.reps, self.reps_in_reserve, strict=True))
        return foot + height * (top - foot)

    def reps_at(self, height: float) -> int:
        """Whole reps of a set at a height of the wave. Raises FieldError outside 0 to 1."""
        _check_height(height)
        return round(self.reps[0] + height * (self.reps[1] - self.reps[0]))

    def reserve_at(self, height: float) -> float:
        """Reps in reserve at a height: what the whole reps leave of ``limit_at``. Raises FieldError outside
        0 to 1."""
        return self.limit_at(height) - self.reps_at(height)


def wanted_share(goal: Goal, height: float) -> float:
    """The load wanted at a height of the wave, as a share of capacity. Raises FieldError outside 0 to 1."""
    return float(share_of_max(goal.limit_at(height)))


def _check_height(height: float) -> None:
    if not 0.0 <= height <= 1.0:
        raise FieldError("height", height, "0 to 1", "give the height of a point of a load wave")


_EVEN: Final = {
    "pull": 0.22, "push": 0.20, "knee": 0.18, "hip": 0.15,
    "trunk": 0.14, "arms": 0.03, "calf": 0.03, "shoulder care": 0.05, "jump": 0.0,
}  # fmt: skip
_ROWS: Final[tuple[Goal, ...]] = (
    Goal(
        "general strength",
        "stronger all round, pulls and presses, legs and trunk alike",
        (10, 6), (4, 1), (2, 4), 90, (10, 30), ("controlled", "fast"), (6, 14), _EVEN, "step with deload",
        (f"8 to 12 reps at first, heavier later, by {ACSM_2009}, abstract", f"the rest: {OWN}s"),
    ),
    Goal(
        "strength-endurance",
        "many reps and long holds with short rests",
        (20, 15), (4, 1), (2, 3), 45, (20, 60), ("controlled", "fast"), (6, 12), _EVEN, "linear",
        (f"15 reps and more, rests under 90 s by {ACSM_2009}, from memory", f"the rest: {OWN}s"),
    ),
    Goal(
        "power",
        "fast and ballistic reps, few in a set, with full rests",
        (6, 4), (5, 4), (3, 5), 180, (5, 15), ("controlled", "fast", "ballistic"), (6, 14),
        {
            "pull": 0.20, "push": 0.18, "knee": 0.18, "hip": 0.14,
            "trunk": 0.10, "arms": 0.0, "calf": 0.03, "shoulder care": 0.05, "jump": 0.12,
        },
        "undulating",
        (
            f"3 to 5 sets, fast, with 3 min rest and more by {ACSM_2009}, from memory",
            f"heavier than the light loads named there, as a set holds controlled reps as well: {OWN}",
        ),
    ),
    Goal(
        "trunk",
        "a trunk that holds: planks, side planks, rotations, then legs and arms",
        (12, 8), (4, 2), (2, 4), 60, (15, 45), ("controlled", "fast"), (6, 14),
        {
            "pull": 0.14, "push": 0.14, "knee": 0.10, "hip": 0.12,
            "trunk": 0.42, "arms": 0.0, "calf": 0.02, "shoulder care": 0.06, "jump": 0.0,
        },
        "linear",
        (f"{COMMON_PRACTICE}; numbers are {OWN}s",),
    ),
    Goal(
        "return after a break",
        "back to training with light loads, few sets and much in reserve",
        (15, 10), (5, 3), (1, 3), 90, (10, 20), ("controlled",), (3, 8),
        {**_EVEN, "trunk": 0.15, "arms": 0.0, "shoulder care": 0.07},
        "linear",
        (f"{COMMON_PRACTICE}; numbers are {OWN}s",),
    ),
    Goal(
        "sport emphasis",
        "general strength with the patterns of the sport doubled",
        (10, 6), (4, 1), (2, 4), 90, (10, 30), ("controlled", "fast", "ballistic"), (6, 14),
        {**_EVEN, "pull": 0.20, "push": 0.18, "jump": 0.04},
        "step with deload",
        ("as general strength", f"doubling: {OWN}"),
    ),
)  # fmt: skip
GOALS: Final[dict[str, Goal]] = {row.name: row for row in _ROWS}
EMPHASIS: Final = 2.0
"""How much more the patterns of emphasised families weigh; own figure."""


def goal(name: str) -> Goal:
    """The goal of that name. Raises FieldError when there is none."""
    if name not in GOALS:
        raise FieldError("goal", name, ", ".join(GOALS), "choose one of them")
    return GOALS[name]


def with_emphasis(goal: Goal, families: Iterable[str]) -> Goal:
    """The goal with the patterns of some move families doubled, and all shares brought back to sum to 1.

    Raises FieldError for an unknown family.
    """
    more = {pattern_of(family) for family in families}
    raised = {
        name: share * (EMPHASIS if name in more else 1.0) for name, share in goal.pattern_shares.items()
    }
    whole = sum(raised.values())
    return replace(goal, pattern_shares={name: share / whole for name, share in raised.items()})
