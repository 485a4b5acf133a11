"""Forces and joint moments of moving reps, against Pinocchio's inverse dynamics.

Reference: Pinocchio (Carpentier et al. 2019, The Pinocchio C++ library, SII), PyPI ``pin``. The engine
differentiates a polynomial through thirteen poses along the path. Here the poses are solved anew at even
steps of time around each of them, on a minimum-jerk course written out from its source (Flash and Hogan 1985,
J Neurosci 5:1688), turned into Pinocchio's configurations and differenced in time; Pinocchio's recursive
Newton-Euler then says what the free pelvis and the joints still need under the engine's strap, floor and
other forces.

Grounds of the tolerances:
  FORCE 1e-3 of body weight and MOMENT_NM 0.5: the project's bar for a tempo rep.
  The differences are of eighth order with steps of 1.5 % of a phase: their truncation is below 1e-8 of a
    smooth course, and poses solved to 1e-7 m leave 5 x 1e-7 m / (15 ms)^2 = 2e-3 m/s^2 in a phase of 1 s,
    some 2e-4 of body weight. Slower phases leave less.
  AT_RANGE_RAD 0.01 deg: a joint drawn to the end of its range stops at it or some hundredths beyond.

A rep in which a joint comes to the end of its range on the way bends there and has no acceleration to
compare. Such reps, told by a joint at its range and by forces that change when the engine's nodes are
doubled, are left out; a move that has no other rep fails.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pinocchio as pin
import pytest
from tests.outside.panel import outside_forces, people, solved, stand_of
from tests.outside.pinocchio_model import configuration, person_model

from leanmark.body.segments import JOINTS, SEGMENT_COUNT
from leanmark.mechanics.angles import angles_from_rotation, kind_of
from leanmark.mechanics.arrays import Bools, Floats, Ints
from leanmark.mechanics.dynamics import REP_NODES, Tempo, moving_loads
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.ranges import RANGES_DEG
from leanmark.mechanics.task import Task
from leanmark.moves.library import find_rung, load_move, move_names
from leanmark.moves.schema import Rung
from leanmark.moves.stand import rep_bodies, rep_geometry

FORCE = 1e-3
MOMENT_NM = 0.5
AT_RANGE_RAD = np.radians(0.01)
CLOSE_NODES = 49
TEMPOS = (Tempo(1.0, 0.0, 0.8, 0.0), Tempo(4.0, 1.0, 2.0, 1.0))
STEP = 0.015  # of a phase
STEPS = np.arange(-4, 5)
RATE = np.array([1 / 280, -4 / 105, 1 / 5, -4 / 5, 0, 4 / 5, -1 / 5, 4 / 105, -1 / 280])
CURVE = np.array([-1 / 560, 8 / 315, -1 / 5, 8 / 5, -205 / 72, 8 / 5, -1 / 5, 8 / 315, -1 / 560])
"""Central differences of eighth order (Fornberg 1988, Math Comput 51:699, from memory; any smooth function
checks them, see below)."""


@dataclass(frozen=True)
class Phase:
    """One moving phase: how long it takes [s], which way it runs the path, and the engine's loads in it."""

    duration_s: float
    forward: bool
    loads: Loads


@dataclass(frozen=True)
class Needs:
    """What Pinocchio says is left at K nodes: force_n and moment_nm (K, 3) on the pelvis in its own axes, and
    joint_nm (K, 18, 3) full moments in world axes."""

    force_n: Floats
    moment_nm: Floats
    joint_nm: Floats


def course(time: Floats) -> Floats:
    """Share of the path done at a share of the time; rest, and no acceleration, at both ends."""
    return 10.0 * time**3 - 15.0 * time**4 + 6.0 * time**5


def time_of(share: Floats) -> Floats:
    """Where the course reaches each share (its one real root in the phase)."""
    roots = [np.roots([6.0, -15.0, 10.0, 0.0, 0.0, -value]) for value in share]
    real = [root.real[(abs(root.imag) < 1e-6) & (abs(root.real - 0.5) < 0.501)] for root in roots]
    return np.array(
        [values[np.abs(course(values) - s).argmin()] for values, s in zip(real, share, strict=True)]
    )


def phases(rep: Rep, tempo: Tempo) -> list[Phase]:
    moving = moving_loads(rep, tempo)
    return [
        Phase(tempo.concentric_s, True, moving.concentric),
        Phase(tempo.eccentric_s, False, moving.eccentric),
    ]


