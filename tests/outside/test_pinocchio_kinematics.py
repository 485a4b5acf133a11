"""Where the body is and how its points move, against Pinocchio.

Reference: Pinocchio (Carpentier et al. 2019, The Pinocchio C++ library, SII), PyPI ``pin``. The person is
built in the test from the same arrays; joints, frames and Jacobians are Pinocchio's. Each constraint row is
written out here anew as a plain function of world points; its slope for those points is taken by a complex
step (exact to double precision, no difference is formed) and carried through Pinocchio's Jacobians.

Ground of the tolerance: both sides work in double precision on lengths of some metres, so that 1e-9, the
project's bar, leaves more than four digits for round-off.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
import pinocchio as pin
import pytest
from tests.outside.panel import POINT_NAMES, people, solved
from tests.outside.pinocchio_model import configuration, person_model

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINTS
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import AlignRow, BalanceRow, Constraints, PlantedRow, StrapRow, SumRow
from leanmark.mechanics.kinematics import Placement, Pose, place
from leanmark.mechanics.rotation import about, rotation_from_vector
from leanmark.mechanics.rows import evaluate, lay_out
from leanmark.moves.library import load_move, move_names

EXACT = 1e-9
MASS_CENTRE = -1  # stands among point numbers for the whole body's mass centre
UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class Reading:
    """One row as a plain function of the world places (Q, 3) of some points, which may be complex."""

    points: tuple[int, ...]
    of: Callable[[Floats], Floats]


@pytest.fixture(scope="module")
def models() -> list[pin.Model]:
    """One model for each row of the panel."""
    return [person_model(people().bodies, row) for row in range(len(people().bodies))]


def in_line(constraints: Constraints, bodies: Bodies, placement: Placement) -> Constraints:
    """The same rows with the anchor of every limb held in line put exactly on the line through limb and strap
    end: there, and only there, the slope of such a row is exact, by the engine's own word."""

    def moved(row: AlignRow) -> AlignRow:
        if row.upright_only:
            return row
        end = placement.point_m(bodies, np.array(row.strap.points)).mean(axis=1)
        away = end - placement.point_m(bodies, np.array([row.point]))[:, 0]
        anchor_m = end + 1.3 * away / np.linalg.norm(away, axis=1, keepdims=True)
        return replace(row, strap=replace(row.strap, anchor_m=anchor_m))

    return replace(constraints, aligned=tuple(moved(row) for row in constraints.aligned))


def any_poses(count: int) -> Pose:
    """Poses with every joint turned anyhow (hinges about their axis), from a fixed seed."""
    chance = np.random.default_rng(20)
    rotation = rotation_from_vector(chance.uniform(-1.5, 1.5, (count, SEGMENT_COUNT, 3)))
    for segment, joint in enumerate(JOINTS):
        if is_hinge(joint):
            rotation[:, segment] = about("y", chance.uniform(-2.5, 2.5, count))
    return Pose(chance.uniform(-2.0, 2.0, (count, 3)), rotation)


def placed(model: pin.Model, pose: Pose, row: int) -> pin.Data:
    """Pinocchio's places and Jacobians of one pose."""
    data, q = model.createData(), configuration(model, pose, row)
    pin.computeJointJacobians(model, data, q)
    pin.jacobianCenterOfMass(model, data, q)
    pin.updateFramePlacements(model, data)
    return data


def point_jacobian(model: pin.Model, data: pin.Data, point: int) -> Floats:
    """World velocity of a point, or of the mass centre, for Pinocchio's velocities; (3, nv)."""
    if point == MASS_CENTRE:
        return np.array(data.Jcom)
    frame = model.getFrameId(POINT_NAMES[point])
    return pin.getFrameJacobian(model, data, frame, pin.ReferenceFrame.LOCAL_WORLD_ALIGNED)[:3]


def by_small_motions(model: pin.Model, data: pin.Data, jacobian: Floats) -> Floats:
    """A (3, nv) Jacobian turned to the engine's 57 small motions: 18 turns about world axes, 3 shifts.

    Pinocchio counts a joint's turning rate in the child's axes, a hinge's along its own axis.
    """
    columns = []
    for segment, joint in enumerate(JOINTS):
        first, axes = model.idx_vs[segment + 1], data.oMi[segment + 1].rotation
        if segment == 0:
            columns.append(jacobian[:, 3:6] @ axes.T)
        elif is_hinge(joint):
            columns.append(np.outer(jacobian[:, first], axes[:, 1]))
        else:
            columns.append(jacobian[:, first : first + 3] @ axes.T)
    return np.concatenate([*columns, jacobian[:, :3] @ data.oMi[1].rotation.T], axis=1)


