"""Tasks solved for people and settings: patches that stay, joints kept in range, loads that fade at slack."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mechanics.scenes import people, posed, row_rep, row_stand
from tests.mechanics.squat import BOTH, kit, squat_rep, squat_task

from leanmark.body.segments import JOINT_INDEX
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.inverse import MARK_TOLERANCE_M, intervals
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.patches import PATCHES
from leanmark.mechanics.pose import CLOSURE_TOLERANCE_M
from leanmark.mechanics.position import Rep, solve_rep, target_rotations
from leanmark.mechanics.ranges import past_range
from leanmark.mechanics.reasons import FINE, RANGE, SLACK
from leanmark.mechanics.rep import lobatto_nodes
from leanmark.mechanics.rotation import vector_from_rotation
from leanmark.mechanics.task import Geometry, HoldUse, PatchUse, Task, patch_places

THREE = np.array([0.0, 0.5, 1.0])


def test_targets_turn_each_joint_about_one_axis_at_an_even_rate() -> None:
    task = squat_task()
    along = target_rotations(task.start[None], task.end[None], np.array([0.0, 0.25, 1.0]))[0]
    np.testing.assert_allclose(along[0], task.start, rtol=0, atol=1e-12)
    np.testing.assert_allclose(along[2], task.end, rtol=0, atol=1e-12)
    whole = vector_from_rotation(np.swapaxes(along[0], -1, -2) @ along[2])
    quarter = vector_from_rotation(np.swapaxes(along[0], -1, -2) @ along[1])
    np.testing.assert_allclose(quarter, 0.25 * whole, rtol=0, atol=1e-12)


def test_a_key_pose_is_passed_half_way_without_a_corner() -> None:
    """The rotation vectors from the start are a parabola: through start, key and end, with equal second
    differences everywhere."""
    task = squat_task()
    start, end = task.start[None], task.end[None]
    key = target_rotations(start, end, np.array([0.8]))[0, 0]
    nodes = np.linspace(0.0, 1.0, 9)
    along = target_rotations(start, end, nodes, key)[0]
    for node, pose in ((0, task.start), (4, key), (8, task.end)):
        np.testing.assert_allclose(along[node], pose, rtol=0, atol=1e-12)
    turned = vector_from_rotation(np.swapaxes(along[:1], -1, -2) @ along)
    bend = np.diff(turned, n=2, axis=0)
    np.testing.assert_allclose(bend, np.broadcast_to(bend[0], bend.shape), rtol=0, atol=1e-12)
    assert np.abs(bend[0]).max() > 1e-3
    straight = target_rotations(start, end, np.array([0.5]))[0, 0]
    unbent = target_rotations(start, end, nodes, straight)[0]
    np.testing.assert_allclose(unbent, target_rotations(start, end, nodes)[0], rtol=0, atol=1e-12)


def test_rows_run_position_by_position_and_node_by_node() -> None:
    geometry = replace(kit(2), mark_m=np.array([-0.3, 0.4]))
    rep = solve_rep(squat_task(), people(), geometry, THREE)
    assert (rep.count, rep.reason.shape) == (2, (2, 3))
    np.testing.assert_array_equal(rep.geometry.mark_m, [-0.3] * 3 + [0.4] * 3)
    alone = [solve_rep(squat_task(), people(), geometry.take(np.array([k])), THREE) for k in range(2)]
    for k in range(2):
        rows = slice(3 * k, 3 * k + 3)
        found = rep.solution.pose.rotation[rows]
        np.testing.assert_allclose(found, alone[k].solution.pose.rotation, rtol=0, atol=1e-9)
    # the floor is level and no strap is held: moving the mark moves the person along with it
    shift = rep.solution.pose.root_m[3:] - rep.solution.pose.root_m[:3]
    np.testing.assert_allclose(shift, np.tile([0.7, 0.0, 0.0], (3, 1)), rtol=0, atol=1e-6)


def test_one_body_for_all_positions_is_that_body_for_each() -> None:
    geometry = replace(kit(2), mark_m=np.array([-0.3, 0.4]))
    one = solve_rep(squat_task(), people(), geometry, THREE)
    each = solve_rep(squat_task(), people().take(np.zeros(2, dtype=np.intp)), geometry, THREE)
    np.testing.assert_allclose(one.solution.pose.rotation, each.solution.pose.rotation, rtol=0, atol=1e-12)


def heels(rep: Rep) -> Floats:
    """Where the left sole's lead point is at every node, (K, 3)."""
    patch = patch_places(rep.task, rep.bodies, rep.geometry, {})[0]
    lead = np.array([patch.index(PATCHES["sole"].lead)])
    placed: Floats = place(rep.bodies, rep.solution.pose).point_m(rep.bodies, lead)[:, 0]
    return placed


@pytest.mark.parametrize("at_end", [False, True])
def test_a_found_patch_stays_where_it_came_down(at_end: bool) -> None:
    found = tuple(PatchUse("sole", side, found=True) for side in BOTH)
    task = replace(squat_task(), patches=found, found_at_end=at_end)
    rep = solve_rep(task, people(), kit(), THREE)
    assert rep.solution.met.all()
    at = heels(rep)
    np.testing.assert_allclose(at, np.tile(at[0], (3, 1)), rtol=0, atol=2 * CLOSURE_TOLERANCE_M)
    # nothing pulled at the feet when they came down: the landing pose is its own target
    node = 2 if at_end else 0
    target = task.landing
    feet_apart = np.abs(rep.solution.pose.rotation[node] - target).max()
    assert feet_apart < 0.2


