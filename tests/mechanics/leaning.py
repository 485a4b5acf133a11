"""A person leaning back from two straps on both soles, put together piece by piece, without a move file."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

import numpy as np
from tests.mechanics.scenes import people, posed

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import kind_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import AlignRow, Constraints, StrapRow
from leanmark.mechanics.kinematics import Pose
from leanmark.mechanics.patches import Patch, contact_points, planted_rows
from leanmark.mechanics.pose import Targets, solve_pose
from leanmark.mechanics.supports import KnownForce, StrapHold, Supports

SIDES: Final = ("left", "right")
ANCHOR_M: Final = np.array([0.0, 0.0, 2.45])
FIRM: Final = {"root": 0.1, "lumbar": 30.0, "thoracic": 30.0, "hip": 30.0, "knee": 30.0, "shoulder": 0.1}
WEIGHT: Final = np.array([FIRM.get(kind_of(j), 1.0 if kind_of(j) == "elbow" else 0.01) for j in JOINTS])
LEANING: Final = posed(
    {
        "root": {"pitch": -35.0},
        **{f"{side}_ankle": {"dorsiflexion": -35.0} for side in SIDES},
        **{f"{side}_shoulder": {"plane": 90.0, "elevation": 75.0} for side in SIDES},
        **{f"{side}_elbow": {"flexion": 30.0} for side in SIDES},
    },
    (-0.6, 0.0, 0.9),
)
TARGETS: Final = Targets(LEANING, WEIGHT)
GRIPS: Final = tuple(POINT_INDEX[f"{side}_grip"] for side in SIDES)


def hanging(mark_m: Floats, strap_m: Floats | float = 1.35, in_line: str = "both ways") -> Constraints:
    """Both soles planted at marks (N,), a strap in each hand, the forearms in line with the straps: "both
    ways", "upright" or not at all."""
    rows = []
    for side, sign in zip(SIDES, (1.0, -1.0), strict=True):
        spot = np.stack([mark_m, np.full(len(mark_m), 0.1 * sign)], axis=1)
        rows += planted_rows(Patch("sole", side, spot, np.zeros(())))
    straps = [StrapRow((grip,), ANCHOR_M, np.asarray(strap_m)) for grip in GRIPS]
    elbows = [POINT_INDEX[f"{side}_elbow_tip"] for side in SIDES]
    aligned = [AlignRow(p, s, in_line == "upright") for p, s in zip(elbows, straps, strict=True)]
    return Constraints(tuple(rows), tuple(straps), (), tuple(aligned) if in_line else ())


@cache
def leaning_pose(*mark_m: float) -> Pose:
    """That person's solved poses at the marks."""
    solution = solve_pose(people(), TARGETS, hanging(np.array(mark_m)), len(mark_m))
    assert solution.met.all()
    return solution.pose


def held_by(
    push_n: Sequence[float] = (),
    friction: float = 0.6,
    loop_ratio: float | None = None,
    patches: Sequence[tuple[str, str]] = (("sole", "left"), ("sole", "right")),
    straps: Sequence[str] = SIDES,
) -> Supports:
    """What holds the person: straps in the named hands, patches by kind and side, and a push on the chest."""
    contacts = contact_points([Patch(kind, side, None, None, friction=friction) for kind, side in patches])
    holds = tuple(StrapHold((POINT_INDEX[f"{side}_grip"],), ANCHOR_M, side) for side in straps)
    known = (KnownForce(POINT_INDEX["chest"], np.array(push_n)),) if len(push_n) else ()
    return Supports(holds, contacts, known, loop_ratio)
