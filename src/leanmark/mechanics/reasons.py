"""Why a position cannot be taken or held, in words a coach can act on."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINTS
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.distribution import FALLS, LOOP_SLIPS, SLIPS
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.pose import CLOSURE_TOLERANCE_M, PoseSolution
from leanmark.mechanics.ranges import past_range

FINE, STRAP_SHORT, STRAP_LONG, CONTACT, RANGE, FLOOR, SLACK, SLIP, LOOP, TIPS, TOO_FAST = range(11)

REASONS: Final[dict[int, str]] = {
    FINE: "",
    STRAP_SHORT: "strap too short: the body cannot reach this far",
    STRAP_LONG: "strap too long: it hangs slack here",
    CONTACT: "a planted hand, foot or elbow cannot stay where it is",
    RANGE: "a joint would go past its range",
    FLOOR: "part of the body would be below the floor",
    SLACK: "the strap goes slack: the body would have to push it",
    SLIP: "the floor contact would slip: more grip needed than the floor has",
    LOOP: "the strap would slip through its loop: the two sides pull too unequally",
    TIPS: "cannot be held: the body would tip off its base",
    TOO_FAST: "too fast: the strap goes slack during the rep",
}

CLEARANCE_M: Final = 0.005
"""How far a surface point may be under the floor before it counts, soft tissue and mat [m]; own figure."""


_SKIN: Final = np.array([k for k, name in enumerate(POINTS) if not name.endswith("grip")], dtype=np.intp)
"""Points on the body's surface: all but the middle of a closed hand."""


def pose_reasons(bodies: Bodies, solution: PoseSolution, constraints: Constraints) -> Ints:
    """The first thing wrong with each pose as a pose, (N,) codes; FINE where nothing is."""
    reason = np.full(len(solution.residual_m), FINE, dtype=np.intp)
    points = place(bodies, solution.pose).point_m(bodies, _SKIN)
    reason[(points[..., 2] < -CLEARANCE_M).any(axis=1)] = FLOOR
    for beyond in past_range(solution.pose.rotation).values():
        reason[beyond] = RANGE
    return np.where(solution.met, reason, _closure(solution, constraints))


def _closure(solution: PoseSolution, constraints: Constraints) -> Ints:
    """Which kind of row stayed open: the straps' if any of them is, else a planted one."""
    first = len(constraints.planted)
    last = first + len(constraints.straps) + len(constraints.sums)
    straps: Floats = solution.rows_m[:, first:last]
    if not straps.shape[1]:
        return np.full(len(solution.residual_m), CONTACT, dtype=np.intp)
    worst = np.take_along_axis(straps, np.abs(straps).argmax(axis=1)[:, None], axis=1)[:, 0]
    strap = np.where(worst > 0.0, STRAP_SHORT, STRAP_LONG)
    return np.where(np.abs(worst) > CLOSURE_TOLERANCE_M, strap, CONTACT)


def load_reasons(loads: Loads) -> Ints:
    """The first thing wrong with holding each position, (N,) codes; FINE where it holds."""
    reason = np.full(len(loads.outcome), FINE, dtype=np.intp)
    for outcome, code in ((SLIPS, SLIP), (LOOP_SLIPS, LOOP), (FALLS, TIPS)):
        reason[loads.outcome == outcome] = code
    reason[loads.slack] = SLACK
    return reason
