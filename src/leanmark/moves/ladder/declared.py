"""Whether what a rung declares to be harder by is so, where its data can tell."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.arrays import Bools, Floats
from leanmark.mechanics.kinematics import place
from leanmark.moves.ladder.demand import Solved
from leanmark.moves.ladder.finding import Finding
from leanmark.moves.ladder.panel import typical_in
from leanmark.moves.of_rung import stages_of
from leanmark.moves.schema import HarderBy, Stage
from leanmark.moves.translate import mark_of, strap_setting

TURNED_RAD: Final = np.radians(5.0)
"""A joint is held or moved otherwise from this on: the fineness of a goniometer's reading between two
people, about 5 degrees; common practice, no published source."""
HIGHER_M: Final = 0.01
"""The mass centre stands higher from this on: both arms raised from the chest lift it by about twice as much;
own figure."""
_RANK: Final[dict[Stage, int]] = {"controlled": 0, "fast": 1, "ballistic": 2}


def declared_reason_findings(rungs: Sequence[Solved]) -> list[Finding]:
    """Rungs whose declared reason does not show against the rung before."""
    found = []
    for easier, harder in pairwise(rungs):
        declared = harder.rung.harder_by
        if declared in _SHOWN and not _SHOWN[declared][0](easier, harder):
            wrong = f"harder by {declared}, but {_SHOWN[declared][1]} on '{easier.rung.rung}'"
            remedy = "change what makes it harder, or say another reason"
            found.append(Finding(harder.move.move, harder.rung.rung, "harder-by", wrong, remedy))
    return found


def _faster(easier: Solved, harder: Solved) -> bool:
    """Whether the slowest or the fastest stage is faster."""
    before, after = (
        sorted(_RANK[stage] for stage in stages_of(one.move, one.rung)) for one in (easier, harder)
    )
    return after[0] > before[0] or after[-1] > before[-1]


def _other_limbs(easier: Solved, harder: Solved) -> bool:
    """Whether contacts, holds or the limbs that move differ."""
    return _standing_on(easier) != _standing_on(harder) or _moving(easier) != _moving(harder)


def _other_base(easier: Solved, harder: Solved) -> bool:
    """The same, or whether the mass centre stands higher over the same base, which makes it less steady."""
    higher_m = _com_height_m(harder) - _com_height_m(easier)
    return _other_limbs(easier, harder) or higher_m > HIGHER_M


def _com_height_m(one: Solved) -> float:
    """Mean height of the typical people's mass centres over the rep [m]."""
    bodies = one.rep.bodies
    heights = place(bodies, one.rep.solution.pose).com_m(bodies)[..., 2]
    whole = (heights * bodies.mass_kg).sum(axis=1) / bodies.mass_kg.sum(axis=1)
    return float(whole.reshape(len(one.position), -1)[_typical(one)].mean())


def _standing_on(one: Solved) -> tuple[object, ...]:
    """What bears and what holds."""
    task = one.rep.task
    return (frozenset(task.patches), frozenset(task.holds))


def _other_pose(easier: Solved, harder: Solved) -> bool:
    """Whether some joint is held or led otherwise."""
    if easier.steps != harder.steps:
        return True
    between = np.swapaxes(_rotations(easier), -1, -2) @ _rotations(harder)
    return bool((_angle(between) > TURNED_RAD).any())


def _other_lever(easier: Solved, harder: Solved) -> bool:
    """Whether some joint is held or led otherwise, or the body leans otherwise from another place."""
    places = [(mark_of(one.move, one.rung), strap_setting(one.move, one.rung)) for one in (easier, harder)]
    return places[0] != places[1] or _other_pose(easier, harder)


def _longer_range(easier: Solved, harder: Solved) -> bool:
    """Whether some joint travels further, or, where one is a hold, is held otherwise."""
    if easier.steps == 1 or harder.steps == 1:
        return _other_pose(easier, harder)
    return bool((_travel(harder) - _travel(easier) > TURNED_RAD).any())


def _rotations(one: Solved) -> Floats:
    """Rotations (T, K, 18, 3, 3) of the 50th-percentile people; the root's is the pelvis in the world."""
    whole = one.rep.solution.pose.rotation.reshape(len(one.position), one.steps, len(JOINTS), 3, 3)
    return whole[_typical(one)]


def _typical(one: Solved) -> Bools:
    """Which reps (R,) are those of the 50th-percentile people."""
    typical: Bools = np.isin(one.position, typical_in(one.people))
    return typical


def _travel(one: Solved) -> Floats:
    """How far each joint gets from its start (18,) [rad], the furthest of the typical people."""
    rotation = _rotations(one)
    turned = np.swapaxes(rotation[:, :1], -1, -2) @ rotation
    furthest: Floats = _angle(turned).max(axis=(0, 1))
    return furthest


def _moving(one: Solved) -> frozenset[int]:
    return frozenset(np.flatnonzero(_travel(one) > TURNED_RAD).tolist())


def _angle(rotation: Floats) -> Floats:
    """Turning angle [rad] of rotations (..., 3, 3)."""
    cosine = 0.5 * (np.trace(rotation, axis1=-2, axis2=-1) - 1.0)
    angle: Floats = np.arccos(np.clip(cosine, -1.0, 1.0))
    return angle


_SHOWN: Final[dict[HarderBy, tuple[Callable[[Solved, Solved], bool], str]]] = {
    "speed": (_faster, "its speed stages are those"),
    "base": (_other_base, "contacts, holds, moving limbs and the mass centre's height are those"),
    "one limb": (_other_limbs, "contacts, holds and moving limbs are those"),
    "lever": (_other_lever, "floor mark, strap and every joint are as"),
    "range": (_longer_range, "no joint travels further than"),
}
