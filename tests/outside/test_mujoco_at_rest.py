"""Every rung of the library held still, against MuJoCo's inverse dynamics.

Reference: MuJoCo (Todorov, Erez and Tassa 2012, MuJoCo: a physics engine for model-based control, IROS),
PyPI ``mujoco``. The person is built in the test from the same arrays; MuJoCo places the body, weighs it and
turns the engine's outside forces into what the joints must carry. Nothing may be left over on the free
pelvis, and the joint moments must be the engine's.

Grounds of the tolerances:
  BALANCE 1e-6 of body weight (forces) and of body weight x 1 m (moments): the project's own bar for every
    rung. The strap and contact forces come from a solver that keeps its balance rows to about 1e-9; a wrong
    sign, lever or axis shows at 1e-3 and more.
  PLACE_M 1e-9: both sides multiply at most eight rotations in double precision; engine rotations may have
    lost 1e-12 of their squareness over a solver's steps.
"""

from __future__ import annotations

from dataclasses import replace

import mujoco
import numpy as np
import pytest
from tests.outside.mujoco_model import person_spec, set_pose
from tests.outside.panel import POINT_NAMES, Outside, outside_forces, people, solved, stand_of

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.distribution import HOLDS
from leanmark.mechanics.kinematics import Placement, place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import FINE
from leanmark.mechanics.task import PushUse
from leanmark.moves.library import find_rung, load_move, move_names

BALANCE = 1e-6
PLACE_M = 1e-9
PHASES = 3  # start, middle, end; a hold has its one pose
PELVIS = 1  # MuJoCo counts the world as body 0, so segment s is body s + 1


@pytest.fixture(scope="module")
def models() -> list[mujoco.MjModel]:
    """One model for each row of the panel."""
    return [person_spec(people().bodies, row).compile() for row in range(len(people().bodies))]


def load_joints(data: mujoco.MjData, forces: list[Outside]) -> Floats:
    """Lay outside forces on the placed body; returns what they do along every degree of freedom."""
    along = np.zeros(data.model.nv)
    data.xfrc_applied[:] = 0.0
    for outside in forces:
        body = outside.segment + PELVIS
        at = np.mean([data.site(name).xpos for name in outside.points], axis=0)
        mujoco.mj_applyFT(data.model, data, outside.force_n, np.zeros(3), at, body, along)
        data.xfrc_applied[body, :3] += outside.force_n
        data.xfrc_applied[body, 3:] += np.cross(at - data.xipos[body], outside.force_n)
    return along


def held_still(rep: Rep, row: int, forces: list[Outside], data: mujoco.MjData) -> tuple[Floats, Floats]:
    """What the person must still exert when held in pose ``row`` under these forces: along every degree of
    freedom (45,), and as full moments (18, 3) about every joint in world axes."""
    set_pose(data, rep.solution.pose, row)
    data.qacc[:] = 0.0
    mujoco.mj_inverse(data.model, data)
    left = data.qfrc_inverse - load_joints(data, forces)
    mujoco.mj_rnePostConstraint(data.model, data)
    turning, push = data.cfrc_int[PELVIS:, :3], data.cfrc_int[PELVIS:, 3:]
    moments = turning + np.cross(data.subtree_com[PELVIS] - data.xpos[PELVIS:], push)
    return left, moments


def engine_along(data: mujoco.MjData, world_moment_nm: Floats) -> Floats:
    """The engine's joint moments (18, 3) along MuJoCo's degrees of freedom; zero for the free pelvis."""
    out = np.zeros(data.model.nv)
    for segment in range(1, SEGMENT_COUNT):
        first = data.model.jnt_dofadr[segment]
        local = data.xmat[segment + PELVIS].reshape(3, 3).T @ world_moment_nm[segment]
        if is_hinge(JOINTS[segment]):
            out[first] = local[1]
        else:
            out[first : first + 3] = local
    return out


def check_row(rep: Rep, loads: Loads, row: int, data: mujoco.MjData, where: str) -> None:
    forces = list(outside_forces(rep, loads, row))
    assert np.isfinite([outside.force_n for outside in forces]).all(), f"{where}: no forces found"
    left, moments = held_still(rep, row, forces, data)
    weight = loads.body_weight_n[row]
    gap = np.abs(left - engine_along(data, loads.world_moment_nm[row])) / weight
    assert gap[:3].max() < BALANCE, f"{where}: force left on the pelvis"
    assert gap[3:6].max() < BALANCE, f"{where}: moment left on the pelvis"
    assert gap[6:].max() < BALANCE, f"{where}: joint moments"
    full = np.abs(moments - loads.world_moment_nm[row]).max() / weight
    assert full < BALANCE, f"{where}: joint moments with those that ligament and bone carry"


def check_places(rep: Rep, placement: Placement, row: int, data: mujoco.MjData, where: str) -> None:
    """Surface points and the whole body's mass centre, as placed for the row just checked."""
    points = placement.point_m(rep.bodies, np.arange(len(POINT_NAMES)))[row]
    sites = np.array([data.site(name).xpos for name in POINT_NAMES])
    assert np.abs(sites - points).max() < PLACE_M, f"{where}: surface points"
    mass = rep.bodies.mass_kg[row]
    centre = mass @ placement.com_m(rep.bodies)[row] / mass.sum()
    assert np.abs(data.subtree_com[PELVIS] - centre).max() < PLACE_M, f"{where}: mass centre"


