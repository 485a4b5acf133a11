"""A person of the engine as a Pinocchio model: the same arrays, none of the engine's mechanics."""

from __future__ import annotations

import numpy as np
import pinocchio as pin

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINTS
from leanmark.body.segments import JOINTS, PARENT, SEGMENT_COUNT, SEGMENT_INDEX, is_hinge
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import Pose


def person_model(bodies: Bodies, person: int) -> pin.Model:
    """One person: a free pelvis, ball joints, and hinges about y; each surface point is a frame of its own
    name. Joint ``s + 1`` carries segment ``s``."""
    model = pin.Model()
    model.gravity.linear = np.array([0.0, 0.0, -GRAVITY_M_S2])
    for segment, joint in enumerate(JOINTS):
        kind = pin.JointModelSpherical()
        if segment == 0:
            kind = pin.JointModelFreeFlyer()
        elif is_hinge(joint):
            kind = pin.JointModelRY()
        place = pin.SE3(np.eye(3), bodies.joint_offset_m[person, segment])
        number = model.addJoint(PARENT[segment] + 1, kind, place, joint)
        inertia = pin.Inertia(
            bodies.mass_kg[person, segment],
            bodies.com_m[person, segment],
            np.diag(bodies.inertia_kg_m2[person, segment]),
        )
        model.appendBodyToJoint(number, inertia, pin.SE3.Identity())
    for index, (name, point) in enumerate(POINTS.items()):
        number = SEGMENT_INDEX[point.segment] + 1
        place = pin.SE3(np.eye(3), bodies.point_m[person, index])
        model.addFrame(pin.Frame(name, number, 0, place, pin.FrameType.OP_FRAME))
    return model


def configuration(model: pin.Model, pose: Pose, row: int) -> Floats:
    """Pinocchio's configuration of the engine's pose ``row``."""
    q = pin.neutral(model)
    q[:3] = pose.root_m[row]
    for segment in range(SEGMENT_COUNT):
        rotation, first = pose.rotation[row, segment], model.idx_qs[segment + 1] + (3 if segment == 0 else 0)
        if is_hinge(JOINTS[segment]):
            q[first] = np.arctan2(rotation[0, 2], rotation[0, 0])
        else:
            q[first : first + 4] = pin.Quaternion(rotation).coeffs()
    return q
