"""The pose solver: constraints met, the nearest pose and no other, and honest about what cannot be."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from tests.mechanics.leaning import LEANING, TARGETS, WEIGHT, hanging
from tests.mechanics.plain_rows import plain_derivatives, plain_residuals
from tests.mechanics.scenes import people, posed, row_stand

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import BalanceRow, Constraints, PlantedRow
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.pose import CLOSURE_TOLERANCE_M, PIECE, PoseSolution, Targets, solve_pose
from leanmark.mechanics.reasons import CONTACT, STRAP_LONG, STRAP_SHORT, pose_reasons
from leanmark.mechanics.rotation import rotation_from_vector
from leanmark.mechanics.rows import evaluate, lay_out


def offset(pose: Pose, row: int) -> Floats:
    """How far a pose is from LEANING, (57,): turns about world axes and the pelvis's shift."""
    placed = place(people(), pose)
    relative = np.swapaxes(LEANING.rotation[0], -1, -2) @ pose.rotation[row]
    own = Rotation.from_matrix(relative).as_rotvec()
    world = np.einsum("sij,sj->si", placed.rotation[row], own)
    return np.concatenate([world.reshape(-1), pose.root_m[row] - LEANING.root_m[0]])


# the pelvis's place pulls with 1e-4 per m^2, as the solver states
PULL = np.concatenate([np.repeat(WEIGHT, 3), np.full(3, 1e-4)])


@settings(max_examples=10)
@given(
    mark=st.floats(-1.2, 0.0),
    strap=st.floats(1.2, 1.45),
    in_line=st.sampled_from(["both ways", "upright", ""]),
)
def test_every_row_is_met_to_a_micrometre(mark: float, strap: float, in_line: str) -> None:
    rows = hanging(np.array([mark]), strap, in_line)
    solution = solve_pose(people(), TARGETS, rows, 1)
    assert solution.met.all()
    written_out = plain_residuals(rows, people(), place(people(), solution.pose), 0)
    assert np.abs(written_out).max() <= CLOSURE_TOLERANCE_M == 1e-6
    np.testing.assert_allclose(solution.residual_m, np.abs(written_out).max(), rtol=0, atol=1e-12)
    np.testing.assert_allclose(solution.rows_m[0], written_out, rtol=0, atol=1e-12)


@pytest.mark.parametrize("in_line", ["both ways", "upright", ""])
@pytest.mark.parametrize("mark", [-1.1, -0.6, -0.1])
def test_the_pose_is_stationary(mark: float, in_line: str) -> None:
    # Karush, Kuhn and Tucker: at the nearest pose the pull towards the target is a combination of the rows'
    # slopes, here central differences of the rows written out, so that nothing of the solver is used
    rows = hanging(np.array([mark]), 1.35, in_line)
    pose = solve_pose(people(), TARGETS, rows, 1).pose
    slopes = plain_derivatives(rows, people(), pose, 0, 1e-5)
    pull = np.sqrt(PULL) * offset(pose, 0)
    scaled = (slopes / np.sqrt(PULL)).T
    left_over = pull - scaled @ np.linalg.lstsq(scaled, pull, rcond=None)[0]
    # the solver stops at steps of 1e-6 that shrink at least by half each: within 2e-6 rad or m of the place
    # where the pull vanishes
    assert np.abs(left_over / np.sqrt(PULL)).max() < 2e-6


@settings(max_examples=25)
@given(seed=st.integers(0, 2**32 - 1), size=st.floats(1e-3, 0.05))
def test_no_feasible_pose_nearby_is_nearer(seed: int, size: float) -> None:
    rows = hanging(np.array([-0.6]))
    best = solve_pose(people(), TARGETS, rows, 1).pose
    draw = np.random.default_rng(seed)
    turn = size * draw.normal(size=(1, SEGMENT_COUNT, 3))
    turn[:, [k for k, joint in enumerate(JOINTS) if is_hinge(joint)]] *= [0.0, 1.0, 0.0]
    nudged = Pose(best.root_m, best.rotation @ rotation_from_vector(turn))
    # the nearest feasible pose to a nudged one is a feasible neighbour
    other = solve_pose(people(), Targets(nudged, np.ones(SEGMENT_COUNT)), rows, 1)
    assert other.met.all()

    def distance(pose: Pose) -> float:
        return float(PULL @ offset(pose, 0) ** 2)

    assert distance(other.pose) >= distance(best) * (1.0 - 1e-9)


def test_without_anything_in_the_way_the_targets_are_taken() -> None:
    heel = POINT_INDEX["left_heel"]
    at = place(people(), LEANING).point_m(people(), np.array([heel]))[0, 0]
    rows = Constraints(tuple(PlantedRow(heel, axis, np.asarray(axis @ at)) for axis in np.eye(3)))
    solution = solve_pose(people(), TARGETS, rows, 1)
    np.testing.assert_allclose(solution.pose.rotation, LEANING.rotation, rtol=0, atol=1e-9)
    np.testing.assert_allclose(solution.pose.root_m, LEANING.root_m, rtol=0, atol=1e-9)


