"""Which forces hold a position: the least-effort ones, and the range that the contacts allow.

Effort is the sum of squared joint moments, each as a share of the joint's reference strength, plus a
small squared share of body weight on every unknown so that equal points share alike. The quadratic
programme is handed to the dual active-set solver DAQP (Arnstrom, Bemporad and Axehill 2022, IEEE Trans
Autom Control 67:4362, from memory), one pose at a time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import daqp
import numpy as np

from leanmark.mechanics.arrays import Codes, Floats, Ints
from leanmark.mechanics.supports import Supports

EVEN_SHARING: Final = 1e-3
"""Weight of the squared share of body weight beside the squared strength shares; own figure."""
CONE_FACETS: Final = 8
"""Sides of the pyramid inside the friction cone: exact along x, y and the diagonals, at most 7.6 % low
between them, so never optimistic."""
NO_LIMIT: Final = 1e30
_PULL: Final = 1e3

HOLDS, SLIPS, LOOP_SLIPS, FALLS = 0, 1, 2, 3
"""What a position does: holds; needs more grip than there is; slips through the loop; cannot be balanced
by forces that only push (contacts) and pull (straps)."""


@dataclass(frozen=True)
class Programme:
    """N quadratic programmes in unknowns x = forces / body weight.

    effort: (N, R, G) and offset (N, R): effort is the squared length of ``offset - effort @ x``.
    balance: (N, 6, G), needed: (N, 6): ``balance @ x = needed``.
    """

    effort: Floats
    offset: Floats
    balance: Floats
    needed: Floats
    supports: Supports

    @property
    def unknowns(self) -> int:
        """G."""
        return int(self.balance.shape[-1])


def _facets(supports: Supports, friction_scale: float) -> Floats:
    """Rows ``a . x <= 0`` of every contact's friction pyramid, (8 C, G)."""
    angles = (np.arange(CONE_FACETS) + 0.5) * 2.0 * np.pi / CONE_FACETS
    rows = np.zeros((CONE_FACETS * len(supports.contacts), supports.unknown_count))
    for index, contact in enumerate(supports.contacts):
        block = rows[CONE_FACETS * index : CONE_FACETS * (index + 1)]
        first = supports.tension_count + 3 * index
        block[:, first], block[:, first + 1] = np.cos(angles), np.sin(angles)
        block[:, first + 2] = -contact.friction * friction_scale * np.cos(np.pi / CONE_FACETS)
    return rows


def _loop_rows(supports: Supports, ratio: float | None) -> Floats:
    """Rows ``a . x <= 0``: neither side's tension exceeds the other's by more than the loop's ratio."""
    if ratio is None or len(supports.straps) != 2:
        return np.zeros((0, supports.unknown_count))
    left, right = len(supports.straps[0].points), len(supports.straps[1].points)
    rows = np.zeros((2, supports.unknown_count))
    rows[0, :left], rows[0, left : left + right] = 1.0, -ratio
    rows[1, :left], rows[1, left : left + right] = -ratio, 1.0
    return rows


def _one_sided(supports: Supports) -> Ints:
    """Unknowns that cannot be negative: tensions and upward contact forces."""
    lifts = supports.tension_count + 3 * np.arange(len(supports.contacts)) + 2
    return np.concatenate([np.arange(supports.tension_count), lifts]).astype(np.intp)


@dataclass(frozen=True)
class _Limits:
    """Bounds and rows shared by all programmes of one kind of position."""

    rows: Floats
    upper: Floats
    lower: Floats
    sense: Codes

    @classmethod
    def of(cls, supports: Supports, friction_scale: float, ratio: float | None, one_sided: bool) -> _Limits:
        unknowns = supports.unknown_count
        inside = np.concatenate([_facets(supports, friction_scale), _loop_rows(supports, ratio)])
        if not one_sided:
            inside = inside[:0]
        upper = np.concatenate([np.full(unknowns, NO_LIMIT), np.zeros(len(inside) + 6)])
        lower = np.full(len(upper), -NO_LIMIT)
        if one_sided:
            lower[_one_sided(supports)] = 0.0
        sense = np.zeros(len(upper), dtype=np.int32)
        sense[-6:] = 5  # equality, in the solver's own coding
        rows = np.concatenate([inside, np.zeros((6, unknowns))])
        return cls(rows, upper, lower, sense)


