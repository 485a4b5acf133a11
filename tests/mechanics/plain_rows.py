"""Every kind of row written out plainly for one pose, and small motions of a pose, to check the engine's
arrays against."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import (
    AlignRow,
    BalanceRow,
    Constraints,
    PlantedRow,
    StrapRow,
    SumRow,
)
from leanmark.mechanics.kinematics import Placement, Pose, place
from leanmark.mechanics.rotation import rotation_from_vector

MOTION_COUNT = 3 * SEGMENT_COUNT + 3
AHEAD, ACROSS = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])


def of_pose(value: Floats, row: int, own_axes: int) -> Floats:
    """The value of one pose, where it may be shared by all."""
    array = np.asarray(value, dtype=float)
    return np.asarray(array[row] if array.ndim > own_axes else array)


@dataclass(frozen=True)
class Plain:
    """One pose of a batch, its rows read one by one from the words of their docstrings."""

    bodies: Bodies
    placement: Placement
    row: int

    def at(self, point: int) -> Floats:
        """A body point in the world."""
        found: Floats = self.placement.point_m(self.bodies, np.array([point]))[self.row, 0]
        return found

    def end(self, strap: StrapRow) -> Floats:
        """The mean of a strap's holding points."""
        return sum((self.at(p) for p in strap.points), np.zeros(3)) / len(strap.points)

    def line(self, strap: StrapRow) -> Floats:
        """From the anchor to the strap's end."""
        return self.end(strap) - of_pose(strap.anchor_m, self.row, 1)

    def planted(self, kept: PlantedRow) -> float:
        point = self.at(kept.point) - (0.0 if kept.other is None else self.at(kept.other))
        return float(of_pose(kept.direction, self.row, 1) @ point - of_pose(kept.value, self.row, 0))

    def reach(self, strap: StrapRow) -> float:
        return float(np.linalg.norm(self.line(strap)))

    def aligned(self, kept: AlignRow, upright: bool) -> float:
        line = self.line(kept.strap)
        level = np.cross([0.0, 0.0, 1.0], line)
        level = level / np.linalg.norm(level)
        square = np.cross(level, line / np.linalg.norm(line)) if upright else level
        return float(square @ (self.at(kept.point) - self.end(kept.strap)))

    def balanced(self, kept: BalanceRow) -> float:
        mass = self.bodies.mass_kg[self.row % len(self.bodies)]
        centre = mass @ self.placement.com_m(self.bodies)[self.row] / mass.sum()
        base = sum((weight * self.at(p) for p, weight in kept.points), np.zeros(3))
        return float(kept.direction @ (centre - base) - kept.offset)


def plain_residuals(constraints: Constraints, bodies: Bodies, placement: Placement, row: int) -> Floats:
    """Residuals (R,) [m] of one pose, in the order that the engine states."""
    plain = Plain(bodies, placement, row)
    return np.array(
        [
            *(plain.planted(kept) for kept in constraints.planted),
            *(plain.reach(kept) - float(of_pose(kept.length_m, row, 0)) for kept in constraints.straps),
            *(
                sum(plain.reach(side) for side in kept.sides) - float(of_pose(kept.length_m, row, 0))
                for kept in constraints.sums
            ),
            *(plain.aligned(kept, upright=True) for kept in constraints.aligned),
            *(plain.aligned(kept, upright=False) for kept in constraints.aligned if not kept.upright_only),
            *(plain.balanced(kept) for kept in constraints.balanced),
        ]
    )


def moved(pose: Pose, bodies: Bodies, motion: Floats) -> Pose:
    """The poses after one small motion (57,): turns of every joint about world axes [rad], hinges along their
    own alone, and a shift of the pelvis [m]. Turns of one joint carry all that lies beyond it."""
    placed = place(bodies, pose)
    rotation = pose.rotation.copy()
    for joint, turn in enumerate(motion[:-3].reshape(SEGMENT_COUNT, 3)):
        if not turn.any():
            continue
        for row in range(len(rotation)):
            world = placed.rotation[row, joint]
            axis = world[:, 1]
            kept = axis * (axis @ turn) if is_hinge(JOINTS[joint]) else turn
            rotation[row, joint] = rotation[row, joint] @ rotation_from_vector(world.T @ kept)
    return Pose(pose.root_m + motion[-3:], rotation)


def plain_derivatives(constraints: Constraints, bodies: Bodies, pose: Pose, row: int, step: float) -> Floats:
    """Central differences (R, 57) of one pose's residuals."""
    slopes = []
    for motion in step * np.eye(MOTION_COUNT):
        ends = [
            plain_residuals(constraints, bodies, place(bodies, moved(pose, bodies, sign * motion)), row)
            for sign in (1.0, -1.0)
        ]
        slopes.append((ends[0] - ends[1]) / (2.0 * step))
    return np.stack(slopes, axis=1)


def every_kind(count: int) -> Constraints:
    """Rows of every kind, some with values shared by all poses and some by pose; limbs are out of line."""
    p = POINT_INDEX
    draw = np.random.default_rng(11)
    anchor = np.tile([0.2, 0.1, 2.4], (count, 1)) + draw.normal(0.0, 0.1, (count, 3))
    left = StrapRow((p["left_grip"],), anchor, np.asarray(1.3))
    both = StrapRow((p["left_grip"], p["right_grip"]), np.array([0.0, 0.0, 2.5]), np.full(count, 1.1))
    right = StrapRow((p["right_instep"],), anchor, np.asarray(0.0))
    slanted = draw.normal(size=(count, 3))
    slanted /= np.linalg.norm(slanted, axis=1, keepdims=True)
    return Constraints(
        planted=(
            PlantedRow(p["left_heel"], np.array([0.0, 0.0, 1.0]), np.asarray(0.02)),
            PlantedRow(p["right_toe_tip"], slanted, np.linspace(0.1, 0.3, count)),
            PlantedRow(p["right_palm_heel"], slanted, np.asarray(0.1), other=p["left_knee_front"]),
        ),
        straps=(left, both),
        sums=(SumRow((left, right), np.asarray(2.5)),),
        aligned=(
            AlignRow(p["left_elbow_tip"], left),
            AlignRow(p["right_elbow_tip"], both, upright_only=True),
            AlignRow(p["chest"], both),
            AlignRow(p["right_knee_front"], StrapRow((p["right_heel"],), anchor, np.asarray(1.0))),
        ),
        balanced=(
            BalanceRow(
                ((p["left_heel"], 0.3), (p["left_ball_medial"], 0.7)), np.array([1.0, 0.0, 0.0]), 0.05
            ),
            BalanceRow(((p["pelvis_back"], 1.0),), np.array([0.0, 1.0, 0.0])),
        ),
    )


def limbs_in_line(bodies: Bodies, pose: Pose) -> Constraints:
    """Aligned rows of one pose whose limbs do lie on their straps' lines."""
    p = POINT_INDEX
    plain = Plain(bodies, place(bodies, pose), 0)
    rows = []
    for point, ends, only in (
        ("left_elbow_tip", ("left_grip",), False),
        ("chest", ("left_grip", "right_grip"), False),
        ("right_knee_front", ("right_heel",), True),
    ):
        strap = StrapRow(tuple(p[end] for end in ends), np.zeros(3), np.asarray(1.0))
        beyond = plain.end(strap) - plain.at(p[point])
        anchor = plain.end(strap) + 1.3 * beyond / np.linalg.norm(beyond)
        rows.append(AlignRow(p[point], StrapRow(strap.points, anchor, strap.length_m), only))
    return Constraints(aligned=tuple(rows))