def around(task: Task, rep: Rep, person: int, phase: Phase) -> Rep:
    """The person's poses at nine instants around each node, node by node; at the ends of the course, where it
    has neither rate nor acceleration, nine times the pose itself."""
    nodes = rep.nodes if phase.forward else 1.0 - rep.nodes
    done = course(time_of(nodes)[:, None] + STEP * STEPS)
    done[[0, -1]] = nodes[[0, -1], None]
    path = done if phase.forward else 1.0 - done
    one = np.array([person])
    return solve_rep(task, rep_bodies(rep).take(one), rep_geometry(rep).take(one), path.reshape(-1))


def motion(model: pin.Model, poses: Rep, node: int, step_s: float) -> tuple[Floats, Floats, Floats]:
    """Configuration, velocity and acceleration at a node. Differences are taken in the tangent space at the
    node's own pose, where the second derivative of the motion is Pinocchio's acceleration."""
    near = [configuration(model, poses.solution.pose, len(STEPS) * node + k) for k in range(len(STEPS))]
    here = near[len(STEPS) // 2]
    away = np.array([pin.difference(model, here, other) for other in near])
    return here, RATE @ away / step_s, CURVE @ away / step_s**2


def pushes(model: pin.Model, data: pin.Data, rep: Rep, loads: Loads, row: int) -> list[pin.Force]:
    """The engine's outside forces as wrenches on Pinocchio's joints, in the joints' own axes."""
    out = [pin.Force.Zero() for _ in range(model.njoints)]
    for outside in outside_forces(rep, loads, row):
        at = np.mean([data.oMf[model.getFrameId(name)].translation for name in outside.points], axis=0)
        wrench = pin.Force(outside.force_n, np.cross(at, outside.force_n))
        joint = outside.segment + 1
        out[joint] = out[joint] + data.oMi[joint].actInv(wrench)
    return out


def needs(model: pin.Model, task: Task, rep: Rep, person: int, phase: Phase) -> Needs:
    """Inverse dynamics of one person's phase under the engine's forces."""
    data, poses, count = model.createData(), around(task, rep, person, phase), len(rep.nodes)
    left, joint = np.empty((count, 6)), np.empty((count, SEGMENT_COUNT, 3))
    for node in range(count):
        q, v, a = motion(model, poses, node, STEP * phase.duration_s)
        pin.framesForwardKinematics(model, data, q)
        outside = pushes(model, data, rep, phase.loads, person * count + node)
        left[node] = pin.rnea(model, data, q, v, a, outside)[:6]
        carried = [data.oMi[s + 1].rotation @ data.f[s + 1].angular for s in range(SEGMENT_COUNT)]
        joint[node] = carried
    return Needs(left[:, :3], left[:, 3:], joint)


def check_phases(model: pin.Model, move_name: str, rung: Rung, person: int, tempo: Tempo) -> None:
    task, rep = stand_of(move_name, rung).task, solved(move_name, rung, REP_NODES)
    rows = person * REP_NODES + np.arange(REP_NODES)
    for phase in phases(rep, tempo):
        where = f"{move_name}, {rung.rung}, panel row {person}, {'forward' if phase.forward else 'back'}"
        found, weight = needs(model, task, rep, person, phase), phase.loads.body_weight_n[rows[0]]
        gap = found.joint_nm - phase.loads.world_moment_nm[rows]
        assert np.abs(found.force_n).max() < FORCE * weight, f"{where}: force left on the pelvis"
        assert np.abs(found.moment_nm).max() < MOMENT_NM, f"{where}: moment left on the pelvis"
        assert np.abs(gap[:, 1:]).max() < MOMENT_NM, f"{where}: joint moments"


def comes_to_a_range(move_name: str, rung: Rung) -> Bools:
    """Which people's reps (N,) bring a joint angle to the end of its range somewhere on their way."""
    rep = solved(move_name, rung, CLOSE_NODES)
    found = np.zeros((rep.count, CLOSE_NODES), dtype=bool)
    for number, joint in enumerate(JOINTS[1:], start=1):
        for name, value in angles_from_rotation(joint, rep.solution.pose.rotation[:, number]).items():
            low, high, _ = RANGES_DEG.get((kind_of(joint), name), (-np.inf, np.inf, ""))
            over = np.maximum(np.radians(low) - value, value - np.radians(high))
            found |= over.reshape(found.shape) > -AT_RANGE_RAD
    return found.any(axis=1)


def totals(rep: Rep, phase: Phase) -> Floats:
    """Total strap tension and floor force at the nodes of N reps, (N, K, 4) [share of body weight]."""
    strap = phase.loads.strap_tension_n.sum(axis=1, keepdims=True)
    force = np.concatenate([strap, phase.loads.contact_force_n.sum(axis=1)], axis=1)
    return (force / phase.loads.body_weight_n[:, None]).reshape(rep.count, -1, 4)


def unresolved(move_name: str, rung: Rung, tempo: Tempo) -> Bools:
    """Which people's forces (N,) change by more than the bar when the engine's nodes are doubled."""
    coarse, fine = (solved(move_name, rung, nodes) for nodes in (REP_NODES, 2 * REP_NODES - 1))
    pairs = zip(phases(coarse, tempo), phases(fine, tempo), strict=True)
    change = [np.abs(totals(coarse, a) - totals(fine, b)[:, ::2]).max(axis=(1, 2)) for a, b in pairs]
    return np.max(change, axis=0) > FORCE


def smooth(move_name: str, rung: Rung, tempo: Tempo) -> Ints:
    """Numbers of the people whose rep is met all along and does not bend at the end of a joint's range."""
    rep = solved(move_name, rung, REP_NODES)
    met = rep.solution.met.reshape(rep.count, -1).all(axis=1)
    bends = comes_to_a_range(move_name, rung) & unresolved(move_name, rung, tempo)
    return np.flatnonzero(met & ~bends)


@pytest.fixture(scope="module")
def models() -> list[pin.Model]:
    """One model for each row of the panel."""
    return [person_model(people().bodies, row) for row in range(len(people().bodies))]


def moving_rungs(move_name: str) -> list[Rung]:
    return [rung for rung in load_move(move_name).rungs if not stand_of(move_name, rung).task.still]


@pytest.mark.parametrize("move_name", move_names())
def test_reps_at_the_moves_own_tempo(move_name: str, models: list[pin.Model]) -> None:
    # Every smooth rep both ways, one person a rung in turn; a move of which no rep is smooth fails.
    tempo, rungs, compared = Tempo(*load_move(move_name).tempo_s), moving_rungs(move_name), 0
    for number, rung in enumerate(rungs):
        for person in np.roll(smooth(move_name, rung, tempo), -number)[:1]:
            check_phases(models[person], move_name, rung, person, tempo)
            compared += 1
    assert compared or not rungs, f"{move_name}: every rep bends at the end of a joint's range"


@pytest.mark.parametrize("move_name", ["row", "chest press", "single-leg squat", "biceps curl"])
@pytest.mark.parametrize(
    "tempo", [Tempo(1.0, 0.0, 0.8, 0.0), Tempo(4.0, 1.0, 2.0, 1.0)], ids=["fast", "slow"]
)
def test_reps_at_other_tempos(move_name: str, tempo: Tempo, models: list[pin.Model]) -> None:
    rung = moving_rungs(move_name)[0]
    person = smooth(move_name, rung, tempo)[-1]
    check_phases(models[person], move_name, rung, person, tempo)


def left_of_a_row(model: pin.Model, duration_s: float, moving: bool) -> float:
    """Largest force left on the pelvis [share of body weight] when a row pulled in 1 s is checked as one
    pulled in ``duration_s``, under the engine's loads of the moving row or of one held still."""
    rung = find_rung(load_move("row"), "2")
    task, rep = stand_of("row", rung).task, solved("row", rung, REP_NODES)
    loads = moving_loads(rep, Tempo(1.0, 0.0, 1.0, 0.0)).concentric if moving else rep.static_loads()
    found = needs(model, task, rep, 0, Phase(duration_s, True, loads))
    return float(np.abs(found.force_n).max() / loads.body_weight_n[0])


def test_wrong_accelerations_are_seen(models: list[pin.Model]) -> None:
    assert left_of_a_row(models[0], 1.0, moving=True) < FORCE
    assert left_of_a_row(models[0], 1.0, moving=False) > 20 * FORCE
    assert left_of_a_row(models[0], 1.1, moving=True) > 5 * FORCE


def test_the_differences_are_of_eighth_order() -> None:
    # x^8 is differenced exactly by both at 1: 8 and 56 (a truncation would show as h^8 or more).
    near = (1.0 + 0.1 * STEPS) ** 8
    assert RATE @ near / 0.1 == pytest.approx(8.0, rel=1e-11)
    assert CURVE @ near / 0.01 == pytest.approx(56.0, rel=1e-11)
