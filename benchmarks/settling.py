"""The peer of a whole solve: MuJoCo steps the same person, on cords and dry floor, until all is at rest.

The person is articulated, with a spring and a damper at every joint. The simulator is helped: it begins in
the engine's own solved pose, and the springs rest at its angles, so that the body only has to settle.
"""

from __future__ import annotations

from dataclasses import dataclass

import mujoco
import numpy as np
from tests.outside.mujoco_model import person_spec, set_pose

from leanmark.body.points import POINTS
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import Pose
from leanmark.mechanics.position import Rep

STEP_S = 1e-3
SPRING_NM = 2000.0  # per radian, at every joint: sags by a degree or two, as people do
DAMPING_S = 0.05  # damping over stiffness
STIFF = [4e-3, 1.0]
GRIP_RATIO = 100.0  # firmer friction than floor, so that feet do not creep
STEPS_AT_ONCE = 50
AT_REST = 1e-3  # largest velocity [m/s, rad/s] that counts as rest
LONGEST_S = 10.0
POINT_NAMES = tuple(POINTS)


@dataclass(frozen=True)
class Rest:
    """tension_n: of all straps; pose: of the settled body; settled: whether it came to rest; seconds: of
    simulated time that took."""

    tension_n: float
    pose: Pose
    settled: bool
    seconds: float


def model_of(rep: Rep, row: int) -> mujoco.MjModel:
    """One position as a model. Building it is not timed."""
    spec = person_spec(rep.bodies, row)
    spec.option.timestep = STEP_S
    spec.option.integrator = mujoco.mjtIntegrator.mjINT_IMPLICITFAST
    spec.option.cone = mujoco.mjtCone.mjCONE_ELLIPTIC
    spec.option.impratio = GRIP_RATIO
    floor = spec.worldbody.add_geom(type=mujoco.mjtGeom.mjGEOM_PLANE, size=[9.0, 9.0, 0.1], name="floor")
    floor.contype = floor.conaffinity = 0
    for number, strap in enumerate(rep.supports.straps):
        anchor_m = np.broadcast_to(strap.anchor_m, (len(rep.bodies), 3))[row]
        spec.worldbody.add_site(name=f"anchor {number}", pos=anchor_m)
        cord = spec.add_tendon(name=f"strap {number}")
        cord.wrap_site(f"anchor {number}")
        cord.wrap_site(POINT_NAMES[strap.points[0]])
        cord.limited, cord.range = True, [0.0, float(_strap_m(rep, row))]
        cord.solref_limit = STIFF
    for contact in rep.supports.contacts:
        _add_contact(spec, POINT_NAMES[contact.point], contact.friction)
    model = spec.compile()
    _add_springs(model, rep, row)
    return model


def _strap_m(rep: Rep, row: int) -> float:
    reach: float = rep.geometry.strap_m[row] + rep.geometry.handle_m
    return reach


def _add_contact(spec: mujoco.MjSpec, point: str, friction: float) -> None:
    site = spec.site(point)
    ball = site.parent.add_geom(
        name=f"ball {point}", type=mujoco.mjtGeom.mjGEOM_SPHERE, size=[1e-3, 0.0, 0.0], pos=site.pos, mass=0.0
    )
    ball.contype = ball.conaffinity = 0
    grip = [friction, friction, 0.0, 0.0, 0.0]
    spec.add_pair(geomname1="floor", geomname2=ball.name, condim=3, friction=grip, solref=STIFF)


def _add_springs(model: mujoco.MjModel, rep: Rep, row: int) -> None:
    """Draw every joint to its angle in the engine's pose."""
    resting = mujoco.MjData(model)
    set_pose(resting, rep.solution.pose, row)
    model.qpos_spring[:] = resting.qpos
    model.jnt_stiffness[1:] = SPRING_NM
    model.dof_damping[6:] = SPRING_NM * DAMPING_S


def settled(model: mujoco.MjModel, rep: Rep, row: int) -> Rest:
    """Step one position until it is at rest."""
    data = mujoco.MjData(model)
    set_pose(data, rep.solution.pose, row)
    at_rest = False
    while not at_rest and data.time < LONGEST_S:
        mujoco.mj_step(model, data, STEPS_AT_ONCE)
        at_rest = bool(np.abs(data.qvel).max() < AT_REST)
    mujoco.mj_forward(model, data)
    pulls = np.flatnonzero(data.efc_type == mujoco.mjtConstraint.mjCNSTR_LIMIT_TENDON)
    return Rest(float(data.efc_force[pulls].sum()), _pose(data), at_rest, data.time)


def _pose(data: mujoco.MjData) -> Pose:
    """The settled body as a pose of the engine."""
    world: Floats = data.xmat[1:].reshape(SEGMENT_COUNT, 3, 3)
    parent = data.model.body_parentid[1:] - 1
    above = np.where((parent >= 0)[:, None, None], world[parent], np.eye(3))
    return Pose(data.qpos[None, :3].copy(), (np.swapaxes(above, -1, -2) @ world)[None])
