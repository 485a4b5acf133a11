"""What each number of a rig may be, with the reason, in one table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from leanmark.errors import FieldError


@dataclass(frozen=True)
class Range:
    """The lowest and highest allowed value of a field, both included, and why."""

    low: float
    high: float
    reason: str


RIG_RANGES: Final[dict[str, Range]] = {
    "anchor_height_m": Range(1.5, 6.0, "own figure: from a low door frame to a hall beam"),
    "strap_shortest_m": Range(0.2, 5.8, "own figure: below 0.2 m there is no strap left to lean on"),
    "strap_longest_m": Range(0.2, 5.8, "own figure: below the highest anchor by a handle"),
    "settings_m": Range(0.2, 5.8, "own figure: as the strap's shortest and longest"),
    "loop_friction": Range(0.0, 0.6, "own figure: from a free-running pulley to webbing that grips"),
    "handle_offset_m": Range(0.0, 0.4, "own figure: from a grip in the strap's end to a long handle sling"),
    "cradle_offset_m": Range(0.0, 0.5, "own figure: from no cradle to a long foot sling"),
    "floor_friction": Range(0.05, 1.2, "own figure: from wet smooth tile to clean rubber on rubber"),
    "rated_load_n": Range(500.0, 200_000.0, "own figure: less than 500 N holds no adult"),
    "anchor_count": Range(1, 200, "own figure: the anchors of one rig"),
}


def check_range(field: str, value: float, allowed: Range, remedy: str) -> None:
    """Raise FieldError with ``remedy`` when ``value`` is outside ``allowed``, or not a number."""
    if not allowed.low <= value <= allowed.high:
        raise FieldError(field, value, f"{allowed.low:g}–{allowed.high:g}", remedy)
