"""Loads of positions: everything balances, mirrors, scales, and contacts only push."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.mechanics.leaning import GRIPS, SIDES, WEIGHT, hanging, held_by, leaning_pose
from tests.mechanics.scenes import SWAP, mirrored, people, posed, row_rep

from leanmark.body.points import POINT_INDEX, POINT_SEGMENT
from leanmark.body.segments import JOINT_INDEX, PARENT, SEGMENT_COUNT
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.constraints import BalanceRow, Constraints
from leanmark.mechanics.distribution import HOLDS
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import (
    Loads,
    balance_of,
    loads_at,
    loads_of,
    share_of_strength,
    statics,
    tension_limits,
)
from leanmark.mechanics.pose import PIECE, Targets, solve_pose
from leanmark.mechanics.supports import Supports

BODY_WEIGHT_N = float(people().body_mass_kg[0] * GRAVITY_M_S2)
BALANCE = 1e-9  # of body weight, and of body weight times a metre: the project's bar
SOLVER = 1e-6  # DAQP's feasibility tolerance, in shares of body weight

HELD = {
    "leaning": held_by(),
    "pushed": held_by(push_n=(30.0, -20.0, 10.0), friction=0.8),
    "through a loop": held_by(push_n=(0.0, 30.0, 0.0), loop_ratio=1.37, friction=0.8),
    "slipping": held_by(friction=0.2),
    "without straps": held_by(straps=()),
}


def outside(supports: Supports, loads: Loads, row: int) -> tuple[Floats, Floats, list[int]]:
    """All outside forces but weight: where (M, 3), how much (M, 3), and on which segment."""
    at = [*loads.strap_end_m[row], *loads.contact_point_m[row]]
    force = [*(loads.strap_tension_n[row, :, None] * loads.strap_unit[row]), *loads.contact_force_n[row]]
    segments = [int(POINT_SEGMENT[strap.points[0]]) for strap in supports.straps]
    segments += [int(POINT_SEGMENT[contact.point]) for contact in supports.contacts]
    placed = place(people(), leaning_pose(-0.6))
    for known in supports.known:
        at.append(placed.point_m(people(), np.array([known.point]))[row, 0])
        force.append(known.force_n)
        segments.append(int(POINT_SEGMENT[known.point]))
    return np.array(at), np.array(force), segments


@pytest.mark.parametrize("name", HELD)
def test_forces_and_moments_of_the_whole_body_balance(name: str) -> None:
    supports = HELD[name]
    loads = statics(people(), leaning_pose(-0.6), supports)
    at, force, _ = outside(supports, loads, 0)
    com = place(people(), leaning_pose(-0.6)).com_m(people())[0]
    weight = -people().mass_kg[0][:, None] * [0.0, 0.0, GRAVITY_M_S2]
    total = force.sum(axis=0) + weight.sum(axis=0)
    moment = np.cross(at, force).sum(axis=0) + np.cross(com, weight).sum(axis=0)
    np.testing.assert_allclose(total, 0.0, rtol=0, atol=BALANCE * BODY_WEIGHT_N)
    np.testing.assert_allclose(moment, 0.0, rtol=0, atol=BALANCE * BODY_WEIGHT_N)
    np.testing.assert_allclose(loads.joint_moment_nm[0, 0], 0.0, rtol=0, atol=BALANCE * BODY_WEIGHT_N)


@pytest.mark.parametrize("name", HELD)
def test_every_joint_balances_what_lies_beyond_it(name: str) -> None:
    supports = HELD[name]
    loads = statics(people(), leaning_pose(-0.6), supports)
    at, force, segments = outside(supports, loads, 0)
    placed = place(people(), leaning_pose(-0.6))
    com = placed.com_m(people())[0]
    for joint in range(1, SEGMENT_COUNT):
        beyond = [s for s in range(SEGMENT_COUNT) if joint in line_of(s)]
        moment = loads.world_moment_nm[0, joint].copy()
        for s in beyond:
            down = people().mass_kg[0, s] * np.array([0.0, 0.0, -GRAVITY_M_S2])
            moment += np.cross(com[s] - placed.joint_m[0, joint], down)
        for where, push, segment in zip(at, force, segments, strict=True):
            if segment in beyond:
                moment += np.cross(where - placed.joint_m[0, joint], push)
        np.testing.assert_allclose(moment, 0.0, rtol=0, atol=BALANCE * BODY_WEIGHT_N)


def line_of(segment: int) -> list[int]:
    """A segment and its forebears."""
    line = [segment]
    while PARENT[line[-1]] >= 0:
        line.append(PARENT[line[-1]])
    return line


@pytest.mark.parametrize("mark", [-1.1, -0.6, -0.45])
@pytest.mark.parametrize("name", ["leaning", "pushed", "through a loop"])
def test_contacts_push_and_keep_within_their_friction_cones_and_straps_pull(name: str, mark: float) -> None:
    supports = HELD[name]
    loads = statics(people(), leaning_pose(mark), supports)
    force = loads.contact_force_n[0] / BODY_WEIGHT_N
    level = np.hypot(force[:, 0], force[:, 1])
    assert loads.outcome[0] == HOLDS
    assert (force[:, 2] >= -SOLVER).all()
    friction = np.array([contact.friction for contact in supports.contacts])
    assert (level <= friction * force[:, 2] + SOLVER).all()
    assert (loads.strap_tension_n >= -SOLVER * BODY_WEIGHT_N).all()
    total = force.sum(axis=0)
    assert loads.friction_needed[0] == pytest.approx(np.hypot(*total[:2]) / total[2], rel=1e-9)
    assert loads.friction_needed[0] <= friction.max() + SOLVER


@settings(max_examples=10)
@given(mark=st.floats(-1.2, -0.1), push=st.tuples(*[st.floats(-20.0, 20.0)] * 3))
def test_a_mirrored_position_has_the_mirrored_loads(mark: float, push: tuple[float, ...]) -> None:
    pose = leaning_pose(mark)
    here = statics(people(), pose, held_by(push, friction=1.0))
    there = statics(people(), mirrored(pose), held_by((push[0], -push[1], push[2]), friction=1.0))
    # two runs of the solver agree to its tolerance, here of forces up to one body weight
    close = {"rtol": 0, "atol": SOLVER * BODY_WEIGHT_N}
    np.testing.assert_allclose(there.strap_tension_n, here.strap_tension_n[:, ::-1], **close)
    sides = np.array([3, 4, 5, 0, 1, 2])
    np.testing.assert_allclose(there.contact_force_n, here.contact_force_n[:, sides] * [1, -1, 1], **close)
    # anatomical moments mean the same movement on either side; the middle's side bend and rotation turn over
    flip = np.ones((SEGMENT_COUNT, 3))
    flip[[JOINT_INDEX[joint] for joint in ("lumbar", "thoracic", "neck")], 1:] = -1.0
    expected = here.joint_moment_nm[:, SWAP] * flip
    np.testing.assert_allclose(there.joint_moment_nm[:, 1:], expected[:, 1:], **close)


def test_twice_the_mass_in_the_same_shape_takes_twice_the_forces() -> None:
    one = people()
    # as strong in proportion: the small even-sharing part of the effort counts shares of strength too
    two = replace(
        one,
        mass_kg=2.0 * one.mass_kg,
        inertia_kg_m2=2.0 * one.inertia_kg_m2,
        body_mass_kg=2.0 * one.body_mass_kg,
        strength_nm=2.0 * one.strength_nm,
    )
    light, heavy = (statics(body, leaning_pose(-0.6), held_by()) for body in (one, two))
    close = {"rtol": 0, "atol": 2.0 * SOLVER * BODY_WEIGHT_N}
    np.testing.assert_allclose(heavy.strap_tension_n, 2.0 * light.strap_tension_n, **close)
    np.testing.assert_allclose(heavy.contact_force_n, 2.0 * light.contact_force_n, **close)
    np.testing.assert_allclose(heavy.joint_moment_nm, 2.0 * light.joint_moment_nm, **close)
    np.testing.assert_allclose(heavy.total_tension_share, light.total_tension_share, rtol=0, atol=SOLVER)
    np.testing.assert_allclose(heavy.strength_share, light.strength_share, rtol=0, atol=1e-4)


def test_standing_upright_puts_the_centre_of_pressure_under_the_mass_centre() -> None:
    over = tuple((POINT_INDEX[f"{s}_{p}"], 0.25) for s in SIDES for p in ("heel", "ball_medial"))
    balance = tuple(BalanceRow(over, axis) for axis in np.eye(3)[:2])
    rows = Constraints(hanging(np.zeros(1)).planted, balanced=balance)
    pose = solve_pose(people(), Targets(posed({}, (0.0, 0.0, 0.9)), WEIGHT), rows, 1).pose
    loads = statics(people(), pose, held_by(straps=()))
    upward = loads.contact_force_n[0, :, 2]
    pressure = upward @ loads.contact_point_m[0] / upward.sum()
    centre = people().mass_kg[0] @ place(people(), pose).com_m(people())[0] / people().body_mass_kg[0]
    assert loads.outcome[0] == HOLDS
    assert upward.sum() == pytest.approx(BODY_WEIGHT_N, abs=BALANCE * BODY_WEIGHT_N)
    # level forces on the soles act a few nanometres off the floor: the pose is closed to a micrometre
    np.testing.assert_allclose(pressure[:2], centre[:2], rtol=0, atol=1e-6)
    assert not loads.slack[0]
    assert loads.total_tension_share[0] == 0.0


def test_a_known_push_changes_the_loads_by_its_balance() -> None:
    # a partner who presses straight down on the chest adds to what straps and floor carry upwards
    free, pressed = (statics(people(), leaning_pose(-0.6), held_by(push)) for push in ((), (0.0, 0.0, -50.0)))

    def upward(loads: Loads) -> float:
        return float(
            loads.contact_force_n[0, :, 2].sum() + loads.strap_tension_n[0] @ loads.strap_unit[0, :, 2]
        )

    assert upward(pressed) - upward(free) == pytest.approx(50.0, abs=BALANCE * BODY_WEIGHT_N)


def test_vector_equals_scalar() -> None:
    marks = (-1.1, -0.6, -0.2)
    together = statics(people(), leaning_pose(*marks), held_by())
    for row, mark in enumerate(marks):
        alone = statics(people(), leaning_pose(mark), held_by())
        np.testing.assert_allclose(together.strap_tension_n[row], alone.strap_tension_n[0], rtol=0, atol=1e-3)
        np.testing.assert_allclose(together.joint_moment_nm[row], alone.joint_moment_nm[0], rtol=0, atol=1e-3)


def test_large_batches_are_taken_in_pieces_that_change_nothing() -> None:
    pose = leaning_pose(-0.6, -0.4)
    many = pose.take(np.arange(PIECE + 2) % 2)
    loads, pair = statics(people(), many, held_by()), statics(people(), pose, held_by())
    for row in (0, 1, PIECE - 1, PIECE, PIECE + 1):
        np.testing.assert_allclose(
            loads.strap_tension_n[row], pair.strap_tension_n[row % 2], rtol=0, atol=1e-9
        )


def test_the_pressure_runs_from_the_least_tension_over_least_effort_to_the_greatest() -> None:
    balance = balance_of(people(), leaning_pose(-0.6), held_by())
    low, high = tension_limits(balance)[0]
    pressures = [np.array([p]) for p in (-1.0, -0.5, 0.0, 0.5, 1.0)]
    found = loads_at(balance, *pressures)
    totals = [loads.strap_tension_n.sum() for loads in found]
    assert totals == sorted(totals)
    assert totals[0] == pytest.approx(low, abs=1e-4 * BODY_WEIGHT_N)
    assert totals[4] == pytest.approx(high, abs=1e-4 * BODY_WEIGHT_N)
    assert totals[1] == pytest.approx((totals[0] + totals[2]) / 2, abs=1e-6 * BODY_WEIGHT_N)
    assert totals[2] == pytest.approx(loads_of(balance).strap_tension_n.sum(), abs=1e-9)
    for loads in found:
        np.testing.assert_allclose(loads.joint_moment_nm[0, 0], 0.0, rtol=0, atol=BALANCE * BODY_WEIGHT_N)
        level = np.hypot(*loads.contact_force_n[0, :, :2].T)
        assert (level <= 0.6 * loads.contact_force_n[0, :, 2] + SOLVER * BODY_WEIGHT_N).all()


def test_moments_are_shares_of_the_strength_in_their_own_direction() -> None:
    strength = np.full((1, SEGMENT_COUNT, 3, 2), np.inf)
    strength[0, 4, 0], strength[0, 0] = (40.0, 80.0), np.nan
    moment = np.zeros((2, SEGMENT_COUNT, 3))
    moment[:, 4, 0], moment[:, 5, 1], moment[:, 0] = (-20.0, 20.0), 30.0, 1e-13
    share = share_of_strength(moment, strength)
    assert share[:, 4, 0].tolist() == [-0.5, 0.25]
    assert not share[:, 5].any()
    assert not share[:, 0].any()


def test_a_row_loads_the_straps_alike_and_the_hands_with_them() -> None:
    rep = row_rep()
    loads = rep.static_loads()
    np.testing.assert_allclose(
        loads.strap_tension_n[:, 0], loads.strap_tension_n[:, 1], rtol=0, atol=SOLVER * BODY_WEIGHT_N
    )
    assert not loads.slack.any()
    assert loads.held.all()
    assert (loads.largest_share > 0.0).all()
    np.testing.assert_allclose(loads.part_tension_n, loads.strap_tension_n)
    assert [strap.points for strap in rep.supports.straps] == [GRIPS[:1], GRIPS[1:]]
