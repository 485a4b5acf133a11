"""Net joint moments about the axis from right to left by hand: weights and outside forces beyond a joint,
each times its level or upright distance. Nothing of the engine's moments is used, only where masses and
points are and the forces that the engine found outside the body."""

from __future__ import annotations

from typing import Any

import numpy as np

from leanmark.body.points import POINT_SEGMENT
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.moves.ladder.demand import Solved

GRAVITY_M_S2 = 9.80665  # BIPM, The International System of Units, 9th edition 2019


def moment_left_nm(one: Solved, joint: str, beyond: tuple[str, ...]) -> Floats:
    """The moment of a joint's muscles on the segments ``beyond`` it, about +y (the leftward axis: a turn from
    up to forward), (N,) [N m]: against weights, strap pulls and floor forces on them."""
    rep, loads = one.rep, one.loads
    where = place(rep.bodies, rep.solution.pose)
    centre = where.joint_m[:, SEGMENT_INDEX[joint]]
    total = np.zeros(len(centre))
    for name in beyond:
        segment = SEGMENT_INDEX[name]
        arm = where.com_m(rep.bodies)[:, segment] - centre
        total += arm[:, 0] * rep.bodies.mass_kg[:, segment] * GRAVITY_M_S2
    inside = {SEGMENT_INDEX[name] for name in beyond}
    for point_m, force_n in _outside(rep, loads, inside):
        arm = point_m - centre
        total += arm[:, 2] * force_n[:, 0] - arm[:, 0] * force_n[:, 2]
    return -total


def _outside(rep: Any, loads: Any, inside: set[int]) -> list[tuple[Floats, Floats]]:  # noqa: ANN401
    """Points and forces of floor and straps on some segments."""
    floor = [
        (loads.contact_point_m[:, k], loads.contact_force_n[:, k])
        for k, contact in enumerate(rep.supports.contacts)
        if int(POINT_SEGMENT[contact.point]) in inside
    ]
    straps = [
        (loads.strap_end_m[:, k], loads.strap_tension_n[:, k, None] * loads.strap_unit[:, k])
        for k, strap in enumerate(rep.supports.straps)
        if int(POINT_SEGMENT[strap.points[0]]) in inside
    ]
    return [*floor, *straps]
