"""A squat on both soles without straps, and the same with a strap in each hand: reps that go straight up."""

from __future__ import annotations

from functools import cache
from typing import Final

import numpy as np
from tests.mechanics.scenes import people, posed

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.rep import lobatto_nodes
from leanmark.mechanics.task import BalanceUse, Geometry, PatchUse, Task

BOTH: Final = ("left", "right")
FIRM: Final = np.where(np.arange(18) == 0, 0.1, 1.0)
OVER: Final = tuple((f"{side}_{point}", 0.25) for side in BOTH for point in ("heel", "ball_medial"))


def kit(count: int = 1) -> Geometry:
    """Heels at the plumb point, without straps."""
    return Geometry(np.tile([0.0, 0.0, 2.4], (count, 1)), np.full(count, 1.2), np.zeros(count))


@cache
def squat_task(deep_deg: float = 95.0, high_deg: float = 30.0) -> Task:
    """From knees bent by ``deep_deg`` up to ``high_deg``, the mass centre kept over the feet."""

    def bent(degrees: float) -> Floats:
        joints = {
            "root": {"pitch": 0.4 * degrees},
            **{f"{side}_hip": {"flexion": degrees} for side in BOTH},
            **{f"{side}_knee": {"flexion": degrees} for side in BOTH},
            **{f"{side}_ankle": {"dorsiflexion": 0.3 * degrees} for side in BOTH},
        }
        return posed(joints).rotation[0]

    return Task(
        bent(deep_deg),
        bent(high_deg),
        FIRM,
        tuple(PatchUse("sole", side) for side in BOTH),
        balances=(BalanceUse(0, OVER),),
    )


@cache
def squat_rep(nodes: int = 13) -> Rep:
    """That squat solved for one person."""
    rep = solve_rep(squat_task(), people(), kit(), lobatto_nodes(nodes))
    assert rep.solution.met.all()
    return rep


def mass_centre_height(rep: Rep) -> Floats:
    """Height of the mass centre at every node (K,) [m], summed segment by segment."""
    height = place(rep.bodies, rep.solution.pose).com_m(rep.bodies)[..., 2]
    total: Floats = (rep.bodies.mass_kg * height).sum(axis=1) / rep.bodies.mass_kg.sum(axis=1)
    return total