def mine(values: Floats, shape: tuple[int, ...], row: int) -> Floats:
    """The value of one pose where values are by pose, else the shared one."""
    array = np.asarray(values, dtype=float)
    return array[row] if array.ndim > len(shape) and len(array) > 1 else array.reshape(shape)


def length(line: Floats) -> Floats:
    return np.sqrt((line * line).sum())


def planted(line: PlantedRow, row: int) -> Reading:
    direction, value = mine(line.direction, (3,), row), mine(line.value, (), row)
    if line.other is None:
        return Reading((line.point,), lambda at: direction @ at[0] - value)
    return Reading((line.point, line.other), lambda at: direction @ (at[0] - at[1]) - value)


def strap(line: StrapRow, row: int) -> Reading:
    anchor_m, length_m = mine(line.anchor_m, (3,), row), mine(line.length_m, (), row)
    return Reading(line.points, lambda at: length(at.mean(axis=0) - anchor_m) - length_m)


def both_sides(line: SumRow, row: int) -> Reading:
    (one, other), held = line.sides, len(line.sides[0].points)
    first, second = mine(one.anchor_m, (3,), row), mine(other.anchor_m, (3,), row)
    length_m = mine(line.length_m, (), row)

    def of(at: Floats) -> Floats:
        return length(at[:held].mean(axis=0) - first) + length(at[held:].mean(axis=0) - second) - length_m

    return Reading((*one.points, *other.points), of)


def aligned(point: int, line: StrapRow, row: int, across: bool) -> Reading:
    """How far the limb's point, given first, is off the strap's line: level across it, or square to both."""
    anchor_m = mine(line.anchor_m, (3,), row)

    def of(at: Floats) -> Floats:
        end = at[1:].mean(axis=0)
        unit = (end - anchor_m) / length(end - anchor_m)
        level = np.array([-unit[1], unit[0], 0.0 * unit[2]])
        level = level / length(level)
        normal = level if across else np.cross(level, unit)
        return normal @ (at[0] - end)

    return Reading((point, *line.points), of)


def balanced(line: BalanceRow) -> Reading:
    weights = np.array([weight for _, weight in line.points])
    points = tuple(point for point, _ in line.points)
    return Reading(
        (MASS_CENTRE, *points), lambda at: line.direction @ (at[0] - weights @ at[1:]) - line.offset
    )


def readings(constraints: Constraints, row: int) -> Iterator[Reading]:
    """Every row in the engine's order."""
    yield from (planted(line, row) for line in constraints.planted)
    yield from (strap(line, row) for line in constraints.straps)
    yield from (both_sides(line, row) for line in constraints.sums)
    yield from (aligned(line.point, line.strap, row, False) for line in constraints.aligned)
    level = [line for line in constraints.aligned if not line.upright_only]
    yield from (aligned(line.point, line.strap, row, True) for line in level)
    yield from (balanced(line) for line in constraints.balanced)


def value_and_slope(reading: Reading, model: pin.Model, data: pin.Data) -> tuple[float, Floats]:
    """A row's residual, and its slope for the 57 small motions."""
    places = [
        data.com[0] if p == MASS_CENTRE else data.oMf[model.getFrameId(POINT_NAMES[p])].translation
        for p in reading.points
    ]
    at = np.array(places)
    slope = np.zeros(3 * SEGMENT_COUNT + 3)
    for number, point in enumerate(reading.points):
        coefficient = np.zeros(3)
        for axis in range(3):
            nudged = at.astype(complex)
            nudged[number, axis] += 1e-30j
            coefficient[axis] = np.imag(reading.of(nudged)) / 1e-30
        slope += coefficient @ by_small_motions(model, data, point_jacobian(model, data, point))
    return float(reading.of(at)), slope


