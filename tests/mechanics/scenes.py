"""People, poses and positions that the engine's tests share."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.scale import scale
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.body.tables import TABLES
from leanmark.mechanics.angles import joint_rotations
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import Pose
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rotation import rotation_from_vector
from leanmark.moves.library import load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, stand
from leanmark.rig.rig import standard_rig

MIRROR: Final = np.diag([1.0, -1.0, 1.0])
SWAP: Final = np.array(
    [JOINTS.index({"left": "right", "right": "left"}.get(side, side) + rest)
     for side, rest in ((j[: j.find("_")], j[j.find("_") :]) if "_" in j else (j, "") for j in JOINTS)]
)  # fmt: skip
"""Each segment's counterpart on the other side."""

ROW_MARK_M: Final = -0.6
"""A heel mark at which the row can be held through its whole rep."""


@cache
def people(count: int = 1, mass_scale: float = 1.0) -> Bodies:
    """``count`` men, the first of 75 kg and 1.78 m, the others heavier and shorter step by step."""
    builds = [Build(mass_scale * (75.0 + 2.0 * k), 1.78 - 0.01 * k, "male") for k in range(count)]
    return scale(builds, TABLES["de_leva_male"])


def posed(
    angles_deg: Mapping[str, Mapping[str, float]], root_m: tuple[float, float, float] = (0.0, 0.0, 1.0)
) -> Pose:
    """One pose from anatomical angles in degrees."""
    radians = {j: {n: float(np.radians(v)) for n, v in row.items()} for j, row in angles_deg.items()}
    return Pose(np.array([root_m]), joint_rotations(radians))


def wild_poses(seed: int, count: int, largest_rad: float = 1.0) -> Pose:
    """Poses with every joint turned at random by up to ``largest_rad`` about each axis it has."""
    draw = np.random.default_rng(seed)
    turn = draw.uniform(-largest_rad, largest_rad, (count, SEGMENT_COUNT, 3))
    hinges = [k for k, joint in enumerate(JOINTS) if is_hinge(joint)]
    turn[:, hinges] *= [0.0, 1.0, 0.0]
    return Pose(draw.uniform(-1.0, 1.0, (count, 3)), rotation_from_vector(turn))


def mirrored(pose: Pose) -> Pose:
    """The same poses seen in a mirror that stands along x: left and right exchanged."""
    return Pose(pose.root_m @ MIRROR, MIRROR @ pose.rotation[:, SWAP] @ MIRROR)


@cache
def row_stand(mass_kg: float = 75.0, strap_mode: str = "independent", floor_friction: float = 0.6) -> Stand:
    """The library's row, its second rung, for one man under an anchor at 2.45 m."""
    move = load_move("row")
    mode = "slipping loop" if strap_mode == "slipping loop" else "independent"
    rig = standard_rig(2.45, strap_mode=mode, floor_friction=floor_friction)
    return stand(move, move.rungs[1], rig, people_of([Build(mass_kg, 1.78, "male")]))


@cache
def row_rep(mark_m: float = ROW_MARK_M, nodes: int = 13, mass_kg: float = 75.0) -> Rep:
    """That row solved at one mark."""
    standing = row_stand(mass_kg)
    rep, _ = standing.rep(np.array([mark_m]), np.zeros(1, dtype=np.intp), nodes)
    return rep


def central_difference(values: Floats, step: float) -> Floats:
    """Slopes from values at plus and minus one step, stacked (2, ...)."""
    slope: Floats = (values[0] - values[1]) / (2.0 * step)
    return slope
