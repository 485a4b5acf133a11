"""Constraints laid out as arrays: their residuals and analytic derivatives.

The rows of one kind of position are laid out once and evaluated for all poses together. Every row depends on
a few world points, so its derivative is its coefficients on those points times the points' own derivatives.
Rows come in the order planted, straps, sums, aligned (upright, then across), balanced.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from functools import cached_property
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_SEGMENT
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.constraints import Constraints, StrapRow
from leanmark.mechanics.kinematics import Placement
from leanmark.mechanics.motions import (
    Moved,
    mass_centre,
    mass_centre_motions,
    moved_points,
    point_motions,
)

_LEAST_M: Final = 1e-9


@dataclass(frozen=True)
class _Layout:
    """What does not change from pose to pose.

    points: (Q,) body points used; moved: the joints that move them. first: (K,) column of each planted row's
    point; pair, other: planted rows that are differences, and the column of their other point. ends: (S, Q)
    mean weights of each strap's holding points; the first ``plain`` straps are rows. sums: (M, 2) straps of
    each sum. limb, limb_strap: (A,) columns and straps of aligned rows; across: those held across too. base:
    (B, Q) weights of balance rows, base_direction (B, 3), base_offset (B,).
    """

    points: Ints
    moved: Moved
    first: Ints
    pair: Ints
    other: Ints
    ends: Floats
    plain: int
    sums: Ints
    limb: Ints
    limb_strap: Ints
    across: Ints
    base: Floats
    base_direction: Floats
    base_offset: Floats

    @cached_property
    def key(self) -> tuple[object, ...]:
        """Alike for layouts that are alike."""
        own = (getattr(self, field.name) for field in fields(self) if field.name != "moved")
        return tuple((part.shape, part.tobytes()) if isinstance(part, np.ndarray) else part for part in own)


@dataclass(frozen=True)
class Rows:
    """Rows of N poses: direction (N, K, 3) and value (N, K) of planted rows, anchor_m (N, S, 3) and length_m
    (N, S) of straps, sum_m (N, M) of sums; first axes are 1 where shared by all poses."""

    layout: _Layout
    direction: Floats
    value: Floats
    anchor_m: Floats
    length_m: Floats
    sum_m: Floats

    @property
    def count(self) -> int:
        """R."""
        layout = self.layout
        aligned = len(layout.limb) + len(layout.across)
        return len(layout.first) + layout.plain + len(layout.sums) + aligned + len(layout.base)

    def take(self, index: Ints) -> Rows:
        """The rows of the poses at ``index``; what is shared is kept."""

        def pick(array: Floats) -> Floats:
            return array[index] if len(array) > 1 else array

        return replace(
            self,
            direction=pick(self.direction),
            value=pick(self.value),
            anchor_m=pick(self.anchor_m),
            length_m=pick(self.length_m),
            sum_m=pick(self.sum_m),
        )


def joined(parts: Sequence[Rows], counts: Sequence[int]) -> Rows:
    """Rows of several sets of ``counts`` poses one after another; their layouts must be alike."""

    def whole(name: str) -> Floats:
        arrays = (getattr(part, name) for part in parts)
        spread = [np.broadcast_to(a, (n, *a.shape[1:])) for a, n in zip(arrays, counts, strict=True)]
        return np.concatenate(spread)

    return Rows(
        parts[0].layout,
        whole("direction"),
        whole("value"),
        whole("anchor_m"),
        whole("length_m"),
        whole("sum_m"),
    )


def lay_out(constraints: Constraints) -> Rows:
    """Lay constraints out as arrays."""
    straps = _all_straps(constraints)
    return Rows(
        _layout(constraints, straps),
        _stacked([row.direction for row in constraints.planted], (3,)),
        _stacked([row.value for row in constraints.planted], ()),
        _stacked([strap.anchor_m for strap in straps], (3,)),
        _stacked([strap.length_m for strap in straps], ()),
        _stacked([row.length_m for row in constraints.sums], ()),
    )


def _all_straps(constraints: Constraints) -> list[StrapRow]:
    """Straps that are rows, then those of sums, then those that only aligned rows name."""
    straps = [*constraints.straps, *(side for row in constraints.sums for side in row.sides)]
    for row in constraints.aligned:
        if not any(row.strap is strap for strap in straps):
            straps.append(row.strap)
    return straps


def _stacked(values: Sequence[Floats], shape: tuple[int, ...]) -> Floats:
    """Values of K rows, each shared or by pose, as (N or 1, K, ...)."""
    if not values:
        return np.zeros((1, 0, *shape))
    arrays = [np.asarray(value, dtype=float) for value in values]
    by_pose = [array if array.ndim > len(shape) else array[None] for array in arrays]
    return np.stack(np.broadcast_arrays(*by_pose), axis=1)


def _layout(constraints: Constraints, straps: Sequence[StrapRow]) -> _Layout:
    planted, aligned, balanced = constraints.planted, constraints.aligned, constraints.balanced
    used = {row.point for row in planted} | {row.other for row in planted if row.other is not None}
    used |= {point for strap in straps for point in strap.points} | {row.point for row in aligned}
    points = sorted(used | {point for row in balanced for point, _ in row.points})
    column = {point: k for k, point in enumerate(points)}

    def weights(rows: Sequence[Sequence[tuple[int, float]]]) -> Floats:
        table = np.zeros((len(rows), len(points)))
        for k, row in enumerate(rows):
            for point, weight in row:
                table[k, column[point]] += weight
        return table

    def columns(names: Sequence[int]) -> Ints:
        return np.array([column[name] for name in names], dtype=np.intp)

    pairs = [(k, row.other) for k, row in enumerate(planted) if row.other is not None]
    return _Layout(
        points=np.array(points, dtype=np.intp),
        moved=moved_points(tuple(int(POINT_SEGMENT[point]) for point in points)),
        first=columns([row.point for row in planted]),
        pair=np.array([k for k, _ in pairs], dtype=np.intp),
        other=columns([other for _, other in pairs]),
        ends=weights([[(p, 1.0 / len(strap.points)) for p in strap.points] for strap in straps]),
        plain=len(constraints.straps),
        sums=len(constraints.straps) + np.arange(2 * len(constraints.sums)).reshape(-1, 2),
        limb=columns([row.point for row in aligned]),
        limb_strap=np.array([[row.strap is s for s in straps].index(True) for row in aligned], dtype=np.intp),
        across=np.array([k for k, row in enumerate(aligned) if not row.upright_only], dtype=np.intp),
        base=weights([row.points for row in balanced]),
        base_direction=np.array([row.direction for row in balanced], dtype=float).reshape(-1, 3),
        base_offset=np.array([row.offset for row in balanced], dtype=float),
    )


@dataclass(frozen=True)
class Evaluated:
    """Rows at N placed bodies: residual (N, R) [m]; coefficients (N, R, Q, 3) on the points at (N, Q, 3)."""

    residual: Floats
    coefficients: Floats
    at: Floats


def residuals(rows: Rows, bodies: Bodies, placement: Placement) -> Evaluated:
    """Residuals of the rows, and what their derivatives are made of."""
    layout = rows.layout
    at = placement.point_m(bodies, layout.points)
    parts = [_planted(rows, at), *_strapped(rows, at)]
    if len(layout.base):
        parts.append(_balanced(layout, at, mass_centre(bodies, placement)))
    residual = np.concatenate([part for part, _ in parts], axis=1)
    return Evaluated(residual, np.concatenate([part for _, part in parts], axis=1), at)


def derivatives(rows: Rows, bodies: Bodies, placement: Placement, evaluated: Evaluated) -> Floats:
    """Derivatives (N, R, 57) of the residuals for the small motions of the placed bodies."""
    layout = rows.layout
    motions = point_motions(layout.moved, placement, evaluated.at)
    derivative: Floats = evaluated.coefficients.reshape(*evaluated.residual.shape, -1) @ motions
    if len(layout.base):
        motion = layout.base_direction @ mass_centre_motions(bodies, placement)
        derivative[:, -len(layout.base) :] += motion
    return derivative


def evaluate(rows: Rows, bodies: Bodies, placement: Placement) -> tuple[Floats, Floats]:
    """Residuals (N, R) [m] and their derivatives (N, R, 57) at the placed bodies."""
    evaluated = residuals(rows, bodies, placement)
    return evaluated.residual, derivatives(rows, bodies, placement, evaluated)


_Part = tuple[Floats, Floats]
"""Residuals (N, R) of some rows, and their coefficients (N, R, Q, 3) on the points."""


def _planted(rows: Rows, at: Floats) -> _Part:
    layout, count = rows.layout, len(rows.layout.first)
    which = np.arange(count)
    coefficients = np.zeros((len(at), count, len(layout.points), 3))
    coefficients[:, which, layout.first] = rows.direction
    point = at[:, layout.first]
    if len(layout.pair):
        coefficients[:, layout.pair, layout.other] = -rows.direction[:, layout.pair]
        point[:, layout.pair] -= at[:, layout.other]
    return (point * rows.direction).sum(axis=-1) - rows.value, coefficients


def _strapped(rows: Rows, at: Floats) -> list[_Part]:
    layout = rows.layout
    if not len(layout.ends):
        return []
    line = layout.ends @ at - rows.anchor_m
    reach = np.maximum(np.sqrt((line**2).sum(axis=-1)), _LEAST_M)
    unit = line / reach[..., None]
    along = layout.ends[:, :, None] * unit[:, :, None, :]
    parts = [(reach[:, : layout.plain] - rows.length_m[:, : layout.plain], along[:, : layout.plain])]
    if len(layout.sums):
        parts.append((reach[:, layout.sums].sum(axis=-1) - rows.sum_m, along[:, layout.sums].sum(axis=2)))
    if len(layout.limb):
        parts += _aligned(layout, at, unit[:, layout.limb_strap], reach[:, layout.limb_strap])
    return parts


def _aligned(layout: _Layout, at: Floats, unit: Floats, length: Floats) -> list[_Part]:
    """Offset of the limb's point from the strap's line, upright and across; the line's own turn counts.

    unit, length: (N, A, 3) and (N, A) of each row's strap, anchor to holding point. When that point moves by
    d, and b is the limb from it, a limb held both ways changes its two rows by ``-(1 + b.unit / length)``
    times upright.d and across.d: exact in line. Off it the two directions also turn about the line, which
    changes no distance from it, and near an upright strap they spin; so that turn is left out (with it, the
    row was lost at marks where the hands are under the anchor). Held upright only, the limb may stay off the
    line, and the turn counts: ``(unit_z b.across / (level length)) across.d``, level being the length of
    unit's level part.
    """
    limb = at[:, layout.limb] - layout.ends[layout.limb_strap] @ at
    level = np.maximum(np.sqrt(unit[..., 0] ** 2 + unit[..., 1] ** 2), _LEAST_M)
    across = np.stack([-unit[..., 1] / level, unit[..., 0] / level, np.zeros_like(level)], axis=-1)
    upright = np.cross(across, unit)
    swerve = unit[..., 2] * (across * limb).sum(axis=-1) / (level * length)
    swerve[:, layout.across] = 0.0
    change = -(1.0 + (unit * limb).sum(axis=-1) / length)[..., None]
    end_upright, end_across = change * upright + swerve[..., None] * across, change * across
    parts = []
    for normal, end, chosen in (
        (upright, end_upright, np.arange(len(layout.limb))),
        (across, end_across, layout.across),
    ):
        ends = layout.ends[layout.limb_strap[chosen]][:, :, None]
        coefficients = ends * end[:, chosen][:, :, None, :]
        coefficients[:, np.arange(len(chosen)), layout.limb[chosen]] += normal[:, chosen]
        parts.append(((normal * limb).sum(axis=-1)[:, chosen], coefficients))
    return parts


def _balanced(layout: _Layout, at: Floats, com_m: Floats) -> _Part:
    gap = com_m[:, None] - layout.base @ at
    residual = (gap * layout.base_direction).sum(axis=-1) - layout.base_offset
    fixed = -layout.base[:, :, None] * layout.base_direction[:, None, :]
    return residual, np.broadcast_to(fixed, (len(at), *fixed.shape))
