"""What hanging-scale readings told of one person, as it is kept in a squad file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.calibrate import MOST_COM_SHARE, PRIOR, Calibration
from leanmark.mechanics.position import WITHIN_PATCHES

PRIOR_DEVIATION: Final = PRIOR.deviation.round(6).tolist()
KNOWN_RANGES: Final[dict[str, tuple[float, float]]] = {
    "com_share": (-MOST_COM_SHARE, MOST_COM_SHARE),
    "com_share_deviation": (0.0, PRIOR_DEVIATION[0]),
    "pressure": (-1.0, 1.0),
    "pressure_deviation": (0.0, PRIOR_DEVIATION[1]),
}
"""What each number may be: within the prior, since readings only narrow it."""


@dataclass(frozen=True)
class Known:
    """What readings told of one person.

    move: the move in which the scale was read; the pressure holds there alone, the mass centre everywhere.
    com_share: mass centre above the table's, share of stature. pressure: as ``loads.loads_of`` has it.
    com_share_deviation, pressure_deviation: standard deviations.

    Raises FieldError for a number outside ``KNOWN_RANGES``.
    """

    move: str
    com_share: float
    com_share_deviation: float
    pressure: float
    pressure_deviation: float

    def __post_init__(self) -> None:
        for name, (low, high) in KNOWN_RANGES.items():
            value = getattr(self, name)
            if not low <= value <= high:
                raise FieldError(name, value, f"{low:g} to {high:g}", "copy what leanmark calibrate printed")

    @classmethod
    def of(cls, move: str, found: Calibration) -> Known:
        """The posterior of readings taken in ``move``, to the digits that a scale can tell."""
        com, pressure = found.mean.tolist()
        com_deviation, pressure_deviation = np.minimum(found.deviation, PRIOR_DEVIATION).tolist()
        return cls(
            move, round(com, 5), round(com_deviation, 5), round(pressure, 3), round(pressure_deviation, 3)
        )


def com_shares(known: Sequence[Known | None]) -> tuple[Floats, Floats]:
    """How far each person's mass centre is above the table's, and its deviation [shares of stature]."""
    rows = [(0.0, PRIOR_DEVIATION[0]) if k is None else (k.com_share, k.com_share_deviation) for k in known]
    share, deviation = np.array(rows).reshape(-1, 2).T
    return share, deviation


def pressures(known: Sequence[Known | None], move: str) -> Floats:
    """Where each person's pressure sits in a move: believed, least and greatest place, (P, 3).

    Least and greatest are two deviations away, or the ends of the patches.
    """
    return np.array([WITHIN_PATCHES if k is None or k.move != move else _places(k) for k in known])


def _places(known: Known) -> tuple[float, float, float]:
    reach = 2.0 * known.pressure_deviation
    return known.pressure, max(known.pressure - reach, -1.0), min(known.pressure + reach, 1.0)
