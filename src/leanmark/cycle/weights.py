"""The soft goals of a cycle and what missing them costs: the one table of weights."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class Weight:
    """One soft goal. unit: what its amount counts; weight: cost of one unit; means: what it asks."""

    goal: str
    unit: str
    weight: int
    means: str


_CHOICE: Final[tuple[Weight, ...]] = (
    Weight(
        "sets by muscle group", "half sets a week", 12,
        "every muscle group that an open move trains gets its weekly sets, not fewer and not more",
    ),
    Weight(
        "balance of patterns", "sets a week", 15,
        "pulls, presses, knee, hip and trunk work take the shares of a week's sets that the goal gives them",
    ),
    Weight(
        "whole body", "patterns a session", 20,
        "every session holds each pattern that takes a tenth or more of the week's sets",
    ),
    Weight(
        "time used", "minutes a session", 6,
        "sessions last at least four fifths of the time that there is",
    ),
    Weight(
        "load as wanted", "per cent a move", 2,
        "a move can be set to the load, or to the reps, that its session wants",
    ),
    Weight(
        "liked moves", "moves", 60,
        "moves that the trainee likes are in, moves that the trainee dislikes are out",
    ),
    Weight(
        "strap changes", "changes a session", 25,
        "few settings in a session, so that the strap is seldom set anew",
    ),
    Weight(
        "grip", "moves a session", 30,
        "no more than three moves a session whose handles the hands hold; more ask too much of the grip",
    ),
    Weight(
        "variety", "moves a week", 20,
        "no move more than twice a week",
    ),
    Weight(
        "one side at a time", "moves a week", 25,
        "at least two one-sided moves a week, since two-sided ones hide differences between the sides",
    ),
    Weight(
        "little changed", "sets", 20,
        "after an edit by hand, sessions keep the sets that they had",
    ),
)  # fmt: skip
_ORDER: Final[tuple[Weight, ...]] = (
    Weight("demanding work early", "places", 4, "what asks most strength comes before what asks less"),
    Weight("quick work first", "places", 30, "fast and ballistic reps come while the trainee is fresh"),
    Weight("trunk late", "places", 8, "trunk work comes after what needs a rested trunk"),
    Weight("grip spread", "pairs", 10, "two moves that tire the grip do not follow each other"),
    Weight("strap changes", "changes", 25, "moves of one strap setting follow each other"),
)
CHOICE_WEIGHTS: Final[dict[str, Weight]] = {row.goal: row for row in _CHOICE}
"""Which moves, in which sessions, for how many sets. All weights are own figures."""
ORDER_WEIGHTS: Final[dict[str, Weight]] = {row.goal: row for row in _ORDER}
"""In which order within a session. All weights are own figures."""
MOST_GRIPS: Final = 3
"""Moves a session that hands hold before ``grip`` counts; own figure."""
MOST_TIMES: Final = 2
"""Times a week a move comes before ``variety`` counts; own figure."""
ONE_SIDED: Final = 2
"""One-sided moves a week that ``one side at a time`` asks; own figure."""
MAIN_SHARE: Final = 10
"""Per cent of the week's sets from which a pattern belongs in every session; own figure."""
TIME_USED: Final = 0.8
"""Share of a session's time that is to be used; own figure."""
LEAST_MOVES: Final = 3
"""Moves in a session at least; common practice, no published source."""
MOST_MOVES: Final = 9
"""Moves in a session at most; own figure: what a page holds."""
MOST_OF_PATTERN: Final = 3
"""Moves of one pattern in a session at most; own figure."""
MOST_QUICK: Final = 2
"""Moves with ballistic reps in a session at most, which shares out the rule "ballistic reps"; own figure."""
