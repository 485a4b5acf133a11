"""The shapes that relations between reps and load have, their inverses and their limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Protocol

import numpy as np
from numpy.typing import ArrayLike

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats

LEAST_REPS: Final = 1.0
SHARE_SLACK: Final = 1e-12
"""A share that came out of a relation goes back in, whatever its last digit was rounded to."""


class Curve(Protocol):
    """The shape of a relation: share of the one-rep maximum at reps, and its inverse."""

    def share(self, reps: Floats) -> Floats:
        """Share at reps."""

    def reps(self, share: Floats) -> Floats:
        """Reps at a share."""


@dataclass(frozen=True)
class RisingMaximum:
    """maximum = load (1 + reps / span)."""

    span: float

    def share(self, reps: Floats) -> Floats:
        """Share at reps."""
        return self.span / (self.span + reps)

    def reps(self, share: Floats) -> Floats:
        """Reps at a share."""
        return self.span * (1.0 / share - 1.0)


@dataclass(frozen=True)
class StraightLine:
    """share = (top - slope reps) / whole; none is left at ``top / slope`` reps."""

    top: float
    slope: float
    whole: float

    def share(self, reps: Floats) -> Floats:
        """Share at reps."""
        return (self.top - self.slope * reps) / self.whole

    def reps(self, share: Floats) -> Floats:
        """Reps at a share."""
        return (self.top - self.whole * share) / self.slope


@dataclass(frozen=True)
class Power:
    """maximum = load reps ** exponent."""

    exponent: float

    def share(self, reps: Floats) -> Floats:
        """Share at reps."""
        return np.asarray(reps**-self.exponent)

    def reps(self, share: Floats) -> Floats:
        """Reps at a share."""
        return np.asarray(share ** (-1.0 / self.exponent))


@dataclass(frozen=True)
class Decay:
    """100 share = floor + fall exp(-rate reps)."""

    floor: float
    fall: float
    rate: float

    def share(self, reps: Floats) -> Floats:
        """Share at reps."""
        return (self.floor + self.fall * np.exp(-self.rate * reps)) / 100.0

    def reps(self, share: Floats) -> Floats:
        """Reps at a share."""
        return np.asarray(-np.log((100.0 * share - self.floor) / self.fall) / self.rate)


@dataclass(frozen=True)
class Relation:
    """One author's relation. formula: as printed, w load, r reps; most_reps: refused above; sound_reps: up to
    how many reps it stays within a tenth of the median of the seven; source: where the formula was read."""

    author: str
    formula: str
    curve: Curve
    most_reps: float
    sound_reps: float
    source: str

    def share(self, reps: ArrayLike) -> Floats:
        """Share of the one-rep maximum at which so many reps are the most, any shape.

        Raises FieldError for reps below 1, above ``most_reps``, or not a number.
        """
        given = np.asarray(reps, dtype=np.float64)
        wrong = ~((given >= LEAST_REPS) & (given <= self.most_reps))
        if wrong.any():
            allowed = f"{LEAST_REPS:g} to {self.most_reps:g} by {self.author}"
            raise FieldError("reps", float(given[wrong].flat[0]), allowed, self._remedy())
        return np.asarray(self.curve.share(given))

    def reps(self, share: ArrayLike) -> Floats:
        """The most reps at a share of the one-rep maximum, any shape; the inverse of ``share``.

        Raises FieldError for a share that the relation gives to no reps it allows.
        """
        given = np.asarray(share, dtype=np.float64)
        ends = np.array([self.most_reps, LEAST_REPS])
        low, high = (float(end) for end in self.curve.share(ends))
        wrong = ~((given >= low - SHARE_SLACK) & (given <= high + SHARE_SLACK))
        if wrong.any():
            allowed = f"{low:.3f} to {high:.3f} by {self.author}"
            raise FieldError("share", float(given[wrong].flat[0]), allowed, self._remedy())
        return np.asarray(self.curve.reps(given))

    def _remedy(self) -> str:
        return "choose a load that allows fewer reps, or a relation that reaches further"
