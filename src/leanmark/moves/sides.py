"""Whether a rung works one side at a time, read from its contacts, its holds and its poses."""

from __future__ import annotations

from typing import Final

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import kind_of
from leanmark.moves.base import bearing, contacts_of, holds_of
from leanmark.moves.schema import Angles, Move, Rung
from leanmark.moves.translate import poses_of

ALTERNATING: Final = "alternating"
"""A rung with this word in its name does both sides in one set."""
SAME_DEG: Final = 10.0
"""Angles of left and right further apart than this are of a one-sided pose; own figure, above the few degrees
by which a foot is turned out."""


def one_sided(move: Move, rung: Rung) -> bool:
    """Whether the rung is done on one side and then on the other."""
    if ALTERNATING in rung.rung:
        return False
    contacts, holds = bearing(contacts_of(move, rung)), holds_of(move, rung)
    alone = any(_lone([entry.sides for entry in contacts if entry.patch == one.patch]) for one in contacts)
    held = any(_lone([hold.sides for hold in holds if hold.point == one.point]) for one in holds)
    return alone or held or any(_leans(pose) for pose in poses_of(move, rung) if pose is not None)


def _lone(sides: list[tuple[str, ...]]) -> bool:
    return len({side for own in sides for side in own}) == 1


def _leans(pose: Angles) -> bool:
    """Whether left and right joints are bent differently, or the body is turned to a side."""
    pairs = [(f"left_{kind}", f"right_{kind}") for kind in dict.fromkeys(kind_of(joint) for joint in JOINTS)]
    for left, right in pairs:
        if left not in JOINTS:
            continue
        kind = kind_of(left)
        mine, other = ({**pose.get(kind, {}), **pose.get(side, {})} for side in (left, right))
        if any(abs(mine.get(name, 0.0) - other.get(name, 0.0)) > SAME_DEG for name in mine | other):
            return True
    turned = [
        pose.get(joint, {}).get(name, 0.0) for joint in ("root", "lumbar", "thoracic") for name in _TURNS
    ]
    return any(abs(angle) > SAME_DEG for angle in turned)


_TURNS: Final = ("yaw", "roll", "side_bend_right", "rotation_left")
