"""What a pose must keep exactly: planted points, taut straps, limbs in line with a strap.

Every constraint is one row: a number that must become zero. Planted points are rows of the form
``direction . (point - other point) - value``; a strap is ``|holds - anchor| - length``; an alignment
keeps a body point on the line from the anchor through the strap's holding point.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_SEGMENT
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.kinematics import DESCENDS, HINGE_SEGMENTS, TURNS, Placement


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
    points: Ints = field(init=False)

    def __post_init__(self) -> None:
        used: set[int] = {row.point for row in self.planted} | {row.point for row in self.aligned}
        used |= {row.other for row in self.planted if row.other is not None}
        used |= {point for row in self.balanced for point, _ in row.points}
        strap_rows = [*self.straps, *(s for row in self.sums for s in row.sides)]
        for strap in [*strap_rows, *(row.strap for row in self.aligned)]:
            used |= set(strap.points)
        object.__setattr__(self, "points", np.array(sorted(used), dtype=np.intp))

    def take(self, index: Ints) -> Constraints:
        """The same rows for the poses at ``index`` (per-pose values are selected, shared ones kept)."""

        def pick(values: Floats, base: int) -> Floats:
            array = np.asarray(values, dtype=float)
            return array[index] if array.ndim > base and len(array) > 1 else array

        def strap(row: StrapRow) -> StrapRow:
            return StrapRow(row.points, pick(row.anchor_m, 1), pick(row.length_m, 0))

        return Constraints(
            tuple(PlantedRow(r.point, pick(r.direction, 1), pick(r.value, 0), r.other) for r in self.planted),
            tuple(strap(r) for r in self.straps),
            tuple(SumRow((strap(r.sides[0]), strap(r.sides[1])), pick(r.length_m, 0)) for r in self.sums),
            tuple(AlignRow(r.point, strap(r.strap), r.upright_only) for r in self.aligned),
            self.balanced,
        )


@dataclass
class _Rows:
    """Rows under assembly: residuals, and half-rows (row number, point, direction) whose sum is a row."""

    residual: list[Floats] = field(default_factory=list)
    row: list[int] = field(default_factory=list)
    point: list[int] = field(default_factory=list)
    direction: list[Floats] = field(default_factory=list)
    com: list[tuple[int, Floats]] = field(default_factory=list)

    def add(self, residual: Floats, parts: list[tuple[int, Floats]]) -> None:
        for point, direction in parts:
            self.row.append(len(self.residual))
            self.point.append(point)
            self.direction.append(direction)
        self.residual.append(residual)


def evaluate(constraints: Constraints, bodies: Bodies, placement: Placement) -> tuple[Floats, Floats]:
    """Residuals (N, K) [m] and their derivatives (N, K, 57) at the placed bodies."""
    at = placement.point_m(bodies, constraints.points)
    where = {int(point): column for column, point in enumerate(constraints.points)}
    rows = _Rows()
    for planted in constraints.planted:
        _planted(rows, planted, at, where)
    for strap in constraints.straps:
        reach, parts = _strap(strap, at, where)
        rows.add(reach - strap.length_m, parts)
    for both in constraints.sums:
        (left, left_parts), (right, right_parts) = (_strap(side, at, where) for side in both.sides)
        rows.add(left + right - both.length_m, left_parts + right_parts)
    for aligned in constraints.aligned:
        _aligned(rows, aligned, at, where)
    com = _MassCentre.of(bodies, placement) if constraints.balanced else None
    for balanced in constraints.balanced:
        assert com is not None
        _balanced(rows, balanced, at, where, com)
    residual, derivative = _assemble(rows, at, where, placement)
    for row, direction in rows.com:
        assert com is not None
        derivative[:, row] += com.derivative(placement, direction)
    return residual, derivative


def _planted(rows: _Rows, row: PlantedRow, at: Floats, where: dict[int, int]) -> None:
    direction = np.broadcast_to(row.direction, (len(at), 3))
    point = at[:, where[row.point]]
    parts = [(row.point, direction)]
    if row.other is not None:
        point = point - at[:, where[row.other]]
        parts.append((row.other, -direction))
    rows.add(np.einsum("ni,ni->n", direction, point) - row.value, parts)


def _strap(row: StrapRow, at: Floats, where: dict[int, int]) -> tuple[Floats, list[tuple[int, Floats]]]:
    """Distance anchor to holding point (N,), and its half-rows."""
    holding = at[:, [where[p] for p in row.points]].mean(axis=1)
    line = holding - row.anchor_m
    reach = np.linalg.norm(line, axis=-1)
    unit = line / np.maximum(reach, 1e-9)[:, None] / len(row.points)
    return reach, [(point, unit) for point in row.points]


def _aligned(rows: _Rows, row: AlignRow, at: Floats, where: dict[int, int]) -> None:
    """The offset of the point from the strap's line, across it; derivatives include the line's own turn."""
    holding = at[:, [where[p] for p in row.strap.points]].mean(axis=1)
    line = holding - row.strap.anchor_m
    length = np.maximum(np.linalg.norm(line, axis=-1), 1e-9)[:, None]
    unit = line / length
    limb = at[:, where[row.point]] - holding
    turn = 1.0 + np.einsum("ni,ni->n", unit, limb)[:, None] / length
    across = np.stack([-unit[:, 1], unit[:, 0], np.zeros(len(unit))], axis=-1)
    flat = np.linalg.norm(across, axis=-1, keepdims=True)
    across = np.where(flat > 1e-6, across / np.maximum(flat, 1e-9), [0.0, 1.0, 0.0])
    upright = np.cross(across, unit)
    for normal in (upright,) if row.upright_only else (upright, across):
        share = -normal * turn / len(row.strap.points)
        parts = [(row.point, normal)] + [(point, share) for point in row.strap.points]
        rows.add(np.einsum("ni,ni->n", normal, limb), parts)


@dataclass(frozen=True)
class _MassCentre:
    """The whole body's mass centre (N, 3), and by joint the share of mass beyond it (N, 18) and that
    share's first moment (N, 18, 3) [m]."""

    at: Floats
    share: Floats
    moment: Floats

    @classmethod
    def of(cls, bodies: Bodies, placement: Placement) -> _MassCentre:
        share = bodies.mass_kg / bodies.mass_kg.sum(axis=1, keepdims=True)
        moment = np.einsum("js,nsi->nji", DESCENDS, share[..., None] * placement.com_m(bodies))
        return cls(moment[:, 0], share @ DESCENDS.T, moment)

    def derivative(self, placement: Placement, direction: Floats) -> Floats:
        """Derivative of ``direction . mass centre`` for the 57 small motions, (N, 57)."""
        arm = self.moment - self.share[..., None] * placement.joint_m
        turns = _cross(arm, np.broadcast_to(direction, arm.shape))
        turns[:, HINGE_SEGMENTS] = _along_hinges(turns[:, HINGE_SEGMENTS], placement)
        shift = np.broadcast_to(direction, (len(arm), 3))
        return np.concatenate([turns.reshape(len(arm), TURNS), shift], axis=1)


