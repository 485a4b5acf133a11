"""The pose nearest to its target angles that meets every constraint exactly.

Damped Gauss-Newton on the constrained least-squares problem, batched. Small turns are taken about world axes
at each joint, so no angle convention can lock, and a hinge's lie along its axis. The target term's gradient
is exact because each joint has one weight, and the rows' derivatives are analytic.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Bools, Floats, Ints
from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.kinematics import TURNS, Placement, Pose, place
from leanmark.mechanics.motions import MOTIONS
from leanmark.mechanics.rotation import rotation_from_vector, vector_from_rotation
from leanmark.mechanics.rows import Rows, evaluate, lay_out, residuals

CLOSURE_TOLERANCE_M: Final = 1e-6
"""No pose is returned as met with a residual above this [m] (the project's own bar)."""
PIECE: Final = 256
"""Poses solved together: enough to hide the cost of a call, few enough for the processor's cache."""
_STEP_TOLERANCE: Final = 1e-6
_LARGEST_TURN: Final = 0.5
_MOST_STEPS: Final = 30
_PATIENCE: Final = 6
_FAR_M: Final = 1e-3
"""A pose is given up when its residual stays above this and falls by less than three tenths in _PATIENCE
steps; poses that can be met fall a thousandfold in as many."""
_ROOT_WEIGHT: Final = 1e-4
"""Weight of the pelvis's place [1/m^2]: small, since contacts and straps decide it."""
_DAMPING: Final = 1e-15
_NEAR_M: Final = 1e-2
_STRETCH: Final = (0.2, 10.0)
_FREE_STEPS: Final = 12
_STRETCH_GROWTH: Final = 1.5
"""Most by which the stretch grows in a step after the free ones: it could else swing between two values for
ever. Nearly all poses are solved within the free steps."""


@dataclass(frozen=True)
class Targets:
    """The pose wanted, and how firmly.

    pose: N poses, or one for all. weight: (18,) or (N, 18) pull of each joint towards its target [1/rad^2].
    """

    pose: Pose
    weight: Floats

    def take(self, index: Ints) -> Targets:
        """The targets of the poses at ``index``."""
        shared = len(self.pose.root_m) == 1
        weight = self.weight if self.weight.ndim == 1 or len(self.weight) == 1 else self.weight[index]
        return Targets(self.pose if shared else self.pose.take(index), weight)


@dataclass(frozen=True)
class PoseSolution:
    """pose: N poses; residual_m: (N,) largest constraint residual [m]; rows_m: (N, K) each row's;
    met: (N,) whether the residual is within tolerance; steps: (N,) steps taken."""

    pose: Pose
    residual_m: Floats
    rows_m: Floats
    met: Bools
    steps: Ints

    def take(self, index: Ints) -> PoseSolution:
        """The poses at ``index``."""
        own = (self.residual_m[index], self.rows_m[index], self.met[index], self.steps[index])
        return PoseSolution(self.pose.take(index), *own)


def _yield(weight: Floats) -> Floats:
    """Inverse weights of the 57 small motions, (1 or N, 57)."""
    turns = np.repeat(1.0 / np.atleast_2d(weight), 3, axis=1)
    return np.concatenate([turns, np.full((len(turns), 3), 1.0 / _ROOT_WEIGHT)], axis=1)


def _offset(pose: Pose, target: Pose, placement: Placement) -> Floats:
    """How far each pose is from its target: (N, 57) small motions about world axes [rad, m]."""
    own = vector_from_rotation(np.swapaxes(target.rotation, -1, -2) @ pose.rotation)
    turns = (placement.rotation @ own[..., None]).reshape(len(own), TURNS)
    return np.concatenate([turns, pose.root_m - target.root_m], axis=1)


def _moved(pose: Pose, placement: Placement, step: Floats) -> Pose:
    """Poses after small motions about world axes; a hinge's turn lies along its axis, so it stays one."""
    turns = step[:, :TURNS].reshape(-1, SEGMENT_COUNT, 3, 1)
    own = (np.swapaxes(placement.rotation, -1, -2) @ turns)[..., 0]
    return Pose(pose.root_m + step[:, TURNS:], pose.rotation @ rotation_from_vector(own))


def _step(offset: Floats, residual: Floats, rows: Floats, give: Floats) -> tuple[Floats, Floats]:
    """One Gauss-Newton step, in two parts: onto the linearised rows, and along them towards the target.

    The derivatives are made anew at every step. Kept ones are quicker, but stop short of the nearest pose by
    some milliradians, and by others at each node of a rep: accelerations then come out wrong by half.
    """
    weighted = rows * give[:, None, :]
    normal = weighted @ np.swapaxes(rows, -1, -2)
    diagonal = np.arange(normal.shape[-1])
    normal[:, diagonal, diagonal] *= 1.0 + _DAMPING
    asked = np.stack([residual, (rows @ offset[..., None])[..., 0]], axis=-1)
    back = np.swapaxes(weighted, -1, -2) @ np.linalg.solve(normal, asked)
    return -back[..., 0], back[..., 1] - offset


def _damped(step: Floats) -> Floats:
    """The step, shortened where a joint would turn too far at once."""
    largest = np.abs(step[:, :TURNS]).max(axis=1)
    damped: Floats = step * np.minimum(1.0, _LARGEST_TURN / np.maximum(largest, 1e-12))[:, None]
    return damped


def _stretched(stretch: Floats, before: Floats, along: Floats, number: int) -> Floats:
    """How much to stretch step ``number`` along the rows, (N,): Aitken's rule (Irons and Tuck 1969, Int J
    Numer Methods Eng 1:275, from memory) from the last two steps, since these shrink by a steady factor."""
    change = along - before
    fall = (change**2).sum(axis=1)
    rule = -stretch * (before * change).sum(axis=1) / np.where(fall > 0.0, fall, 1.0)
    growth = _STRETCH_GROWTH if number >= _FREE_STEPS else np.inf
    most = np.minimum(_STRETCH[1], growth * stretch)
    return np.where(fall > 0.0, np.clip(rule, _STRETCH[0], most), 1.0)


def solve_pose(
    bodies: Bodies, targets: Targets, constraints: Constraints, count: int, start: Pose | None = None
) -> PoseSolution:
    """Solve ``count`` poses; ``bodies`` and ``targets`` hold that many or one for all.

    Poses whose constraints cannot be met come back with ``met`` false and the nearest pose found; the
    caller turns the rows left open into a reason. Every pose is solved on its own, so a batch and a
    single call give the same answer.
    """
    return solve_rows(bodies, targets, lay_out(constraints), count, start)


def solve_rows(
    bodies: Bodies, targets: Targets, rows: Rows, count: int, start: Pose | None = None
) -> PoseSolution:
    """``solve_pose`` for constraints that are laid out already; large batches are solved in pieces that fit
    the processor's cache.

    Poses left open are tried once more by way of the nearest pose with all joints alike firm, since a stiff
    body can get stuck on the way to a pose that it could take.
    """
    solution = _solve_pieces(bodies, targets, rows, count, start)
    index = np.flatnonzero(~solution.met)
    if len(index):
        people = bodies.take(index) if len(bodies.body_mass_kg) > 1 else bodies
        wanted, own = targets.take(index), rows.take(index)
        alike = replace(wanted, weight=np.ones(SEGMENT_COUNT))
        begin = start.take(index) if start is not None and len(start.root_m) > 1 else start
        by_way = _solve_pieces(people, alike, own, len(index), begin)
        again = _solve_pieces(people, wanted, own, len(index), by_way.pose)
        solution = merged(solution, again, index)
    return solution


def merged(whole: PoseSolution, part: PoseSolution, index: Ints) -> PoseSolution:
    """``whole`` with the poses at ``index`` replaced by those of ``part`` that are met."""
    index, part = index[part.met], part.take(np.flatnonzero(part.met))
    for kept, new in (
        (whole.pose.root_m, part.pose.root_m),
        (whole.pose.rotation, part.pose.rotation),
        (whole.residual_m, part.residual_m),
        (whole.rows_m, part.rows_m),
        (whole.met, part.met),
        (whole.steps, part.steps),
    ):
        kept[index] = new
    return whole


def _solve_pieces(
    bodies: Bodies, targets: Targets, rows: Rows, count: int, start: Pose | None
) -> PoseSolution:
    if count <= PIECE:
        return _solve_piece(bodies, targets, rows, count, start)
    parts = []
    for first in range(0, count, PIECE):
        index = np.arange(first, min(first + PIECE, count))
        people = bodies.take(index) if len(bodies.body_mass_kg) > 1 else bodies
        begin = start.take(index) if start is not None and len(start.root_m) > 1 else start
        parts.append(_solve_piece(people, targets.take(index), rows.take(index), len(index), begin))
    return _joined(parts)


def _joined(parts: Sequence[PoseSolution]) -> PoseSolution:
    pose = Pose(
        np.concatenate([part.pose.root_m for part in parts]),
        np.concatenate([part.pose.rotation for part in parts]),
    )
    return PoseSolution(
        pose,
        np.concatenate([part.residual_m for part in parts]),
        np.concatenate([part.rows_m for part in parts]),
        np.concatenate([part.met for part in parts]),
        np.concatenate([part.steps for part in parts]),
    )


def _solve_piece(
    bodies: Bodies, targets: Targets, rows: Rows, count: int, start: Pose | None
) -> PoseSolution:
    begin = start if start is not None else targets.pose
    pose = Pose(
        np.broadcast_to(begin.root_m, (count, 3)).copy(),
        np.broadcast_to(begin.rotation, (count, SEGMENT_COUNT, 3, 3)).copy(),
    )
    taken = np.zeros(count, dtype=np.intp)
    best = np.full((count, 2), np.inf)
    still_open = np.arange(count)
    part = _Part.of(bodies, targets, rows, pose)
    for step in range(_MOST_STEPS):
        largest, residual = _advance(part, step)
        pose.root_m[still_open], pose.rotation[still_open] = part.pose.root_m, part.pose.rotation
        taken[still_open] += 1
        keep = (largest > _STEP_TOLERANCE) & ~_stalled(best, still_open, residual, step)
        if not keep.any():
            break
        if not keep.all():
            still_open, part = still_open[keep], part.take(np.flatnonzero(keep))
    rows_m = residuals(rows, bodies, place(bodies, pose)).residual
    residual_m = np.abs(rows_m).max(axis=1)
    return PoseSolution(pose, residual_m, rows_m, residual_m <= CLOSURE_TOLERANCE_M, taken)


@dataclass
class _Part:
    """Poses still being solved, with all that belongs to them; along: the last step along the rows; stretch:
    how much it was stretched."""

    bodies: Bodies
    targets: Targets
    rows: Rows
    pose: Pose
    along: Floats
    stretch: Floats

    @classmethod
    def of(cls, bodies: Bodies, targets: Targets, rows: Rows, pose: Pose) -> _Part:
        count = len(pose.root_m)
        return cls(bodies, targets, rows, pose, np.zeros((count, MOTIONS)), np.ones(count))

    def take(self, index: Ints) -> _Part:
        """The poses at ``index``."""
        return _Part(
            self.bodies.take(index) if len(self.bodies.body_mass_kg) > 1 else self.bodies,
            self.targets.take(index),
            self.rows.take(index),
            self.pose.take(index),
            self.along[index],
            self.stretch[index],
        )


def _advance(part: _Part, number: int) -> tuple[Floats, Floats]:
    """Move the poses by one step; returns the size of each plain step and the residual before it."""
    placement = place(part.bodies, part.pose)
    residual, rows = evaluate(part.rows, part.bodies, placement)
    offset = _offset(part.pose, part.targets.pose, placement)
    onto, along = _step(offset, residual, rows, _yield(part.targets.weight))
    open_m = np.abs(residual).max(axis=1)
    stretched = _stretched(part.stretch, part.along, along, number)
    stretch = np.where(open_m < _NEAR_M, stretched, 1.0)
    part.pose = _moved(part.pose, placement, _damped(onto + along * stretch[:, None]))
    part.along, part.stretch = along, stretch
    return np.abs(onto + along).max(axis=1), open_m


def _stalled(best: Floats, index: Ints, residual: Floats, step: int) -> Bools:
    """Whether a pose's residual is large and has not come down over the last ``_PATIENCE`` steps: its
    constraints cannot be met. ``best`` keeps each pose's least residual of this spell and the one before."""
    best[index, 1] = np.minimum(best[index, 1], residual)
    if step % _PATIENCE != _PATIENCE - 1:
        return np.zeros(len(index), dtype=bool)
    stalled: Bools = (best[index, 1] > _FAR_M) & (best[index, 1] > 0.7 * best[index, 0])
    best[index, 0] = best[index, 1]
    best[index, 1] = np.inf
    return stalled
