"""Reference people on reference rigs in a rung of a move on the floor, and what is read off their bodies."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.build import Build
from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.mechanics.angles import angles_from_rotation
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import Placement, place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import standard_rig

PEOPLE: Final = people_of(
    [
        Build(50.0, 1.55, "female"),
        Build(62.0, 1.55, "male"),
        Build(65.0, 1.70, "female"),
        Build(75.0, 1.78, "male"),
        Build(90.0, 1.95, "female"),
        Build(105.0, 1.95, "male"),
    ]
)
"""Invented: short to tall, light to heavy, by both segment tables."""
ANCHORS_M: Final = (2.2, 2.6)
NODES: Final = 5


@dataclass(frozen=True)
class Seen:
    """The panel at a rung's start mark: K poses of each of N people; arrays run (N, K)."""

    rep: Rep
    loads: Loads
    placement: Placement

    def _grid(self, values: Floats) -> Floats:
        return values.reshape(self.rep.count, -1, *values.shape[1:])

    def point_m(self, name: str) -> Floats:
        """A body point (N, K, 3) [m]."""
        at = self.placement.point_m(self.rep.bodies, np.array([POINT_INDEX[name]]))[:, 0]
        return self._grid(at)

    def joint_m(self, segment: str) -> Floats:
        """A segment's proximal joint (N, K, 3) [m]."""
        return self._grid(self.placement.joint_m[:, SEGMENT_INDEX[segment]])

    def middle_m(self, part: str) -> Floats:
        """The middle of left and right joint (N, K, 3) [m]."""
        return 0.5 * (self.joint_m(f"left_{part}") + self.joint_m(f"right_{part}"))

    def angle_deg(self, joint: str, segment: str, angle: str) -> Floats:
        """An anatomical angle (N, K) [deg]."""
        turned = self.rep.solution.pose.rotation[:, SEGMENT_INDEX[segment]]
        return self._grid(np.degrees(angles_from_rotation(joint, turned)[angle]))

    def bend_deg(self, low: str, middle: str, high: str) -> Floats:
        """How far (N, K) [deg] the line through three joint middles is from straight."""
        down = self.middle_m(low) - self.middle_m(middle)
        up = self.middle_m(high) - self.middle_m(middle)
        cosine = (down * up).sum(-1) / np.linalg.norm(down, axis=-1) / np.linalg.norm(up, axis=-1)
        return 180.0 - np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))


@cache
def seen(move_name: str, rung_name: str, anchor_m: float = 2.4) -> Seen:
    """The panel solved at the rung's start mark."""
    move = load_move(move_name)
    rung = find_rung(move, rung_name)
    standing = stand(move, rung, standard_rig(anchor_m), PEOPLE)
    count = len(PEOPLE)
    rep, _ = standing.rep(np.full(count, mark_of(move, rung).start_m), np.arange(count), NODES)
    assert rep.solution.met.all()
    return Seen(rep, rep.static_loads(), place(rep.bodies, rep.solution.pose))
