"""The row of Melrose and Dawes: arms straight, feet under the anchor, the body leant back by a stated angle.

The engine's own row, held at its start. The soles stay flat as far as the ankles' range lets them, up to 60
degrees; beyond, the heels alone bear. The strap's length is the unknown that gives each lean. Not stated in
the abstract and assumed here: the anchor's height, and that the heels are what stands under it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Final

import numpy as np
from scipy.optimize import brentq

from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.body.tables import TABLES
from leanmark.mechanics.angles import rotation_from_angles
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads, loads_of, tension_limits
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.task import Geometry, PatchUse, Task
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.translate import task_of

ANCHOR_M: Final = 2.4  # own assumption: a beam that people can reach
OTHER_ANCHORS_M: Final = (2.1, 2.7)
GRIP: Final = 3.0  # nobody slipped in the study; the friction needed is read off, not limited
PEOPLE: Final = {
    "de_leva_male": Build(73.0, 1.741, "male"),
    "de_leva_female": Build(61.9, 1.735, "female"),
}
"""De Leva's own mean man and woman; the students are not described in the abstract."""
ANKLES_REACH_DEG: Final = 60.0
"""The ankle's range backwards, mechanics/ranges.py."""
_ANKLES: Final = [SEGMENT_INDEX["left_foot"], SEGMENT_INDEX["right_foot"]]
_SHOULDERS: Final = [SEGMENT_INDEX["left_upper_arm"], SEGMENT_INDEX["right_upper_arm"]]


@dataclass(frozen=True)
class LeanRow:
    """One lean: strap_m anchor to grip; share, low, high: of body weight at the anchor, with the range that
    the pressure under the feet allows; friction: needed under the feet."""

    strap_m: float
    share: float
    low: float
    high: float
    friction: float


def task_at(lean_deg: float) -> Task:
    """The row's start with the whole body leant back."""
    move = load_move("row")
    task = task_of(move, find_rung(move, "leaning"))
    start, ankle = task.start.copy(), -np.radians(min(lean_deg, ANKLES_REACH_DEG))
    start[0] = rotation_from_angles("root", {"pitch": -np.radians(lean_deg)})
    start[_ANKLES] = rotation_from_angles("right_ankle", {"dorsiflexion": ankle})
    bearing = "sole" if lean_deg <= ANKLES_REACH_DEG else "heel"
    feet = tuple(PatchUse(bearing, side, width=1.2) for side in ("left", "right"))
    return replace(task, start=start, end=start, patches=feet, still=True)


def solved(task: Task, bodies: Bodies, anchor_m: float, strap_m: float, mark_m: float) -> Rep:
    geometry = Geometry(
        np.array([[0.0, 0.0, anchor_m]]), np.array([strap_m]), np.array([mark_m]), friction=GRIP
    )
    return solve_rep(task, bodies, geometry, np.zeros(1))


def lean_of(rep: Rep) -> float:
    """Angle [deg] of the line from the ankles up to the shoulders, backward from the vertical."""
    joint_m = place(rep.bodies, rep.solution.pose).joint_m[0]
    line = joint_m[_SHOULDERS].mean(axis=0) - joint_m[_ANKLES].mean(axis=0)
    return float(np.degrees(np.arctan2(-line[0], line[2])))


@cache
def lean_row(
    lean_deg: float,
    table: str,
    anchor_m: float = ANCHOR_M,
    mark_m: float = 0.0,
) -> LeanRow:
    """Solve the strap's length for one lean and read the load at the anchor."""
    bodies = scale([PEOPLE[table]], TABLES[table])
    task = task_at(lean_deg)
    strap_m = float(
        brentq(lambda s: _miss(task, bodies, anchor_m, s, mark_m, lean_deg), *_strap_ends(anchor_m))
    )
    rep = solved(task, bodies, anchor_m, strap_m, mark_m)
    assert (rep.reason == FINE).all(), REASONS[int(rep.reason[0, 0])]
    balance = rep.balance()
    loads = loads_of(balance)
    at_anchor = resultant_share(loads)
    low, high = tension_limits(balance)[0] / loads.strap_tension_n[0].sum() * at_anchor
    return LeanRow(strap_m, at_anchor, float(low), float(high), float(loads.friction_needed[0]))


def _strap_ends(anchor_m: float) -> tuple[float, float]:
    """Strap lengths [m] between which all leans of the study lie."""
    return anchor_m - 1.9, anchor_m - 0.55


def _miss(
    task: Task, bodies: Bodies, anchor_m: float, strap_m: float, mark_m: float, lean_deg: float
) -> float:
    return lean_of(solved(task, bodies, anchor_m, strap_m, mark_m)) - lean_deg


def resultant_share(loads: Loads) -> float:
    """What one dynamometer at the anchor reads of both straps, as a share of body weight."""
    pull: Floats = (loads.strap_tension_n[0, :, None] * loads.strap_unit[0]).sum(axis=0)
    return float(np.linalg.norm(pull) / loads.body_weight_n[0])


def mean_share(lean_deg: float, anchor_m: float = ANCHOR_M, mark_m: float = 0.0) -> float:
    """Mean of the two tables, in percent of body weight: the study's students were of both sexes."""
    return 100.0 * float(np.mean([lean_row(lean_deg, table, anchor_m, mark_m).share for table in PEOPLE]))