def test_a_joint_past_its_range_is_drawn_back_where_the_contacts_allow() -> None:
    # an arm asked to turn in further than shoulders go: nothing holds it, so it comes back to its range
    task, arm = squat_task(), JOINT_INDEX["left_shoulder"]
    start = task.start.copy()
    start[arm] = posed({"left_shoulder": {"rotation": 140.0}}).rotation[0, arm]
    assert past_range(start[None]).keys() == {"left_shoulder rotation"}
    rep = solve_rep(replace(task, start=start), people(), kit(), np.zeros(1))
    assert rep.solution.met.all()
    assert past_range(rep.solution.pose.rotation) == {}
    assert rep.reason.tolist() == [[FINE]]


def test_a_pose_that_only_a_joints_range_bars_says_so() -> None:
    # a knee on the floor ahead of a sole that stays flat: the ankle folds to a right angle, and no less does
    kneeling = (PatchUse("sole", "left"), PatchUse("knee", "left", found=True))
    task = replace(squat_task(), patches=kneeling, balances=(), still=True)
    rep = solve_rep(task, people(), kit(), np.zeros(1))
    assert rep.solution.met.all()
    assert "left_ankle dorsiflexion" in past_range(rep.solution.pose.rotation)
    assert rep.reason.tolist() == [[RANGE]]


def test_reasons_put_the_pose_before_its_loads() -> None:
    rep = row_rep()
    loads = rep.static_loads()
    assert (rep.reasons(loads) == FINE).all()
    barred = replace(rep, reason=np.full_like(rep.reason, RANGE))
    assert (barred.reasons(replace(loads, strap_tension_n=0.0 * loads.strap_tension_n)) == RANGE).all()
    limp = rep.reasons(replace(loads, strap_tension_n=0.0 * loads.strap_tension_n))
    assert (limp == SLACK).all()


def test_poses_picked_from_a_rep_carry_the_loads_that_they_had() -> None:
    rep = row_rep()
    picked = rep.at(np.array([7, 2]))
    assert picked.count == 2
    whole, part = rep.static_loads(), picked.static_loads()
    np.testing.assert_allclose(part.strap_tension_n, whole.strap_tension_n[[7, 2]], rtol=0, atol=1e-3)


def test_static_loads_are_those_of_a_rep_without_motion() -> None:
    rep = squat_rep()
    loads, under = rep.static_loads(), rep.loads(rep.balance())
    np.testing.assert_allclose(loads.joint_moment_nm, under.joint_moment_nm, rtol=0, atol=1e-9)


def test_the_believed_least_and_greatest_pressure_enclose_each_other() -> None:
    rep = row_rep()
    value, low, high = (found.total_tension_share for found in rep.loads_within(rep.balance()))
    assert (low <= value + 1e-9).all()
    assert (value <= high + 1e-9).all()
    assert (high - low > 0.01).all()


def test_tension_falls_to_zero_at_the_slack_limit() -> None:
    standing = row_stand()
    (interval,) = intervals(standing.profile, standing.scanned())[0]
    assert interval.low_reason == SLACK
    marks = interval.low_m + MARK_TOLERANCE_M * np.array([-1.0, 0.0, 10.0, 20.0])
    rep, _ = standing.rep(marks, np.zeros(4, dtype=np.intp), 3)
    least = rep.static_loads().strap_tension_n.min(axis=1).reshape(4, 3).min(axis=1)
    assert least[0] <= 1e-3 < least[1] < least[2] < least[3]
    # the limit is known to one tolerance, so at most as much tension is left there as one tolerance brings
    step = (least[2] - least[1]) / 10.0
    assert least[1] < 2.0 * step


def test_a_person_without_any_placed_contact_starts_over_the_plumb_point() -> None:
    arms = posed({f"{side}_shoulder": {"plane": 90.0, "elevation": 90.0} for side in BOTH}).rotation[0]
    holds = tuple(HoldUse((f"{side}_grip",), side) for side in BOTH)
    soles = tuple(PatchUse("sole", side, found=True) for side in BOTH)
    task = Task(arms, arms, np.ones(18), soles, holds, still=True)
    anchor = Geometry(np.array([[0.0, 0.0, 2.6]]), np.array([1.3]), np.zeros(1), 0.1)
    rep = solve_rep(task, people(), anchor, np.zeros(1))
    assert rep.solution.met.all()


def test_more_nodes_pass_through_the_same_poses() -> None:
    coarse, fine = squat_rep(5), squat_rep(9)
    np.testing.assert_allclose(lobatto_nodes(9)[::2], lobatto_nodes(5), rtol=0, atol=1e-15)
    found = fine.solution.pose.rotation[::2]
    # both stop within some 1e-6 rad of the same pose
    np.testing.assert_allclose(found, coarse.solution.pose.rotation, rtol=0, atol=1e-5)


def test_a_stated_share_is_carried_where_it_is_stated_and_leaves_the_rest() -> None:
    task = squat_task()
    left, right = task.patches
    rep = solve_rep(replace(task, patches=(left, replace(right, share=0.2))), people(), kit(), np.zeros(1))
    loads = rep.static_loads()
    assert {contact.patch for contact in rep.supports.contacts} == {"left sole"}
    floor = loads.contact_force_n[0, :, 2].sum() / loads.body_weight_n[0]
    assert floor == pytest.approx(0.8, abs=1e-9)


def test_a_slipping_loop_changes_nothing_where_both_sides_pull_alike() -> None:
    marks, who = np.array([-1.0, -0.6]), np.zeros(2, dtype=np.intp)
    apart, looped = (
        row_stand(strap_mode=mode).profile(marks, who) for mode in ("independent", "slipping loop")
    )
    np.testing.assert_allclose(looped[0], apart[0], rtol=0, atol=1e-6)
    assert looped[1].tolist() == apart[1].tolist() == [FINE, FINE]
