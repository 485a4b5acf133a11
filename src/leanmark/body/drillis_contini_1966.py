"""Segment lengths as shares of stature by Drillis and Contini.

Source of every number here: Drillis R, Contini R. 1966. Body segment parameters. Report 1166-03, New York
University, School of Engineering and Science; the figure as reprinted in Winter's textbook. Read in
several public code copies ("seen"), or from memory where a row says so.
"""

from __future__ import annotations

from typing import Final

_SEEN: Final = "Drillis & Contini 1966, seen in public code copies"
_MEMORY: Final = "Drillis & Contini 1966, from memory"

SHARES: Final[dict[str, tuple[float, str]]] = {
    "upper arm": (0.186, _SEEN),
    "forearm": (0.146, _SEEN),
    "hand": (0.108, _SEEN),  # wrist to fingertip
    "thigh": (0.245, _SEEN),
    "shank": (0.246, _SEEN),
    "foot length": (0.152, _SEEN),
    "ankle height": (0.039, _SEEN),
    "hip height": (0.530, _SEEN),
    "shoulder height": (0.818, _SEEN),
    "shoulder to hip": (0.288, _SEEN),
    "eye height": (0.936, _MEMORY),
    "chin height": (0.870, _MEMORY),
    "elbow height": (0.630, _MEMORY),
    "wrist height": (0.485, _MEMORY),
    "fingertip height": (0.377, _MEMORY),
    "knee height": (0.285, _MEMORY),
    "foot breadth": (0.055, _MEMORY),
    "biacromial breadth": (0.259, _MEMORY),
    "hip breadth": (0.191, _MEMORY),
    "head height": (0.130, _MEMORY),
}


def share(name: str) -> float:
    """A length or height as a share of stature. Raises KeyError for a name that is not in ``SHARES``."""
    return SHARES[name][0]