def _balanced(rows: _Rows, row: BalanceRow, at: Floats, where: dict[int, int], com: _MassCentre) -> None:
    base = sum(weight * at[:, where[point]] for point, weight in row.points)
    direction = np.broadcast_to(row.direction, (len(at), 3))
    rows.com.append((len(rows.residual), row.direction))
    parts = [(point, -weight * direction) for point, weight in row.points]
    rows.add(np.einsum("ni,ni->n", direction, com.at - base) - row.offset, parts)


def _along_hinges(turns: Floats, placement: Placement) -> Floats:
    """Keep of each hinge's turn (N, ..., 6, 3) only what lies along its axis."""
    axis = placement.hinge_axis()
    if turns.ndim > axis.ndim:
        axis = axis[:, None]
    kept: Floats = (turns * axis).sum(axis=-1, keepdims=True) * axis
    return kept


@dataclass(frozen=True)
class _Pairs:
    """Every (half-row, joint that moves its point), in groups within which no (row, joint) recurs."""

    half: Ints
    joint: Ints
    row: Ints
    groups: tuple[slice, ...]


@cache
def _pairs(row: tuple[int, ...], point: tuple[int, ...]) -> _Pairs:
    """Pairs of the half-rows given by their row numbers and points; half-rows of one row stand together."""
    rank = [sum(1 for earlier in row[:k] if earlier == row[k]) for k in range(len(row))]
    half: list[int] = []
    joint: list[int] = []
    groups: list[slice] = []
    for level in range(max(rank) + 1):
        first = len(half)
        for k in [k for k in range(len(row)) if rank[k] == level]:
            joints = np.flatnonzero(DESCENDS[:, POINT_SEGMENT[point[k]]])
            half += [k] * len(joints)
            joint += joints.tolist()
        groups.append(slice(first, len(half)))
    halves = np.array(half, dtype=np.intp)
    return _Pairs(halves, np.array(joint, dtype=np.intp), np.array(row, dtype=np.intp)[halves], tuple(groups))


def _assemble(rows: _Rows, at: Floats, where: dict[int, int], placement: Placement) -> tuple[Floats, Floats]:
    """Derivative of ``direction . point`` for a turn about a joint: ``(point - joint) x direction``."""
    columns = np.array([where[p] for p in rows.point], dtype=np.intp)
    direction = np.stack(rows.direction, axis=1)
    pairs = _pairs(tuple(rows.row), tuple(rows.point))
    arm = at[:, columns[pairs.half]] - placement.joint_m[:, pairs.joint]
    turned = _cross(arm, direction[:, pairs.half])
    count, wide = len(rows.residual), TURNS + 3
    out = np.zeros((len(at), count, wide))
    turns = np.zeros((len(at), count, SEGMENT_COUNT, 3))
    for group in pairs.groups:
        turns[:, pairs.row[group], pairs.joint[group]] += turned[:, group]
    turns[:, :, HINGE_SEGMENTS] = _along_hinges(turns[:, :, HINGE_SEGMENTS], placement)
    out[..., :TURNS] = turns.reshape(len(at), count, TURNS)
    for k, row in enumerate(rows.row):
        out[:, row, TURNS:] += direction[:, k]
    return np.stack(rows.residual, axis=1), out


def _cross(a: Floats, b: Floats) -> Floats:
    """Cross product by components, several times quicker than the general one on short arrays."""
    out = np.empty(np.broadcast_shapes(a.shape, b.shape))
    out[..., 0] = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    out[..., 1] = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    out[..., 2] = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return out
