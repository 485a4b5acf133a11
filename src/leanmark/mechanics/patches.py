"""Contact patches by name: which body points bear on the floor or a box, and what of them stays put.

A patch either stands at a given place (``sole`` at the floor mark) or is found: in the first pose of a rep
it only has to touch the surface, and it then stays where it came down for the rest of the rep.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.points import POINT_INDEX
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import PlantedRow
from leanmark.mechanics.supports import ContactPoint


@dataclass(frozen=True)
class PatchKind:
    """bearing: points (without side) that touch the surface and can push; lead: the point whose place is
    the patch's place; toward: the points that give the patch its heading, if it has one (one: the line from
    lead to it; two: square to the line between them); across: whether its place across is held on both sides,
    or, where both sides belong to one segment, on the left alone (both would hold their distance twice)."""

    bearing: tuple[str, ...]
    lead: str
    toward: tuple[str, ...] = ()
    sided: bool = True
    across: bool = True


PATCHES: Final[dict[str, PatchKind]] = {
    "sole": PatchKind(("heel", "ball_medial", "ball_lateral"), "heel", ("ball_medial", "ball_lateral")),
    "forefoot": PatchKind(
        ("toe_base_medial", "toe_base_lateral", "toe_tip"),
        "toe_base",
        ("toe_base_medial", "toe_base_lateral"),
    ),
    "toe": PatchKind(("toe_tip",), "toe_tip"),
    "heel": PatchKind(("heel",), "heel"),
    "palm": PatchKind(("palm_heel", "palm_ball"), "palm_heel", ("palm_ball",)),
    "hand": PatchKind(("palm_ball",), "palm_ball"),
    "forearm": PatchKind(("elbow_tip", "forearm_distal"), "elbow_tip", ("forearm_distal",)),
    "elbow": PatchKind(("elbow_tip",), "elbow_tip"),
    "knee": PatchKind(("knee_front",), "knee_front"),
    "shin": PatchKind(("knee_front", "shank_front_distal"), "knee_front", ("shank_front_distal",)),
    "shoulder_back": PatchKind(("shoulder_back",), "shoulder_back", across=False),
    "head": PatchKind(("head_back",), "head_back", sided=False),
    "pelvis": PatchKind(("pelvis_back",), "pelvis_back", sided=False),
}
"""Which points bear is our own figure: the fewest that carry each contact's pressure range."""


@dataclass(frozen=True)
class Patch:
    """One patch in use.

    kind: a name in PATCHES; side: left, right or "" for unsided kinds. place_m: (2,) or (N, 2) x and y of
    the lead point, or None for a found patch. heading: (N,) or scalar angle [rad] of the patch from x
    towards y, None for free. height_m: the surface's height. pressed: whether the surface pushes back
    (False: it only must touch). under: the point (without side) that a patch not placed yet keeps its lead
    point under, in the way the person faces.
    """

    kind: str
    side: str
    place_m: Floats | None
    heading: Floats | None
    height_m: float = 0.0
    friction: float = 0.6
    pressed: bool = True
    under: str = ""

    def points(self) -> tuple[int, ...]:
        """Indices of the bearing points."""
        return tuple(self.index(name) for name in PATCHES[self.kind].bearing)

    def index(self, name: str) -> int:
        """Index of one of the kind's points on this side."""
        return POINT_INDEX[f"{self.side}_{name}" if PATCHES[self.kind].sided else name]

    @property
    def name(self) -> str:
        """Side and kind, as people read it."""
        return f"{self.side} {self.kind}".strip().replace("_", " ")


_UP: Final = np.array([0.0, 0.0, 1.0])
_ALONG: Final = np.array([1.0, 0.0, 0.0])
_ACROSS: Final = np.array([0.0, 1.0, 0.0])


def planted_rows(patch: Patch) -> list[PlantedRow]:
    """The rows that hold a patch: every bearing point on the surface; the lead point at its place, or under
    another, and the heading kept, where these are given."""
    kind = PATCHES[patch.kind]
    rows = [PlantedRow(point, _UP, np.asarray(patch.height_m)) for point in patch.points()]
    lead = patch.index(kind.lead)
    if patch.place_m is not None:
        place = np.asarray(patch.place_m)
        rows.append(PlantedRow(lead, _ALONG, place[..., 0]))
        if kind.across or patch.side == "left":
            rows.append(PlantedRow(lead, _ACROSS, place[..., 1]))
    elif patch.under:
        over = POINT_INDEX[f"{patch.side}_{patch.under}"]
        rows.append(PlantedRow(lead, _ALONG, np.zeros(()), other=over))
    if patch.heading is not None and kind.toward:
        rows.append(_heading_row(patch, kind, np.asarray(patch.heading)))
    return rows


def _heading_row(patch: Patch, kind: PatchKind, heading: Floats) -> PlantedRow:
    ahead = np.stack([np.cos(heading), np.sin(heading), np.zeros_like(heading)], axis=-1)
    if len(kind.toward) == 2:
        inner, outer = (patch.index(name) for name in kind.toward)
        return PlantedRow(inner, ahead, np.zeros(()), other=outer)
    square = np.stack([-ahead[..., 1], ahead[..., 0], ahead[..., 2]], axis=-1)
    return PlantedRow(patch.index(kind.toward[0]), square, np.zeros(()), other=patch.index(kind.lead))


def contact_points(patches: Sequence[Patch]) -> tuple[ContactPoint, ...]:
    """The points at which pressed patches can push."""
    return tuple(
        ContactPoint(point, patch.friction, patch.name)
        for patch in patches
        if patch.pressed
        for point in patch.points()
    )
