"""The push-up in the straps of Gulmez, body level and elbows bent, on the engine.

The engine's own strap press at its start, toes on a box high enough that the hands, which hang below a level
body, clear the floor. Two things the abstract does not state are assumed: that the body is level when
shoulders and ankles are equally high, and that the straps hang upright. The mark and the strap's length are
the unknowns that give both. The box's and the anchor's height hardly matter then.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import numpy as np
from scipy.optimize import root

from leanmark.body.build import Build
from leanmark.body.points import POINT_INDEX
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.body.tables import TABLES
from leanmark.mechanics.angles import rotation_from_angles
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.task import Geometry, PatchUse, Task
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.translate import task_of

ANCHOR_M: Final = 2.4
BOX_M: Final = 0.5
GRIP: Final = 3.0
RUNG: Final = "leaning"
MEN: Final = Build(78.8, 1.794, "male")  # Gulmez 2017, means of 28 men
LEVEL_PITCH_RAD: Final = np.radians(88.0)
CLOSE_M: Final = 1e-6


def task_level(box_m: float, straight: bool) -> Task:
    """The press's start (or, arms straight, its end) held with the body about level, the toes on a box."""
    move = load_move("chest press")
    task = task_of(move, find_rung(move, RUNG))
    start = (task.end if straight else task.start).copy()
    start[0] = rotation_from_angles("root", {"pitch": LEVEL_PITCH_RAD})
    toes = tuple(PatchUse("forefoot", side, height_m=box_m) for side in ("left", "right"))
    return replace(task, start=start, end=start, patches=toes, still=True)


def solved(task: Task, mark_m: float, strap_m: float, anchor_m: float) -> Rep:
    bodies = scale([MEN], TABLES["de_leva_male"])
    geometry = Geometry(
        np.array([[0.0, 0.0, anchor_m]]), np.array([strap_m]), np.array([mark_m]), friction=GRIP
    )
    return solve_rep(task, bodies, geometry, np.zeros(1))


def gaps(rep: Rep) -> Floats:
    """How much higher the shoulders are than the ankles, and how far the hands are from under the anchor."""
    placement = place(rep.bodies, rep.solution.pose)
    high = placement.joint_m[0, [SEGMENT_INDEX["left_upper_arm"], SEGMENT_INDEX["left_foot"]], 2]
    hand = placement.point_m(rep.bodies, np.array([POINT_INDEX["left_grip"]]))[0, 0]
    return np.array([high[0] - high[1], hand[0]])


def strap_share(straight: bool, anchor_m: float = ANCHOR_M, box_m: float = BOX_M) -> float:
    """Sum of both straps, % of body weight."""
    task, guess = task_level(box_m, straight), np.array([-1.3, anchor_m - box_m + (0.3 if straight else 0.1)])
    found = root(lambda x: gaps(solved(task, x[0], x[1], anchor_m)), guess)
    rep = solved(task, found.x[0], found.x[1], anchor_m)
    assert np.abs(gaps(rep)).max() < CLOSE_M, f"the body is not level: {gaps(rep)}"
    loads = rep.static_loads()
    reasons = rep.reasons(loads)
    assert (reasons == FINE).all(), REASONS[int(reasons[0, 0])]
    return 100.0 * float(loads.total_tension_share[0])
