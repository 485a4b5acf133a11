"""Rows as arrays: derivatives of every kind against central differences, order, sharing and picking."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.mechanics.plain_rows import Plain, every_kind, limbs_in_line, plain_derivatives
from tests.mechanics.scenes import people, row_stand, wild_poses

from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.rows import evaluate, lay_out

STEP = 1e-5
# central differences: third derivatives times STEP^2 / 6, up to 1e3 where a strap is steep (see below),
# and 5 m x 2.2e-16 / STEP of rounding
SLOPE_TOLERANCE = 1e-6
seeds = st.integers(0, 2**32 - 1)


def steep(pose: Pose, constraints: Constraints) -> bool:
    """Whether a strap's line is within a tenth of upright, where its level direction turns fast, or short."""
    plain = Plain(people(), place(people(), pose), 0)
    lines = [plain.line(strap) for strap in [*constraints.straps, *(a.strap for a in constraints.aligned)]]
    long = [float(np.linalg.norm(line)) for line in lines]
    return any(
        np.hypot(*line[:2]) < 0.1 * reach or reach < 0.1 for line, reach in zip(lines, long, strict=True)
    )


def check_slopes(rows: Constraints, pose: Pose) -> None:
    _, found = evaluate(lay_out(rows), people(), place(people(), pose))
    expected = plain_derivatives(rows, people(), pose, 0, STEP)
    assert found.shape == (1, *expected.shape)
    np.testing.assert_allclose(found[0], expected, rtol=0, atol=SLOPE_TOLERANCE)


@settings(max_examples=10)
@given(seeds)
def test_derivatives_of_planted_strap_sum_and_balance_rows_are_central_differences(seed: int) -> None:
    pose, rows = wild_poses(seed, 1), replace(every_kind(1), aligned=())
    assume(not steep(pose, rows))
    check_slopes(rows, pose)


@settings(max_examples=10)
@given(seeds)
def test_derivatives_of_limbs_in_line_with_their_straps_are_central_differences(seed: int) -> None:
    pose = wild_poses(seed, 1)
    rows = limbs_in_line(people(), pose)
    assume(not steep(pose, rows))
    check_slopes(rows, pose)


@settings(max_examples=10)
@given(seeds)
def test_derivatives_of_limbs_held_upright_only_are_central_differences_off_the_line_too(seed: int) -> None:
    pose, rows = wild_poses(seed, 1), every_kind(1)
    rows = Constraints(aligned=tuple(replace(row, upright_only=True) for row in rows.aligned))
    assume(not steep(pose, rows))
    check_slopes(rows, pose)


def test_a_row_is_met_where_the_hands_are_straight_under_the_anchor() -> None:
    # there the directions across the strap spin with the least motion of the hands
    rep, _ = row_stand().rep(np.array([0.15, 0.2, 0.25]), np.zeros(3, dtype=np.intp), 3)
    assert rep.solution.met.all()


@pytest.mark.parametrize("kind", ["planted", "straps", "sums", "aligned", "balanced"])
def test_each_kind_alone_gives_its_part_of_all(kind: str) -> None:
    rows, bodies, pose = every_kind(2), people(2), wild_poses(5, 2)
    alone = Constraints(**{kind: getattr(rows, kind)})
    residual, slope = evaluate(lay_out(alone), bodies, place(bodies, pose))
    whole_residual, whole_slope = evaluate(lay_out(rows), bodies, place(bodies, pose))
    for row in range(residual.shape[1]):
        gap = np.abs(whole_residual - residual[:, [row]]).max(axis=0)
        same = int(gap.argmin())
        assert gap[same] < 1e-13
        np.testing.assert_allclose(slope[:, row], whole_slope[:, same], rtol=0, atol=1e-12)


def test_picked_poses_have_the_rows_that_they_had_in_the_batch() -> None:
    rows, bodies, pose = lay_out(every_kind(3)), people(3), wild_poses(6, 3)
    residual, slope = evaluate(rows, bodies, place(bodies, pose))
    index = np.array([2, 0])
    picked = evaluate(rows.take(index), bodies.take(index), place(bodies.take(index), pose.take(index)))
    np.testing.assert_allclose(picked[0], residual[index], rtol=0, atol=1e-13)
    np.testing.assert_allclose(picked[1], slope[index], rtol=0, atol=1e-12)
    assert rows.count == rows.take(index).count == residual.shape[1]


def test_a_strap_that_ends_straight_under_its_anchor_has_finite_rows() -> None:
    rows = every_kind(1)
    pose, bodies = wild_poses(8, 1), people()
    ends = place(bodies, pose).point_m(bodies, np.array(rows.straps[1].points)).mean(axis=1)
    shift = np.array([0.0, 0.0, 1.0]) - ends[0]
    under = Pose(pose.root_m + shift, pose.rotation)
    residual, slope = evaluate(lay_out(rows), bodies, place(bodies, under))
    assert np.isfinite(residual).all()
    assert np.isfinite(slope).all()