def check_straps(rep: Rep, loads: Loads, row: int, data: mujoco.MjData, where: str) -> None:
    """Every strap pulls along the line from what holds it to its anchor, as MuJoCo places the holders."""
    for number, strap in enumerate(rep.supports.straps):
        held = np.mean([data.site(POINT_NAMES[point]).xpos for point in strap.points], axis=0)
        line = np.broadcast_to(strap.anchor_m, (len(rep.bodies), 3))[row] - held
        gap = loads.strap_unit[row, number] - line / np.linalg.norm(line)
        assert np.abs(gap).max() < PLACE_M, f"{where}: line of the {strap.side} strap"


@pytest.mark.parametrize("move_name", move_names())
def test_no_rung_leaves_a_residual_and_joint_moments_agree(
    move_name: str, models: list[mujoco.MjModel]
) -> None:
    for rung in load_move(move_name).rungs:
        rep = solved(move_name, rung, PHASES)
        loads, placement, steps = rep.static_loads(), place(rep.bodies, rep.solution.pose), len(rep.nodes)
        for row in range(rep.count * steps):
            person, phase = divmod(row, steps)
            where = f"{move_name}, {rung.rung}, panel row {person}, phase {phase}"
            data = mujoco.MjData(models[person])
            check_row(rep, loads, row, data, where)
            check_places(rep, placement, row, data, where)
            check_straps(rep, loads, row, data, where)


@pytest.mark.parametrize("move_name", move_names())
def test_every_rung_is_held_by_someone_of_the_panel(move_name: str) -> None:
    # Forces balance whether or not a position holds; this keeps the check above from resting on rungs that
    # nobody can hold at their own mark.
    for rung in load_move(move_name).rungs:
        rep = solved(move_name, rung, PHASES)
        loads = rep.static_loads()
        fine = (rep.reasons(loads) == FINE) & (loads.outcome.reshape(rep.count, -1) == HOLDS)
        assert fine.all(axis=1).any(), f"{move_name}, {rung.rung}"


def test_forces_of_held_rows_only_pull_push_and_grip() -> None:
    # By the definition of strap and contact: no strap pushes, no floor pulls, level force within the grip.
    # 1e-6 of body weight: the solver's own bound on how far it leaves a limit.
    for move_name in move_names():
        for rung in load_move(move_name).rungs:
            rep = solved(move_name, rung, PHASES)
            loads = rep.static_loads()
            held = loads.outcome == HOLDS
            grip = np.array([contact.friction for contact in rep.supports.contacts])
            force = loads.contact_force_n[held] / loads.body_weight_n[held, None, None]
            assert loads.part_tension_n[held].min(initial=0.0) >= -BALANCE * loads.body_weight_n.max()
            assert force[..., 2].min(initial=0.0) >= -BALANCE
            level = np.hypot(force[..., 0], force[..., 1])
            assert (level <= grip * force[..., 2] + BALANCE).all(), f"{move_name}, {rung.rung}"


def test_a_strap_pull_one_percent_too_large_is_seen(models: list[mujoco.MjModel]) -> None:
    rung = find_rung(load_move("row"), "2")
    rep = solved("row", rung, PHASES)
    loads = rep.static_loads()
    forces = list(outside_forces(rep, loads, 0))
    forces[0] = replace(forces[0], force_n=1.01 * forces[0].force_n)
    left, _ = held_still(rep, 0, forces, mujoco.MjData(models[0]))
    # 1 % of this strap's pull, which is far above a thousandth of body weight
    surplus = np.abs(left[:3]).max() / loads.body_weight_n[0]
    assert surplus > 1e3 * BALANCE


def test_a_hinge_read_about_the_wrong_side_is_seen(models: list[mujoco.MjModel]) -> None:
    rung = find_rung(load_move("row"), "2")
    rep = solved("row", rung, PHASES)
    loads = rep.static_loads()
    row = len(rep.nodes) - 1
    data = mujoco.MjData(models[0])
    left, _ = held_still(rep, row, list(outside_forces(rep, loads, row)), data)
    swapped = loads.world_moment_nm[row][:, [1, 0, 2]]
    gap = np.abs(left - engine_along(data, swapped))[6:].max() / loads.body_weight_n[row]
    assert gap > 1e3 * BALANCE


def test_a_partners_push_is_laid_on_the_right_point(models: list[mujoco.MjModel]) -> None:
    rung = find_rung(load_move("row"), "2")
    standing = stand_of("row", rung)
    pushed = PushUse("left_hip_side", force_n=(20.0, -15.0, -30.0), share=(0.0, 0.0, -0.05))
    plain = solved("row", rung, PHASES)
    index = np.arange(plain.count) * len(plain.nodes)
    task = replace(standing.task, pushes=(pushed,))
    rep = solve_rep(task, plain.bodies.take(index), plain.geometry.take(index), plain.nodes)
    loads = rep.static_loads()
    assert [known.point for known in rep.supports.known] == [POINT_INDEX["left_hip_side"]]
    for row in range(rep.count * len(rep.nodes)):
        data = mujoco.MjData(models[row // len(rep.nodes)])
        check_row(rep, loads, row, data, f"pushed row, row {row}")
