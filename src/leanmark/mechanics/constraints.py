"""What a pose must keep exactly: planted points, taut straps, limbs in line with a strap, balance.

Every constraint is one row: a number that must become zero. Planted points are rows of the form
``direction . (point - other point) - value``; a strap is ``|holds - anchor| - length``; an alignment
keeps a body point on the line from the anchor through the strap's holding point. ``rows`` evaluates them.
"""

from __future__ import annotations

from dataclasses import dataclass

from leanmark.mechanics.arrays import Floats


@dataclass(frozen=True)
class PlantedRow:
    """``direction . point - value = 0`` [m]; with ``other``, the difference of two points is held.

    direction: (3,) or (N, 3) unit vector; value: scalar or (N,) [m].
    """

    point: int
    direction: Floats
    value: Floats
    other: int | None = None


@dataclass(frozen=True)
class StrapRow:
    """One taut strap: the mean of ``points`` is ``length_m`` from ``anchor_m``.

    anchor_m: (3,) or (N, 3); length_m: scalar or (N,) [m], anchor to holding point, fittings included.
    """

    points: tuple[int, ...]
    anchor_m: Floats
    length_m: Floats


@dataclass(frozen=True)
class SumRow:
    """One strap running through a loop: the two sides together are ``length_m`` long."""

    sides: tuple[StrapRow, StrapRow]
    length_m: Floats


@dataclass(frozen=True)
class AlignRow:
    """``point`` lies on the line through ``strap``'s anchor and its holding point (two rows), or, with
    ``upright_only``, in the plane through that line and the horizontal across it (one row)."""

    point: int
    strap: StrapRow
    upright_only: bool = False


@dataclass(frozen=True)
class BalanceRow:
    """The whole body's mass centre is, along ``direction``, over the weighted mean of body points plus
    ``offset`` [m]: how people place themselves over a narrow base.

    points: (point, weight) pairs whose weights add up to 1; direction: (3,) unit vector.
    """

    points: tuple[tuple[int, float], ...]
    direction: Floats
    offset: float = 0.0


@dataclass(frozen=True)
class Constraints:
    """All rows of one kind of position, shared by N poses."""

    planted: tuple[PlantedRow, ...] = ()
    straps: tuple[StrapRow, ...] = ()
    sums: tuple[SumRow, ...] = ()
    aligned: tuple[AlignRow, ...] = ()
    balanced: tuple[BalanceRow, ...] = ()
