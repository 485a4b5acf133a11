"""A person of the engine as a MuJoCo model: the same arrays, none of the engine's mechanics.

Masses, mass centres, principal moments, joint places and surface points are handed over one by one; the tree,
the joints and all that follows from them (places, moments, gravity, contacts) are MuJoCo's.
"""

from __future__ import annotations

import mujoco
import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINTS
from leanmark.body.segments import JOINTS, PARENT, SEGMENT_COUNT, SEGMENTS, is_hinge
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import Pose


def _quaternion(rotation: Floats) -> Floats:
    """MuJoCo's unit quaternion (w, x, y, z) of a rotation matrix."""
    out = np.zeros(4)
    mujoco.mju_mat2Quat(out, np.ascontiguousarray(rotation).reshape(-1))
    return out


def person_spec(bodies: Bodies, person: int, held: Floats | None = None) -> mujoco.MjSpec:
    """One person on a free pelvis.

    held: child-to-parent rotations (18, 3, 3) at which every joint is fixed, so that the person is one rigid
    body; None for ball joints and hinges that can move. Each surface point is a site of its own name.
    """
    spec = mujoco.MjSpec()
    spec.option.gravity = [0.0, 0.0, -GRAVITY_M_S2]
    parts: list[mujoco.MjsBody] = []
    for segment, name in enumerate(SEGMENTS):
        above = spec.worldbody if segment == 0 else parts[PARENT[segment]]
        part = above.add_body(
            name=name,
            pos=bodies.joint_offset_m[person, segment],
            mass=bodies.mass_kg[person, segment],
            ipos=bodies.com_m[person, segment],
            inertia=bodies.inertia_kg_m2[person, segment],
            explicitinertial=True,
        )
        if segment == 0:
            part.add_freejoint(name=JOINTS[0])
        elif held is not None:
            part.quat = _quaternion(held[segment])
        elif is_hinge(JOINTS[segment]):
            part.add_joint(name=JOINTS[segment], type=mujoco.mjtJoint.mjJNT_HINGE, axis=[0.0, 1.0, 0.0])
        else:
            part.add_joint(name=JOINTS[segment], type=mujoco.mjtJoint.mjJNT_BALL)
        parts.append(part)
    for name, point in POINTS.items():
        parts[SEGMENTS.index(point.segment)].add_site(
            name=name, pos=bodies.point_m[person, list(POINTS).index(name)]
        )
    return spec


def set_pose(data: mujoco.MjData, pose: Pose, row: int) -> None:
    """Write the engine's pose ``row`` into qpos and let MuJoCo place the body. Velocities become zero."""
    model = data.model
    data.qvel[:] = 0.0
    data.qpos[:3] = pose.root_m[row]
    data.qpos[3:7] = _quaternion(pose.rotation[row, 0])
    for segment in range(1, SEGMENT_COUNT):
        joint = mujoco.mj_name2id(model, mujoco.mjtObj.mjOBJ_JOINT, JOINTS[segment])
        if joint < 0:
            continue
        first, rotation = model.jnt_qposadr[joint], pose.rotation[row, segment]
        if is_hinge(JOINTS[segment]):
            data.qpos[first] = np.arctan2(rotation[0, 2], rotation[0, 0])
        else:
            data.qpos[first : first + 4] = _quaternion(rotation)
