"""The studied push-ups on the engine: shares of body weight under the hands, by rung and phase.

Studies give no lengths of the body, and a push-up on the floor has none but the body's own, so that its
shares do not depend on size; de Leva's mean man and woman stand for all. Boxes have their heights in
metres.

How the shanks were held in push-ups from the knees is not stated. They are judged as held up: what a resting
shank carries depends on how hard it is pressed down, which no balance of forces decides.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.build import Build
from leanmark.body.points import POINT_INDEX
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.body.tables import TABLES
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.measure import measured
from leanmark.mechanics.patches import PATCHES
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.rep import lobatto_nodes
from leanmark.mechanics.task import Geometry, PatchUse, Task
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.translate import task_of

MEN: Final = {"de_leva_male": 1.0}
EBBEN_PEOPLE: Final = {"de_leva_male": 14.0 / 23.0, "de_leva_female": 9.0 / 23.0}
MEAN: Final = {"de_leva_male": (73.0, 1.741), "de_leva_female": (61.9, 1.735)}  # de Leva 1996, his subjects
NODES: Final = lobatto_nodes(7)
BENT, STRAIGHT = 0, -1
GRIP: Final = 3.0  # nobody slipped; friction decides nothing here
EBBEN_RUNGS: Final = {
    "hands on 0.61 m": "hands on a high box",
    "from the knees": "from the knees, shanks up",
    "hands on 0.30 m": "hands on a low box",
    "from the toes": "from the toes",
    "feet on 0.30 m": "feet on a low box",
    "feet on 0.61 m": "feet on a high box",
}


def task_named(rung: str) -> Task:
    """The task of a push-up's rung."""
    move = load_move("push-up")
    return task_of(move, find_rung(move, rung))


def solved(task: Task, table: str, stature_m: float | None = None) -> Rep:
    """One person of a table's mean build, or of that stature and the same body mass."""
    mass_kg, mean_m = MEAN[table]
    bodies = scale([Build(mass_kg, stature_m or mean_m)], TABLES[table])
    geometry = Geometry(np.zeros((1, 3)), np.ones(1), np.zeros(1), friction=GRIP)
    rep = solve_rep(task, bodies, geometry, NODES)
    assert (rep.reason == FINE).all(), [REASONS[int(code)] for code in rep.reason[0]]
    return rep


def shares(rep: Rep) -> Floats:
    """Under the hands at every node, % of body weight; all nodes held."""
    loads = rep.static_loads()
    assert (rep.reasons(loads) == FINE).all(), [REASONS[int(code)] for code in rep.reasons(loads)[0]]
    return 100.0 * measured(loads, rep.supports, "hands")


@cache
def level(rung: str, table: str = "de_leva_male", stature_m: float | None = None) -> Floats:
    """Shares over the rep of one rung, elbows bent first, arms straight last."""
    return shares(solved(task_named(rung), table, stature_m))


def greatest(rung: str) -> float:
    """The largest held share over the rep, mean of the people of Ebben et al."""
    return float(sum(part * level(rung, table).max() for table, part in EBBEN_PEOPLE.items()))


def hands_moved(forward_m: float) -> float:
    """Share with straight arms, from the toes, the hands that far towards the head [%]."""
    task = task_named("from the toes")
    rep = solved(task, "de_leva_male")
    uses = tuple(_planted(use, rep, forward_m) if use.found else use for use in task.patches)
    return float(shares(solved(replace(task, patches=uses), "de_leva_male"))[STRAIGHT])


def _planted(use: PatchUse, rep: Rep, forward_m: float) -> PatchUse:
    """A hand at a stated place instead of where it came down."""
    lead = POINT_INDEX[f"{use.side}_{PATCHES[use.kind].lead}"]
    at = place(rep.bodies, rep.solution.pose).point_m(rep.bodies, np.array([lead]))[STRAIGHT, 0]
    half = rep.bodies.joint_offset_m[0, SEGMENT_INDEX["left_thigh"], 1]
    return replace(use, found=False, under="", ahead_m=at[0] + forward_m, width=abs(at[1]) / half)


def answers() -> dict[str, float]:
    """The model's value of every published push-up figure."""
    toes, knees = level("from the toes"), level("from the knees, shanks up")
    values = {
        "toes, arms straight": toes[STRAIGHT],
        "toes, elbows bent": toes[BENT],
        "knees, arms straight": knees[STRAIGHT],
        "knees, elbows bent": knees[BENT],
        "knees to toes, arms straight": knees[STRAIGHT] / toes[STRAIGHT],
        "knees to toes, elbows bent": knees[BENT] / toes[BENT],
        "bent to straight, toes": toes[BENT] / toes[STRAIGHT],
        "bent to straight, knees": knees[BENT] / knees[STRAIGHT],
        "toes, initial": toes[STRAIGHT],
        "knees, initial": knees[STRAIGHT],
        "knees to toes, initial": knees[STRAIGHT] / toes[STRAIGHT],
        **{key: greatest(rung) for key, rung in EBBEN_RUNGS.items()},
    }
    values["knees to toes, peak"] = values["from the knees"] / values["from the toes"]
    return {key: float(value) for key, value in values.items()}
