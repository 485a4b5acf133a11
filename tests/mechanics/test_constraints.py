"""What rows say: each residual against its row written out plainly, and in cases with a known answer."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.plain_rows import every_kind, plain_residuals
from tests.mechanics.scenes import people, posed, wild_poses

from leanmark.body.points import POINT_INDEX
from leanmark.mechanics.constraints import AlignRow, BalanceRow, Constraints, PlantedRow, StrapRow, SumRow
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.rows import evaluate, lay_out

ROUNDING_M = 1e-13  # coordinates below 5 m, a few hundred roundings of 2.2e-16
GRIP, ELBOW = POINT_INDEX["left_grip"], POINT_INDEX["left_elbow_tip"]
UP = np.array([0.0, 0.0, 1.0])


def residual(constraints: Constraints) -> list[float]:
    """Residuals of a person standing with straight arms."""
    bodies = people()
    found, _ = evaluate(lay_out(constraints), bodies, place(bodies, posed({})))
    return [float(value) for value in found[0]]


def standing_at(*names: str) -> list[np.ndarray]:
    bodies = people()
    points = np.array([POINT_INDEX[name] for name in names])
    return list(place(bodies, posed({})).point_m(bodies, points)[0])


@given(st.integers(0, 2**32 - 1))
def test_residuals_are_the_rows_written_out(seed: int) -> None:
    bodies, pose, rows = people(3), wild_poses(seed, 3), every_kind(3)
    placed = place(bodies, pose)
    found, _ = evaluate(lay_out(rows), bodies, placed)
    for row in range(3):
        expected = plain_residuals(rows, bodies, placed, row)
        # the two directions across a strap's line are shorter the steeper it hangs: 1 / 1e-3 at the most here
        np.testing.assert_allclose(found[row], expected, rtol=0, atol=1e3 * ROUNDING_M)


def test_a_planted_point_is_off_by_its_height() -> None:
    (heel,) = standing_at("left_heel")
    row = PlantedRow(POINT_INDEX["left_heel"], UP, np.asarray(0.1))
    assert residual(Constraints((row,))) == pytest.approx([heel[2] - 0.1], abs=ROUNDING_M)


def test_two_points_held_together_are_off_by_their_distance_along_the_direction() -> None:
    left, right = standing_at("left_grip", "right_grip")
    row = PlantedRow(GRIP, np.array([0.0, 1.0, 0.0]), np.asarray(0.0), other=POINT_INDEX["right_grip"])
    assert residual(Constraints((row,))) == pytest.approx([left[1] - right[1]], abs=ROUNDING_M)


def test_a_strap_is_off_by_what_it_lacks() -> None:
    (grip,) = standing_at("left_grip")
    strap = StrapRow((GRIP,), grip + np.array([0.3, 0.0, 0.4]), np.asarray(0.45))
    assert residual(Constraints(straps=(strap,))) == pytest.approx([0.05], abs=ROUNDING_M)


def test_a_strap_held_by_two_hands_ends_midway_between_them() -> None:
    left, right = standing_at("left_grip", "right_grip")
    strap = StrapRow((GRIP, POINT_INDEX["right_grip"]), (left + right) / 2 + 0.7 * UP, np.asarray(0.5))
    assert residual(Constraints(straps=(strap,))) == pytest.approx([0.2], abs=ROUNDING_M)


def test_a_strap_through_a_loop_is_off_by_both_sides_together() -> None:
    left, right = standing_at("left_grip", "right_grip")
    sides = (
        StrapRow((GRIP,), left + 0.9 * UP, np.asarray(0.0)),
        StrapRow((POINT_INDEX["right_grip"],), right + 0.6 * UP, np.asarray(0.0)),
    )
    assert residual(Constraints(sums=(SumRow(sides, np.asarray(1.4)),))) == pytest.approx(
        [0.1], abs=ROUNDING_M
    )


@pytest.mark.parametrize("upright_only", [False, True])
def test_a_limb_in_line_with_its_strap_is_not_off(upright_only: bool) -> None:
    grip, elbow = standing_at("left_grip", "left_elbow_tip")
    beyond = StrapRow((GRIP,), grip + 2.0 * (grip - elbow), np.asarray(1.0))
    values = residual(Constraints(aligned=(AlignRow(ELBOW, beyond, upright_only),)))
    # the arm hangs nearly straight down, so the line's level direction is known to fewer digits
    assert values == pytest.approx([0.0] * (1 if upright_only else 2), abs=1e3 * ROUNDING_M)


def test_a_limb_beside_its_strap_is_off_across_and_one_above_it_is_off_upright() -> None:
    grip, elbow = standing_at("left_grip", "left_elbow_tip")
    ahead = np.array([1.0, 0.0, 0.0])
    # a level strap ahead of the hand: the elbow is off by its height over the hand, and sideways by its y
    strap = StrapRow((GRIP,), grip + ahead, np.asarray(1.0))
    upright, across = residual(Constraints(aligned=(AlignRow(ELBOW, strap),)))
    assert abs(upright) == pytest.approx(abs(elbow[2] - grip[2]), abs=ROUNDING_M)
    assert abs(across) == pytest.approx(abs(elbow[1] - grip[1]), abs=ROUNDING_M)


def test_balance_is_off_by_how_far_the_mass_centre_is_from_over_its_base() -> None:
    bodies = people()
    placed = place(bodies, posed({}))
    centre = bodies.mass_kg[0] @ placed.com_m(bodies)[0] / bodies.mass_kg[0].sum()
    heel, ball = standing_at("left_heel", "left_ball_medial")
    points = ((POINT_INDEX["left_heel"], 0.25), (POINT_INDEX["left_ball_medial"], 0.75))
    row = BalanceRow(points, np.array([1.0, 0.0, 0.0]), 0.02)
    expected = centre[0] - (0.25 * heel[0] + 0.75 * ball[0]) - 0.02
    assert residual(Constraints(balanced=(row,))) == pytest.approx([expected], abs=ROUNDING_M)
