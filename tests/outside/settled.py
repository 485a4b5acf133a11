"""MuJoCo's own strap and floor forces on a person who is held stiff in one pose and left to settle.

The person is one rigid body in the engine's pose; each strap is a cord that cannot get longer than it is in
that pose (one cord for both sides where it runs through a loop); each contact is a small ball on a level
plane with dry friction. None of the engine's strap or floor forces goes in. MuJoCo steps the motion until it
has died away and its constraint forces are read.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import mujoco
import numpy as np
from tests.outside.mujoco_model import person_spec, set_pose
from tests.outside.panel import POINT_NAMES

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.mechanics.supports import Supports

STEP_S = 5e-4
SETTLING_S = 0.4  # two hundred time constants of the constraints
STIFF = [2e-3, 1.0]  # of every constraint: time constant [s], four steps, and damping ratio, critical
FIRM = [0.9999, 0.9999, 1e-3, 0.5, 2.0]  # the firmest impedance that MuJoCo allows
GRIP_RATIO = 1e3  # how much firmer friction is than the floor's give, so that creep stays small
BALL_M = 1e-3
BITE_M = 1e-9  # every constraint bears from the first step on, whatever the last digit of its place
UP = np.array([0.0, 0.0, 1.0])
_PELVIS = 1  # body 0 is the world


@dataclass(frozen=True)
class Settled:
    """strap_n: (S,) tensions [N]; contact_n: (C, 3) forces on the person in world axes [N]; speed: largest
    velocity at the end [m/s, rad/s]; drift_m: how far the pelvis went from the engine's pose."""

    strap_n: Floats
    contact_n: Floats
    speed: float
    drift_m: float


def settle(rep: Rep, loads: Loads, supports: Supports, row: int) -> Settled:
    """Let the pose of one row settle on these supports; ``loads`` of the same supports gives their places."""
    rotation, root_m = rep.solution.pose.rotation[row], rep.solution.pose.root_m[row]
    spec = person_spec(rep.bodies, row, held=rotation)
    spec.option.timestep = STEP_S
    spec.option.cone = mujoco.mjtCone.mjCONE_ELLIPTIC
    spec.option.impratio = GRIP_RATIO
    spec.option.tolerance = 0.0
    local = partial(_on_pelvis, rotation[0], root_m)
    anchors_m = [np.broadcast_to(s.anchor_m, (len(rep.bodies), 3))[row] for s in supports.straps]
    ends_m = [loads.strap_end_m[row, number] for number in range(len(anchors_m))]
    if supports.loop_ratio is None:
        for number, (anchor_m, end_m) in enumerate(zip(anchors_m, ends_m, strict=True)):
            _add_cord(spec, f"strap {number}", anchor_m, [end_m], local)
    else:
        assert supports.loop_ratio == 1.0, "MuJoCo's cords run through loops without friction"
        _add_cord(spec, "loop", anchors_m[0], ends_m, local)
    for number, contact in enumerate(supports.contacts):
        _add_contact(spec, number, loads.contact_point_m[row, number], contact.friction, local)
    data = mujoco.MjData(spec.compile())
    set_pose(data, rep.solution.pose, row)
    mujoco.mj_forward(data.model, data)
    _lay_known(data, supports, row)
    mujoco.mj_step(data.model, data, round(SETTLING_S / STEP_S))
    mujoco.mj_forward(data.model, data)
    return Settled(
        _tensions(data)[[0] * len(supports.straps) if supports.loop_ratio else slice(None)],
        _contact_forces(data, len(supports.contacts)),
        float(np.abs(data.qvel).max()),
        float(np.abs(data.qpos[:3] - root_m).max()),
    )


def _on_pelvis(rotation: Floats, root_m: Floats, world_m: Floats) -> Floats:
    """A world point in the pelvis's frame."""
    return rotation.T @ (world_m - root_m)


def _add_cord(
    spec: mujoco.MjSpec, name: str, anchor_m: Floats, ends_m: list[Floats], local: Callable[[Floats], Floats]
) -> None:
    """A cord from the anchor to one end, or from one end through the anchor to the other."""
    spec.worldbody.add_site(name=f"{name} anchor", pos=anchor_m)
    sites = [f"{name} end {number}" for number in range(len(ends_m))]
    for site, end_m in zip(sites, ends_m, strict=True):
        spec.body("pelvis").add_site(name=site, pos=local(end_m))
    cord = spec.add_tendon(name=name)
    for site in (sites[0], f"{name} anchor", *sites[1:]):
        cord.wrap_site(site)
    cord.limited = True
    cord.range = [0.0, sum(np.linalg.norm(anchor_m - end_m) for end_m in ends_m) - BITE_M]
    cord.solref_limit, cord.solimp_limit = STIFF, FIRM


def _add_contact(
    spec: mujoco.MjSpec, number: int, at_m: Floats, friction: float, local: Callable[[Floats], Floats]
) -> None:
    plane, ball = f"floor {number}", f"ball {number}"
    spec.worldbody.add_geom(
        name=plane,
        type=mujoco.mjtGeom.mjGEOM_PLANE,
        size=[9.0, 9.0, 0.1],
        pos=at_m + BITE_M * UP,
        contype=0,
        conaffinity=0,
    )
    spec.body("pelvis").add_geom(
        name=ball,
        type=mujoco.mjtGeom.mjGEOM_SPHERE,
        size=[BALL_M, 0.0, 0.0],
        pos=local(at_m + BALL_M * UP),
        mass=0.0,
        contype=0,
        conaffinity=0,
    )
    spec.add_pair(
        name=f"contact {number}",
        geomname1=plane,
        geomname2=ball,
        condim=3,
        friction=[friction, friction, 0.0, 0.0, 0.0],
        solref=STIFF,
        solimp=FIRM,
    )


def _lay_known(data: mujoco.MjData, supports: Supports, row: int) -> None:
    """Outside forces of known size, held constant; the placed body tells where they act."""
    for known in supports.known:
        force_n = np.atleast_2d(known.force_n)[row if np.ndim(known.force_n) > 1 else 0]
        at = data.site(POINT_NAMES[known.point]).xpos
        data.xfrc_applied[_PELVIS, :3] += force_n
        data.xfrc_applied[_PELVIS, 3:] += np.cross(at - data.xipos[_PELVIS], force_n)


def _tensions(data: mujoco.MjData) -> Floats:
    """Tension of every cord; one that is slack has no constraint and pulls nothing."""
    out = np.zeros(data.model.ntendon)
    limits = np.flatnonzero(data.efc_type == mujoco.mjtConstraint.mjCNSTR_LIMIT_TENDON)
    out[data.efc_id[limits]] = data.efc_force[limits]
    return out


def _contact_forces(data: mujoco.MjData, contacts: int) -> Floats:
    """A ball that is off its plane has no contact and bears nothing."""
    out = np.zeros((contacts, 3))
    for index in range(data.ncon):
        touch, force = data.contact[index], np.zeros(6)
        mujoco.mj_contactForce(data.model, data, index, force)
        number = int(data.model.geom(touch.geom[1]).name.removeprefix("ball "))
        out[number] = touch.frame.reshape(3, 3).T @ force[:3]
    return out
