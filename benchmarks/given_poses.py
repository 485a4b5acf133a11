"""Forces and moments of given poses per second, against a loop of MuJoCo's inverse dynamics.

The peer is given the outside forces that we have to find. Run: ``python -m benchmarks.given_poses``.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import mujoco
import numpy as np
from tests.outside.mujoco_model import person_spec, set_pose

from benchmarks.batches import batch
from benchmarks.timing import machine, timed
from leanmark.body.points import POINT_SEGMENT
from leanmark.body.segments import JOINTS, SEGMENT_COUNT, is_hinge
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.loads import Loads, statics
from leanmark.mechanics.position import Rep

COUNTS = (1, 100, 1_000, 10_000)
PEER_COUNT = 1_000
AIM_PER_S = 100_000
AGREE = 1e-6
"""Of body weight (x 1 m): both sides solve the same linear equations in double precision; the engine's
balance rows are kept to about 1e-9."""
_PELVIS = 1


@dataclass(frozen=True)
class Given:
    """Poses as MuJoCo takes them, qpos (N, 57), and the outside forces on them: at_m and force_n (N, F, 3),
    and the body that each acts on, (F,)."""

    qpos: Floats
    at_m: Floats
    force_n: Floats
    body: list[int]


def given(rep: Rep, loads: Loads, data: mujoco.MjData) -> Given:
    """What the peer is handed; not timed."""
    qpos = np.empty((len(rep.bodies), data.model.nq))
    for row in range(len(qpos)):
        set_pose(data, rep.solution.pose, row)
        qpos[row] = data.qpos
    pulls_n = loads.strap_tension_n[..., None] * loads.strap_unit
    points = [strap.points[0] for strap in rep.supports.straps] + [c.point for c in rep.supports.contacts]
    return Given(
        qpos,
        np.concatenate([loads.strap_end_m, loads.contact_point_m], axis=1),
        np.concatenate([pulls_n, loads.contact_force_n], axis=1),
        [int(POINT_SEGMENT[point]) + _PELVIS for point in points],
    )


def bare(data: mujoco.MjData, poses: Given) -> None:
    """The loop without outside forces: less work than ours by all that holds the person up."""
    for qpos in poses.qpos:
        data.qpos[:] = qpos
        mujoco.mj_inverse(data.model, data)


def loaded(data: mujoco.MjData, poses: Given, out: Floats) -> None:
    """The loop with the outside forces taken off: what every joint must carry, into ``out`` (N, 45)."""
    along, none = np.empty(data.model.nv), np.zeros(3)
    for row, qpos in enumerate(poses.qpos):
        data.qpos[:] = qpos
        mujoco.mj_inverse(data.model, data)
        along[:] = 0.0
        for body, at_m, force_n in zip(poses.body, poses.at_m[row], poses.force_n[row], strict=True):
            mujoco.mj_applyFT(data.model, data, force_n, none, at_m, body, along)
        out[row] = data.qfrc_inverse - along


def check(rep: Rep, loads: Loads, data: mujoco.MjData, poses: Given) -> None:
    """Both sides find the same joint moments, and nothing is left on the pelvis."""
    out = np.empty((len(poses.qpos), data.model.nv))
    loaded(data, poses, out)
    for row in range(0, len(out), max(1, len(out) // 50)):
        set_pose(data, rep.solution.pose, row)
        mujoco.mj_kinematics(data.model, data)
        gap = np.abs(out[row] - _along(data, loads.world_moment_nm[row])).max() / loads.body_weight_n[row]
        assert gap < AGREE, f"pose {row} differs by {gap:.1e} of body weight"


def _along(data: mujoco.MjData, world_nm: Floats) -> Floats:
    """Joint moments (18, 3) in world axes, along MuJoCo's degrees of freedom."""
    out = np.zeros(data.model.nv)
    for segment in range(1, SEGMENT_COUNT):
        first = data.model.jnt_dofadr[segment]
        local = data.xmat[segment + _PELVIS].reshape(3, 3).T @ world_nm[segment]
        out[first : first + (1 if is_hinge(JOINTS[segment]) else 3)] = (
            local[1] if is_hinge(JOINTS[segment]) else local
        )
    return out


def peers_s() -> dict[str, float]:
    """Median seconds per pose of both loops, on poses of one person."""
    rep = batch(PEER_COUNT, people=1).solved()
    loads = rep.static_loads()
    data = mujoco.MjData(person_spec(rep.bodies, 0).compile())
    poses = given(rep, loads, data)
    check(rep, loads, data, poses)
    out = np.empty((PEER_COUNT, data.model.nv))
    found = {
        "mj_inverse": timed(partial(bare, data, poses)),
        f"mj_inverse and {len(poses.body)} given forces": timed(partial(loaded, data, poses, out)),
    }
    for name, times in found.items():
        print(f"loop of {name}: {times.rate(PEER_COUNT)}")
    return {name: times.median_s / PEER_COUNT for name, times in found.items()}


def ours(peers: dict[str, float]) -> None:
    """Rates by batch size, with the contact forces found."""
    print(f"ours, contact forces found; aim {AIM_PER_S}/s from 1000 on")
    for count in COUNTS:
        rep = batch(count).solved()
        times = timed(partial(statics, rep.bodies, rep.solution.pose, rep.supports))
        ratios = ", ".join(f"{count * s / times.median_s:.2f} x {name}" for name, s in peers.items())
        print(f"  {count:6d} at once: {times.rate(count)}, {ratios}")


if __name__ == "__main__":
    print(machine())
    ours(peers_s())