def check_rows(constraints: Constraints, pose: Pose, person: Floats, models: list[pin.Model]) -> int:
    """Residuals and slopes of every row of every pose; returns how many rows there were."""
    bodies = people().bodies.take(person)
    placement = place(bodies, pose)
    constraints = in_line(constraints, bodies, placement)
    residual, derivative = evaluate(lay_out(constraints), bodies, placement)
    for row in range(len(residual)):
        model = models[person[row]]
        data = placed(model, pose, row)
        rows = [value_and_slope(reading, model, data) for reading in readings(constraints, row)]
        assert len(rows) == residual.shape[1]
        assert np.abs(np.array([value for value, _ in rows]) - residual[row]).max() < EXACT
        assert np.abs(np.array([slope for _, slope in rows]) - derivative[row]).max() < EXACT
    return residual.size


def check_places(placement: Placement, points: Floats, model: pin.Model, data: pin.Data, row: int) -> None:
    for segment in range(SEGMENT_COUNT):
        joint = data.oMi[segment + 1]
        assert np.abs(joint.translation - placement.joint_m[row, segment]).max() < EXACT
        assert np.abs(joint.rotation - placement.rotation[row, segment]).max() < EXACT
    frames = [data.oMf[model.getFrameId(name)].translation for name in POINTS]
    assert np.abs(np.array(frames) - points[row]).max() < EXACT


def test_joints_points_and_mass_centre_of_any_pose(models: list[pin.Model]) -> None:
    pose, person = any_poses(24), np.arange(24) % len(models)
    bodies = people().bodies.take(person)
    placement = place(bodies, pose)
    points, mass_centres = placement.point_m(bodies, np.arange(len(POINTS))), placement.com_m(bodies)
    for row in range(24):
        model = models[person[row]]
        data = placed(model, pose, row)
        check_places(placement, points, model, data, row)
        centre = bodies.mass_kg[row] @ mass_centres[row] / bodies.mass_kg[row].sum()
        assert np.abs(data.com[0] - centre).max() < EXACT


def test_rows_of_any_pose(models: list[pin.Model]) -> None:
    # Every kind of row; all but those of limbs in line are far from being met.
    beam = np.array([0.1, -0.2, 2.45])
    left, right, both = (
        StrapRow((POINT_NAMES.index("left_grip"),), beam, np.asarray(1.2)),
        StrapRow((POINT_NAMES.index("right_instep"),), -beam, np.asarray(1.7)),
        StrapRow((POINT_NAMES.index("left_grip"), POINT_NAMES.index("right_grip")), beam, np.asarray(0.9)),
    )
    tilted = np.array([0.6, 0.0, 0.8])
    single = [PlantedRow(point, tilted, np.asarray(0.3)) for point in range(len(POINTS))]
    constraints = Constraints(
        (*single, PlantedRow(3, UP, np.asarray(0.1), other=40), PlantedRow(8, tilted, np.zeros(()), other=9)),
        (left, right, both),
        (SumRow((left, right), np.asarray(3.0)), SumRow((both, right), np.asarray(2.0))),
        (AlignRow(POINT_NAMES.index("left_elbow_tip"), left), AlignRow(5, both, upright_only=True)),
        (BalanceRow(((3, 0.7), (12, 0.3)), UP, 0.02), BalanceRow(((20, 1.0),), tilted)),
    )
    assert check_rows(constraints, any_poses(12), np.arange(12) % len(models), models) > 0


@pytest.mark.parametrize("move_name", move_names())
def test_rows_of_the_library_at_its_solved_poses(move_name: str, models: list[pin.Model]) -> None:
    for rung in load_move(move_name).rungs:
        rep = solved(move_name, rung, 3)
        person = np.arange(rep.count).repeat(len(rep.nodes))
        if rep.solution.met.all():
            assert check_rows(rep.constraints, rep.solution.pose, person, models) > 0


def test_a_slope_taken_at_the_wrong_joint_is_seen(models: list[pin.Model]) -> None:
    pose = any_poses(1)
    bodies = people().bodies.take(np.zeros(1, dtype=np.intp))
    constraints = Constraints((PlantedRow(POINT_NAMES.index("left_heel"), UP, np.zeros(())),))
    _, derivative = evaluate(lay_out(constraints), bodies, place(bodies, pose))
    reading = next(readings(constraints, 0))
    _, slope = value_and_slope(reading, models[0], placed(models[0], pose, 0))
    assert np.abs(slope - np.roll(derivative[0, 0], 3)).max() > 1e6 * EXACT
