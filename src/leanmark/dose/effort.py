"""Effort of a set: rating of perceived exertion by reps in reserve."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats

EFFORT_SCALE: Final[tuple[tuple[float, float], ...]] = (
    # reps in reserve, RPE: Zourdos et al. 2016, J Strength Cond Res 30(1):267
    (0.0, 10.0),  # seen in a public thesis that reprints the scale
    (1.0, 9.0),  # likewise
    (2.0, 8.0),  # from memory, as all below
    (3.0, 7.0),
    (4.0, 6.0),
    (6.0, 5.0),  # printed as 5 to 6 for 4 to 6 left
)
"""Reps in reserve and RPE, hardest first; between rows on straight lines."""
_RESERVE, _RPE = (np.array(column) for column in zip(*EFFORT_SCALE, strict=True))
_REMEDY: Final = "larger reserves cannot be told apart: prescribe the reps alone"


def rpe_of(reps_in_reserve: ArrayLike) -> Floats:
    """RPE on the scale of 10 at which so many reps are left, any shape.

    Raises FieldError outside 0 to 6 reps, where the scale ends.
    """
    given = np.asarray(reps_in_reserve, dtype=np.float64)
    _refuse_outside("reps in reserve", given, _RESERVE[0], _RESERVE[-1])
    return np.asarray(np.interp(given, _RESERVE, _RPE))


def reserve_of(rpe: ArrayLike) -> Floats:
    """Reps in reserve at an RPE, any shape; the inverse of ``rpe_of``. Raises FieldError outside 5 to 10."""
    given = np.asarray(rpe, dtype=np.float64)
    _refuse_outside("RPE", given, _RPE[-1], _RPE[0])
    return np.asarray(np.interp(given, _RPE[::-1], _RESERVE[::-1]))


def _refuse_outside(field: str, given: Floats, low: float, high: float) -> None:
    wrong = ~((given >= low) & (given <= high))
    if wrong.any():
        raise FieldError(field, float(given[wrong].flat[0]), f"{low:g} to {high:g}", _REMEDY)
