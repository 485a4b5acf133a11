"""Who stands where in the checks against reference libraries, and the engine's outside forces as a list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from leanmark.body.build import Build
from leanmark.body.points import POINT_SEGMENT, POINTS
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import People, people_of
from leanmark.moves.schema import Rung
from leanmark.moves.stand import Stand, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig, standard_rig

POINT_NAMES = tuple(POINTS)

BUILDS = (
    Build(50.0, 1.55, "female", 19),
    Build(105.0, 1.95, "male", 33),
    Build(74.0, 1.78, None, 24, {"thigh": 0.45, "upper_arm": 0.31}),  # two rows: one by each segment table
)
"""Invented: short and light, tall and heavy, and one of unstated sex with measured lengths."""

SETTINGS_M = {"long": 2.15, "mid-shin": 2.03, "mid-thigh": 1.63, "short": 1.23}


@cache
def people() -> People:
    """The panel."""
    return people_of(BUILDS)


@cache
def rig() -> Rig:
    """An invented rig of common height; settings that a move names and this list lacks are the rig's own."""
    return standard_rig(2.45, name="beam", settings_m=SETTINGS_M)


def stand_of(move_name: str, rung: Rung) -> Stand:
    """The panel on the rig in one rung."""
    return stand(load_move(move_name), rung, rig(), people())


def solved(move_name: str, rung: Rung, nodes: int) -> Rep:
    """The rung's rep for every row of the panel, at the rung's own mark; rows run person by person."""
    return _solved(move_name, rung.rung, nodes)


@cache
def _solved(move_name: str, rung_name: str, nodes: int) -> Rep:
    standing = stand_of(move_name, find_rung(load_move(move_name), rung_name))
    count = len(standing.people)
    mark_m = np.full(count, mark_of(standing.move, standing.rung).start_m)
    return standing.rep(mark_m, np.arange(count), nodes)[0]


@dataclass(frozen=True)
class Outside:
    """One outside force on the person: force_n (3,) in world axes on ``segment``, at the mean of the named
    body points."""

    segment: int
    points: tuple[str, ...]
    force_n: Floats


def outside_forces(rep: Rep, loads: Loads, row: int) -> Iterator[Outside]:
    """Every strap, contact and known force that the engine lays on the person in one row."""
    unknown = 0
    for number, strap in enumerate(rep.supports.straps):
        held = tuple(POINT_NAMES[point] for point in strap.points)
        for point in strap.points:
            pull_n = loads.part_tension_n[row, unknown] * loads.strap_unit[row, number]
            yield Outside(int(POINT_SEGMENT[point]), held, pull_n)
            unknown += 1
    for number, contact in enumerate(rep.supports.contacts):
        name = POINT_NAMES[contact.point]
        yield Outside(int(POINT_SEGMENT[contact.point]), (name,), loads.contact_force_n[row, number])
    for known in rep.supports.known:
        push_n = np.broadcast_to(known.force_n, (len(loads.body_weight_n), 3))[row]
        yield Outside(int(POINT_SEGMENT[known.point]), (POINT_NAMES[known.point],), push_n)
