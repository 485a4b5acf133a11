"""A rung laid out for people and kit: where its patches stand, what its straps reach, what is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mechanics.scenes import people

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import SEGMENT_COUNT, SEGMENT_INDEX
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.position import solve_rep
from leanmark.mechanics.task import (
    BalanceUse,
    Geometry,
    HoldUse,
    PatchUse,
    PushUse,
    Task,
    constraints_of,
    patch_places,
    strap_rows,
    supports_of,
)

UPRIGHT = np.broadcast_to(np.eye(3), (SEGMENT_COUNT, 3, 3))
SOLES = (PatchUse("sole", "left"), PatchUse("sole", "right"))
MARKS_M = np.array([-0.6, 0.2])


def task(patches: tuple[PatchUse, ...] = SOLES, **parts: object) -> Task:
    return replace(Task(UPRIGHT, UPRIGHT, np.ones(SEGMENT_COUNT), patches), **parts)  # type: ignore[arg-type]


def kit(mark_m: Floats = MARKS_M, **parts: object) -> Geometry:
    count = len(mark_m)
    base = Geometry(np.tile([0.0, 0.0, 2.4], (count, 1)), np.full(count, 1.2), mark_m, 0.12, 0.10, 0.5)
    return replace(base, **parts)  # type: ignore[arg-type]


def constraints(rung: Task, geometry: Geometry) -> Constraints:
    return constraints_of(rung, patch_places(rung, people(2), geometry, {}), geometry)


def test_soles_stand_at_the_mark_a_stance_apart() -> None:
    wide = (PatchUse("sole", "left", 0.05, 1.5), PatchUse("sole", "right", 0.05, 1.5))
    left, right = patch_places(task(wide), people(2), kit(), {})
    half = people(2).joint_offset_m[:, SEGMENT_INDEX["left_thigh"], 1]
    np.testing.assert_allclose(left.place_m, np.stack([MARKS_M + 0.05, 1.5 * half], axis=1))
    np.testing.assert_allclose(right.place_m, np.stack([MARKS_M + 0.05, -1.5 * half], axis=1))
    assert left.friction == 0.5


def test_a_mark_across_moves_the_patches_to_the_left() -> None:
    left, right = patch_places(task(mark_across=True), people(2), kit(), {})
    half = people(2).joint_offset_m[:, SEGMENT_INDEX["left_thigh"], 1]
    np.testing.assert_allclose(left.place_m, np.stack([[0.0, 0.0], MARKS_M + half], axis=1))
    np.testing.assert_allclose(right.place_m, np.stack([[0.0, 0.0], MARKS_M - half], axis=1))


def test_feet_turned_out_point_away_from_the_middle() -> None:
    rung = task(tuple(PatchUse("sole", side, heading_rad=np.radians(20.0)) for side in ("left", "right")))
    rep = solve_rep(rung, people(), kit(np.array([0.0])), np.zeros(1))
    assert rep.solution.met.all()
    placed = place(people(), rep.solution.pose)
    ahead = placed.rotation[0, [SEGMENT_INDEX["left_foot"], SEGMENT_INDEX["right_foot"]], :, 0]
    headings_deg = np.degrees(np.arctan2(ahead[:, 1], ahead[:, 0]))
    # y is to the left: the left foot turns towards +y; the pose is closed to 1e-6 m over a 0.1 m wide foot
    np.testing.assert_allclose(headings_deg, [20.0, -20.0], rtol=0, atol=1e-2)


def test_a_found_patch_has_no_place_until_it_came_down() -> None:
    rung = task((*SOLES, PatchUse("palm", "left", heading_rad=0.2, found=True)))
    before = patch_places(rung, people(2), kit(), {})[2]
    assert before.place_m is None
    assert before.heading == 0.2
    came_down = np.array([[0.5, 0.2], [0.6, 0.2]])
    after = patch_places(rung, people(2), kit(), {2: came_down})[2]
    np.testing.assert_array_equal(after.place_m, came_down)
    assert after.heading == 0.2


@pytest.mark.parametrize(("end", "beyond_m"), [("handle", 0.12), ("cradle", 0.10), ("none", 0.0)])
def test_a_strap_reaches_past_its_end_by_what_hangs_there(end: str, beyond_m: float) -> None:
    (row,) = strap_rows(task(holds=(HoldUse(("left_grip",), "left", end),)), kit())
    np.testing.assert_allclose(row.length_m, 1.2 + beyond_m)
    assert row.points == (POINT_INDEX["left_grip"],)


def test_rows_count_what_is_planted_held_in_line_and_balanced() -> None:
    holds = tuple(HoldUse((f"{s}_grip",), s, in_line=(f"{s}_elbow_tip",)) for s in ("left", "right"))
    balance = BalanceUse(0, (("left_heel", 0.5), ("right_heel", 0.5)), 0.1)
    rows = constraints(task(holds=holds, balances=(balance,)), kit())
    # each sole: three heights, a place ahead and across, a heading
    assert (len(rows.planted), len(rows.straps), len(rows.aligned)) == (12, 2, 2)
    assert rows.aligned[0].strap is rows.straps[0]
    (balanced,) = rows.balanced
    np.testing.assert_array_equal(balanced.direction, [1.0, 0.0, 0.0])
    assert balanced.offset == 0.1


def test_two_hands_on_one_handle_are_held_together_in_all_three_directions() -> None:
    both = HoldUse(("left_grip", "right_grip"), "both")
    rows = constraints(task(holds=(both,)), kit())
    together = [row for row in rows.planted if row.other == POINT_INDEX["right_grip"]]
    assert [row.point for row in together] == [POINT_INDEX["left_grip"]] * 3
    np.testing.assert_array_equal(np.stack([row.direction for row in together]), np.eye(3))


def test_stated_shares_and_pushes_become_known_forces() -> None:
    bodies = people(2)
    weight = bodies.body_mass_kg * GRAVITY_M_S2
    rung = task(
        (SOLES[0], PatchUse("sole", "right", share=0.2), PatchUse("palm", "left", touching=True)),
        pushes=(PushUse("chest", force_n=(-30.0, 0.0, 0.0), share=(0.0, 0.0, -0.1)),),
    )
    patches = patch_places(rung, bodies, kit(), {})
    supports = supports_of(rung, patches, kit(), bodies)
    assert {contact.patch for contact in supports.contacts} == {"left sole"}
    stated, push = supports.known
    np.testing.assert_allclose(stated.force_n, weight[:, None] * [0.0, 0.0, 0.2])
    assert push.point == POINT_INDEX["chest"]
    np.testing.assert_allclose(push.force_n, [-30.0, 0.0, 0.0] + weight[:, None] * [0.0, 0.0, -0.1])


def test_positions_can_be_picked_and_repeated() -> None:
    picked = kit(loop_ratio=1.4).take(np.array([1, 1, 0]))
    np.testing.assert_array_equal(picked.mark_m, [0.2, 0.2, -0.6])
    assert len(picked) == len(picked.strap_m) == len(picked.anchor_m) == 3
    assert picked.loop_ratio == 1.4
