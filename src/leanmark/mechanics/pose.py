"""The pose nearest to its target angles that meets every constraint exactly.

Damped Gauss-Newton on the constrained least-squares problem, batched. Small turns are taken about world
axes at each joint, so no angle convention can lock; the target term's gradient is exact because each
joint has one weight, and the rows' derivatives are analytic.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Bools, Floats, Ints
from leanmark.mechanics.constraints import Constraints, evaluate
from leanmark.mechanics.kinematics import TURNS, Placement, Pose, place
from leanmark.mechanics.rotation import rotation_from_vector, vector_from_rotation

CLOSURE_TOLERANCE_M: Final = 1e-6
"""No pose is returned as met with a residual above this [m] (the project's own bar)."""
_STEP_TOLERANCE: Final = 1e-7
_LARGEST_TURN: Final = 0.5
_MOST_STEPS: Final = 60
_ROOT_WEIGHT: Final = 1e-4
"""Weight of the pelvis's place [1/m^2]: small, since contacts and straps decide it."""
_DAMPING: Final = 1e-12


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


def _yield(weight: Floats) -> Floats:
    """Inverse weights of the 57 small motions, (1 or N, 57)."""
    turns = np.repeat(1.0 / np.atleast_2d(weight), 3, axis=1)
    return np.concatenate([turns, np.full((len(turns), 3), 1.0 / _ROOT_WEIGHT)], axis=1)


def _offset(pose: Pose, target: Pose, placement: Placement) -> Floats:
    """How far each pose is from its target: (N, 57) small motions about world axes [rad, m]."""
    relative = np.swapaxes(target.rotation, -1, -2) @ pose.rotation
    turns = (placement.rotation @ vector_from_rotation(relative)[..., None])[..., 0]
    return np.concatenate([turns.reshape(len(pose.root_m), -1), pose.root_m - target.root_m], axis=1)


def _moved(pose: Pose, placement: Placement, step: Floats) -> Pose:
    turns = step[:, :TURNS].reshape(-1, SEGMENT_COUNT, 3, 1)
    local = (np.swapaxes(placement.rotation, -1, -2) @ turns)[..., 0]
    return Pose(pose.root_m + step[:, TURNS:], pose.rotation @ rotation_from_vector(local))


def _step(offset: Floats, residual: Floats, rows: Floats, give: Floats) -> Floats:
    """One Gauss-Newton step of: least weighted offset, subject to the linearised rows being zero."""
    weighted = rows * give[:, None, :]
    normal = weighted @ np.swapaxes(rows, -1, -2)
    count = normal.shape[-1]
    scale = np.trace(normal, axis1=-2, axis2=-1)[:, None, None] / count
    normal += scale * _DAMPING * np.eye(count)
    wanted = residual - (rows @ offset[..., None])[..., 0]
    multiplier = np.linalg.solve(normal, wanted[..., None])
    step = -offset - (np.swapaxes(weighted, -1, -2) @ multiplier)[..., 0]
    largest = np.abs(step[:, :TURNS]).max(axis=1)
    damped: Floats = step * np.minimum(1.0, _LARGEST_TURN / np.maximum(largest, 1e-12))[:, None]
    return damped


def solve_pose(
    bodies: Bodies, targets: Targets, constraints: Constraints, count: int, start: Pose | None = None
) -> PoseSolution:
    """Solve ``count`` poses; ``bodies`` and ``targets`` hold that many or one for all.

    Poses whose constraints cannot be met come back with ``met`` false and the nearest pose found; the
    caller turns the rows left open into a reason. Every pose is solved on its own, so a batch and a
    single call give the same answer.
    """
    begin = start if start is not None else targets.pose
    pose = Pose(
        np.broadcast_to(begin.root_m, (count, 3)).copy(),
        np.broadcast_to(begin.rotation, (count, SEGMENT_COUNT, 3, 3)).copy(),
    )
    taken = np.zeros(count, dtype=np.intp)
    open_rows = np.arange(count)
    for _ in range(_MOST_STEPS):
        moved, largest = _advance(bodies, targets, constraints, pose.take(open_rows), open_rows, count)
        pose.root_m[open_rows], pose.rotation[open_rows] = moved.root_m, moved.rotation
        taken[open_rows] += 1
        open_rows = open_rows[largest > _STEP_TOLERANCE]
        if not len(open_rows):
            break
    rows_m, _ = evaluate(constraints, bodies, place(bodies, pose))
    residual_m = np.abs(rows_m).max(axis=1)
    return PoseSolution(pose, residual_m, rows_m, residual_m <= CLOSURE_TOLERANCE_M, taken)


def _advance(
    bodies: Bodies, targets: Targets, constraints: Constraints, pose: Pose, index: Ints, count: int
) -> tuple[Pose, Floats]:
    """One step for the poses still open; returns them moved, and the size of each step."""
    if len(index) < count:
        bodies = bodies.take(index) if len(bodies.body_mass_kg) > 1 else bodies
        targets, constraints = targets.take(index), constraints.take(index)
    placement = place(bodies, pose)
    residual, rows = evaluate(constraints, bodies, placement)
    step = _step(_offset(pose, targets.pose, placement), residual, rows, _yield(targets.weight))
    return _moved(pose, placement, step), np.abs(step).max(axis=1)