def _solve_one(hessian: Floats, gradient: Floats, balance: Floats, needed: Floats, limits: _Limits) -> Floats:
    """The solution of one programme, or NaN where it has none."""
    limits.rows[-6:] = balance
    limits.upper[-6:] = limits.lower[-6:] = needed
    answer, _, flag, _ = daqp.solve(hessian, gradient, limits.rows, limits.upper, limits.lower, limits.sense)
    return np.asarray(answer) if flag == 1 else np.full(len(gradient), np.nan)


def _quadratic(programme: Programme) -> tuple[Floats, Floats]:
    turned = np.swapaxes(programme.effort, -1, -2)
    hessian = turned @ programme.effort + EVEN_SHARING * np.eye(programme.unknowns)
    return hessian, -(turned @ programme.offset[..., None])[..., 0]


def least_effort(programme: Programme) -> tuple[Floats, Ints]:
    """Forces (N, G) as shares of body weight, and what each position does (N,).

    Where a position cannot be held, the forces given are those it would need: with unlimited grip where it
    slips, with no slipping at the loop, and, where nothing else balances, with contacts that could also
    pull and straps that could also push (so a negative tension tells that the strap would go slack). They are
    NaN where even those cannot balance it, as on one single contact point.
    """
    supports = programme.supports
    hessian, gradient = _quadratic(programme)
    forces = np.full((len(hessian), programme.unknowns), np.nan)
    outcome = np.full(len(hessian), HOLDS, dtype=np.intp)
    open_rows = np.arange(len(hessian))
    trials = [(HOLDS, 1.0, supports.loop_ratio, True), (SLIPS, 100.0, supports.loop_ratio, True)]
    if supports.loop_ratio is not None:
        trials.append((LOOP_SLIPS, 100.0, None, True))
    trials.append((FALLS, 1.0, None, False))
    for code, friction_scale, ratio, one_sided in trials:
        limits = _Limits.of(supports, friction_scale, ratio, one_sided)
        for row in open_rows:
            forces[row] = _solve_one(
                hessian[row], gradient[row], programme.balance[row], programme.needed[row], limits
            )
            outcome[row] = code
        open_rows = open_rows[np.isnan(forces[open_rows, 0])]
        if not len(open_rows):
            break
    return forces, outcome


def extreme_forces(programme: Programme) -> Floats:
    """Forces (2, N, G) [share of body weight] with the least and the greatest total strap tension that the
    contacts allow; NaN where no allowed forces balance.

    Found as the least-effort programme with the total tension drawn strongly down or up, so exact up to that
    draw's share, below 1e-4.
    """
    supports = programme.supports
    hessian, gradient = _quadratic(programme)
    limits = _Limits.of(supports, 1.0, supports.loop_ratio, True)
    total = _total_tension(programme)
    ends = np.full((2, len(hessian), programme.unknowns), np.nan)
    for row in range(len(hessian)):
        for end, target in enumerate((0.0, 5.0)):
            pulled = hessian[row] * 1e-3 + _PULL * np.outer(total, total)
            drawn = gradient[row] * 1e-3 - _PULL * target * total
            ends[end, row] = _solve_one(pulled, drawn, programme.balance[row], programme.needed[row], limits)
    return ends


def tension_range(programme: Programme) -> tuple[Floats, Floats]:
    """Least and greatest total strap tension (N,) [share of body weight] that the contacts allow."""
    low, high = extreme_forces(programme) @ _total_tension(programme)
    return low, high


def _total_tension(programme: Programme) -> Floats:
    total = np.zeros(programme.unknowns)
    total[: programme.supports.tension_count] = 1.0
    return total