def test_hinges_turn_about_their_axis_alone() -> None:
    pose = solve_pose(people(), TARGETS, hanging(np.linspace(-1.2, 0.0, 7)), 7).pose
    hinges = [k for k, joint in enumerate(JOINTS) if is_hinge(joint)]
    axes = pose.rotation[:, hinges][..., 1]
    np.testing.assert_allclose(axes, np.tile([0.0, 1.0, 0.0], (7, 6, 1)), rtol=0, atol=1e-9)


def test_a_balanced_body_has_its_mass_centre_over_its_base() -> None:
    points = tuple((POINT_INDEX[f"{side}_heel"], 0.5) for side in ("left", "right"))
    rows = hanging(np.array([0.0]))
    standing = Constraints(rows.planted, balanced=(BalanceRow(points, np.array([1.0, 0.0, 0.0]), 0.08),))
    solution = solve_pose(people(), Targets(posed({}, (0.0, 0.0, 0.9)), WEIGHT), standing, 1)
    assert solution.met.all()
    placed = place(people(), solution.pose)
    centre = people().mass_kg[0] @ placed.com_m(people())[0] / people().mass_kg[0].sum()
    assert centre[0] == pytest.approx(0.08, abs=CLOSURE_TOLERANCE_M)


def same(found: PoseSolution, expected: PoseSolution, row: int) -> None:
    # the two differ only in how sums are laid out: roundings, magnified by at most 1e4 on stiff joints
    np.testing.assert_allclose(found.pose.rotation[row], expected.pose.rotation[0], rtol=0, atol=1e-9)
    np.testing.assert_allclose(found.pose.root_m[row], expected.pose.root_m[0], rtol=0, atol=1e-9)
    assert found.steps[row] == expected.steps[0]
    assert found.met[row] == expected.met[0]


def single(bodies: Bodies, mark_m: float, strap_m: float) -> PoseSolution:
    return solve_pose(bodies, TARGETS, hanging(np.array([mark_m]), strap_m), 1)


def test_a_batch_gives_what_single_poses_give() -> None:
    marks, bodies = np.linspace(-1.1, 0.0, 5), people(5)
    together = solve_pose(bodies, TARGETS, hanging(marks), 5)
    for row in range(5):
        same(together, single(bodies.take(slice(row, row + 1)), marks[row], 1.35), row)


def test_large_batches_are_solved_in_pieces_that_change_nothing() -> None:
    count = PIECE + 3
    marks = np.linspace(-1.1, 0.0, count)
    together = solve_pose(people(), TARGETS, hanging(marks), count)
    for row in (0, PIECE - 1, PIECE, count - 1):
        same(together, single(people(), marks[row], 1.35), row)


@pytest.mark.parametrize(
    ("strap_m", "reason"), [(0.05, STRAP_SHORT), (0.2, STRAP_SHORT), (4.0, STRAP_LONG), (9.0, STRAP_LONG)]
)
def test_an_impossible_pose_comes_back_unmet_with_its_reason_and_without_harm_to_others(
    strap_m: float, reason: int
) -> None:
    marks, straps = np.array([-0.6, -0.6, -0.3]), np.array([1.35, strap_m, 1.35])
    rows = hanging(marks, straps)
    solution = solve_pose(people(), TARGETS, rows, 3)
    assert solution.met.tolist() == [True, False, True]
    for array in (solution.pose.root_m, solution.pose.rotation, solution.rows_m, solution.residual_m):
        assert np.isfinite(array).all()
    assert pose_reasons(people(), solution, rows)[1] == reason
    for row in (0, 2):
        same(solution, single(people(), marks[row], 1.35), row)


def test_contacts_too_far_apart_come_back_unmet_as_a_contact() -> None:
    up = np.array([0.0, 0.0, 1.0])
    planted = hanging(np.array([-0.6])).planted
    rows = Constraints((*planted, PlantedRow(POINT_INDEX["head_top"], up, np.asarray(3.0))))
    solution = solve_pose(people(), TARGETS, rows, 1)
    assert not solution.met[0]
    assert np.isfinite(solution.pose.rotation).all()
    assert pose_reasons(people(), solution, rows).tolist() == [CONTACT]


def test_rows_given_twice_change_nothing() -> None:
    rows = hanging(np.array([-0.6]))
    twice = Constraints((*rows.planted, rows.planted[0], rows.planted[5]), rows.straps, (), rows.aligned)
    solution, expected = (solve_pose(people(), TARGETS, kept, 1) for kept in (twice, rows))
    assert solution.met.all()
    np.testing.assert_allclose(solution.pose.rotation, expected.pose.rotation, rtol=0, atol=1e-5)


def test_the_row_is_met_for_all_builds_at_all_marks_within_its_reach() -> None:
    # thirteen marks are enough to fall upon poses whose steps swing about the answer
    marks = np.linspace(-1.2, 0.0, 13)
    rep, _ = row_stand().rep(marks, np.zeros(13, dtype=np.intp), 3)
    assert rep.solution.met.all()
    assert rep.solution.steps.max() < 30


def test_slopes_of_the_solved_pose_are_of_full_rank() -> None:
    rows = hanging(np.array([-0.6]))
    pose = solve_pose(people(), TARGETS, rows, 1).pose
    _, slopes = evaluate(lay_out(rows), people(), place(people(), pose))
    assert np.linalg.matrix_rank(slopes[0]) == slopes.shape[1]
