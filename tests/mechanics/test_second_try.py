"""Poses that a stiff body gets stuck on the way to are found by a second way."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from tests.mechanics.scenes import row_stand

from leanmark.mechanics.angles import rotation_from_angles
from leanmark.mechanics.position import solve_rep
from leanmark.mechanics.task import Geometry, PatchUse

LEAN_RAD = np.radians(45.0)
LENGTHS_M = np.linspace(0.9, 1.6, 29)


def test_no_strap_between_two_that_can_be_held_is_called_too_short() -> None:
    # A row on the heels alone, leant well back: at first tries, whole stretches of lengths came back open
    # between lengths that were met, since the wrists' and shoulders' ways round the handle cross.
    standing = row_stand()
    start = standing.task.start.copy()
    start[0] = rotation_from_angles("root", {"pitch": -LEAN_RAD})
    heels = tuple(PatchUse("heel", side, width=1.2) for side in ("left", "right"))
    task = replace(standing.task, start=start, end=start, patches=heels, still=True)
    count = len(LENGTHS_M)
    geometry = Geometry(np.tile([0.0, 0.0, 2.4], (count, 1)), LENGTHS_M, np.zeros(count), friction=3.0)
    met = solve_rep(task, standing.people.bodies, geometry, np.zeros(1)).solution.met
    first, last = np.flatnonzero(met)[[0, -1]]
    assert last - first > 20
    assert met[first : last + 1].all()
