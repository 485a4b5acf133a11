"""No joint of anyone of the panel leaves its range at any of 25 phases of any rung.

The ranges are those of ``mechanics.ranges.RANGES_DEG``, each with its source there (American Academy of
Orthopaedic Surgeons 1965, Joint Motion: Method of Measuring and Recording, from memory; some own figures).
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from tests.moves.whole_library import MOVES, RIG, named

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import angles_from_rotation, kind_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.ranges import RANGES_DEG
from leanmark.moves.ladder.demand import solved_together
from leanmark.moves.ladder.panel import reference_people
from leanmark.moves.schema import Move

PHASES = 25
ALLOWED_DEG = 1.0
"""The fineness a goniometer reads, as the engine's own report allows."""


@cache
def _rotations(name: str) -> dict[str, Floats]:
    """By rung: rotations (N, 18, 3, 3) of everyone at every phase."""
    move = next(move for move in MOVES if move.move == name)
    found = solved_together([(move, rung) for rung in move.rungs], reference_people(), RIG, PHASES)
    return {one.rung.rung: one.rep.solution.pose.rotation for one in found}


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_every_joint_stays_in_its_range(move: Move) -> None:
    beyond = [
        f"{rung}: {joint} {angle} {least:.1f} to {most:.1f}"
        for rung, rotation in _rotations(move.move).items()
        for number, joint in enumerate(JOINTS)
        for angle, (least, most) in _reached_deg(joint, rotation[:, number]).items()
        if least < RANGES_DEG[kind_of(joint), angle][0] - ALLOWED_DEG
        or most > RANGES_DEG[kind_of(joint), angle][1] + ALLOWED_DEG
    ]
    assert not beyond


def _reached_deg(joint: str, rotation: Floats) -> dict[str, tuple[float, float]]:
    """Least and greatest value of every limited angle, taken within half a turn of its range's middle."""
    found = {}
    for angle, value in angles_from_rotation(joint, rotation).items():
        if (kind_of(joint), angle) in RANGES_DEG:
            low, high, _ = RANGES_DEG[kind_of(joint), angle]
            middle = 0.5 * (low + high)
            near = (np.degrees(value) - middle + 180.0) % 360.0 - 180.0 + middle
            found[angle] = (float(near.min()), float(near.max()))
    return found
