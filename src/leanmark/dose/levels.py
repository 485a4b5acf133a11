"""Levels of training: what somebody is taken to manage before any record tells better."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from leanmark.dose.rules import ACSM_2009, OWN
from leanmark.errors import FieldError


@dataclass(frozen=True)
class Level:
    """One level. capacity: what a joint manages once, as a share of its reference strength; most_sets: of a
    move in a session; fast, ballistic: whether these speed stages may open at all; source."""

    name: str
    means: str
    capacity: float
    most_sets: int
    fast: bool
    ballistic: bool
    source: str


_SPEED: Final = f"slow and moderate speed for the untrained by {ACSM_2009}, from memory; the rest {OWN}s"
_ROWS: Final[tuple[Level, ...]] = (
    Level("new", "no strength training in the last half year", 0.8, 3, False, False, _SPEED),
    Level("used to straps", "trains on straps, for less than a year", 1.0, 4, True, True, f"{OWN}s"),
    Level("trained", "has trained strength for a year or more", 1.2, 5, True, True, f"{OWN}s"),
    Level("strong", "has trained strength for years, and tests show it", 1.4, 5, True, True, f"{OWN}s"),
)
LEVELS: Final[dict[str, Level]] = {row.name: row for row in _ROWS}


def level(name: str) -> Level:
    """The level of that name. Raises FieldError when there is none."""
    if name not in LEVELS:
        raise FieldError("level", name, ", ".join(LEVELS), "choose one of them")
    return LEVELS[name]
