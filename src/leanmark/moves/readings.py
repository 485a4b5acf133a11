"""What is read off one solved pose: lean, floor forces by patch, the joint actions that work most."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS, SEGMENT_INDEX
from leanmark.mechanics.angles import kind_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.moments import MOMENT_AXES
from leanmark.mechanics.position import Rep
from leanmark.moves.report_form import FloorReport, JointReport

LISTED_JOINTS: Final = 6
"""Joint moments listed for a phase, the largest shares of reference strength first."""


def lean_deg(rep: Rep) -> Floats:
    """Angle [deg] of the line from between the ankles to between the shoulders from upright, (N K,)."""
    joint_m = place(rep.bodies, rep.solution.pose).joint_m
    ankles, shoulders = (
        joint_m[:, [SEGMENT_INDEX[f"left_{part}"], SEGMENT_INDEX[f"right_{part}"]]].mean(axis=1)
        for part in ("foot", "upper_arm")
    )
    line = shoulders - ankles
    lean: Floats = np.degrees(np.arctan2(np.hypot(line[:, 0], line[:, 1]), line[:, 2]))
    return lean


def floor_reports(rep: Rep, loads: Loads, row: int) -> list[FloorReport]:
    """Force and centre of pressure of each patch at one row."""
    reports = []
    patches = [contact.patch for contact in rep.supports.contacts]
    for patch in dict.fromkeys(patches):
        members = [k for k, name in enumerate(patches) if name == patch]
        force = loads.contact_force_n[row, members]
        points = loads.contact_point_m[row, members]
        share = np.maximum(force[:, 2], 0.0) + 1e-9
        pressure = (points * share[:, None]).sum(axis=0) / share.sum()
        total = force.sum(axis=0)
        reports.append(FloorReport(patch, tuple(total.tolist()), tuple(pressure.tolist())))
    return reports


def joint_reports(loads: Loads, row: int, low_nm: Floats, high_nm: Floats) -> list[JointReport]:
    """The joint actions that take the largest shares of reference strength at one row."""
    share = np.abs(loads.strength_share[row])
    reports = []
    for flat in np.argsort(-share, axis=None)[:LISTED_JOINTS]:
        joint, axis = divmod(int(flat), 3)
        moment = float(loads.joint_moment_nm[row, joint, axis])
        action = MOMENT_AXES[kind_of(JOINTS[joint])][axis].replace("_", " ")
        low, high = float(low_nm[joint, axis]), float(high_nm[joint, axis])
        if moment < 0.0:
            action, low, high = _OPPOSITES[action], -high, -low
        name = JOINTS[joint].replace("_", " ")
        percent = 100.0 * float(share[joint, axis])
        reports.append(JointReport(name, action, abs(moment), percent, low, high))
    return reports


_OPPOSITES: Final = {
    "flexion": "extension",
    "extension": "flexion",
    "abduction": "adduction",
    "internal rotation": "external rotation",
    "external rotation": "internal rotation",
    "side bend right": "side bend left",
    "rotation left": "rotation right",
    "radial deviation": "ulnar deviation",
    "pronation": "supination",
    "dorsiflexion": "plantarflexion",
    "eversion": "inversion",
}
