"""Tempo as the trade writes it, 3-1-1-0."""

from __future__ import annotations

from collections.abc import Sequence

from leanmark.errors import FieldError
from leanmark.mechanics.dynamics import Tempo

SHORTEST_S, LONGEST_S = 0.2, 20.0


def tempo_of(written: str | Sequence[float]) -> Tempo:
    """A tempo from ``2-1-1-0`` or four numbers [s]. Raises FieldError for anything else."""
    allowed = f"four times down-pause-up-pause, moving ones {SHORTEST_S:g} to {LONGEST_S:g} s"
    remedy = "write for example 2-1-1-0"
    try:
        parts = [float(part) for part in (written.split("-") if isinstance(written, str) else written)]
        down, low, up, high = parts
    except ValueError:
        raise FieldError("--tempo", written, allowed, remedy) from None
    moving_fit = all(SHORTEST_S <= part <= LONGEST_S for part in (down, up))
    if not (moving_fit and all(0.0 <= part <= LONGEST_S for part in (low, high))):
        raise FieldError("--tempo", written, allowed, remedy)
    return Tempo(down, low, up, high)
