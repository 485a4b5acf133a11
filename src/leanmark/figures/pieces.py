"""The body cut into pieces to paint: each a group of solids of one colour, and how pieces join."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.limbs import foot_solids, hand_solids, limb_solid
from leanmark.figures.project import View, depth
from leanmark.figures.scene import Scene
from leanmark.figures.solids import Solid, ball, hull
from leanmark.figures.trunk import face_solid, hair_solid, neck_solid, nose_solid, trunk_solids
from leanmark.mechanics.arrays import Floats

Paint = Literal["skin", "cloth", "shoe", "hair"]
SIDES: Final = ("left", "right")
LIMBS: Final[tuple[tuple[str, Paint], ...]] = (
    ("upper_arm", "skin"),
    ("forearm", "skin"),
    ("thigh", "cloth"),
    ("shank", "skin"),
)
NECK_HELD_BACK_M: Final = 0.04  # a nodding or tilted head still covers its neck; own figure
FACE_HELD_BACK_M: Final = 0.015  # a slightly turned head shows neither its crown nor its nose; own figure
FAR_GAP_M: Final = 0.06  # a limb this much farther off than its twin is drawn as the far one; own figure
HIP_STUMP: Final = 0.8  # thickness of the stump that hides the top of a thigh, in thigh radii; own figure
PATCH_REACH: Final = 1.3  # how far past a joint the seam of two pieces is painted out, in radii; own figure


@dataclass(frozen=True)
class Piece:
    """Solids of one colour. side is ``left``, ``right`` or ``middle``; rank settles equal depths; held_back_m
    is how much nearer than its neighbours a piece must be before it is painted over them [m]."""

    name: str
    side: str
    paint: Paint
    solids: tuple[Solid, ...]
    rank: int
    held_back_m: float = 0.0


@dataclass(frozen=True)
class Seam:
    """A joint between two pieces: for each piece, the short stump of it that, painted once more, hides the
    outline of the other where it lies on top."""

    stumps: dict[str, Solid]


def body_pieces(scene: Scene) -> tuple[Piece, ...]:
    """All pieces of a posed body."""
    pieces = [
        Piece("trunk", "middle", "cloth", trunk_solids(scene), 2),
        Piece("neck", "middle", "skin", (neck_solid(scene),), 1, NECK_HELD_BACK_M),
        Piece("head", "middle", "skin", (face_solid(scene),), 3),
        Piece("nose", "middle", "skin", (nose_solid(scene),), 2, FACE_HELD_BACK_M),
        Piece("hair", "middle", "hair", (hair_solid(scene),), 2, FACE_HELD_BACK_M),
    ]
    for side in SIDES:
        for rank, (part, paint) in enumerate(LIMBS, start=4):
            name = f"{side}_{part}"
            pieces.append(Piece(name, side, paint, (limb_solid(scene, name),), rank))
        pieces.append(Piece(f"{side}_hand", side, "skin", hand_solids(scene, side), 8))
        pieces.append(Piece(f"{side}_foot", side, "shoe", foot_solids(scene, side), 8))
    return tuple(pieces)


def seams(scene: Scene, inset_m: float) -> Iterator[Seam]:
    """The joints whose outlines are painted out, stumps thinner than their piece by ``inset_m`` [m]."""
    for side in SIDES:
        upper, lower = f"{side}_upper_arm", f"{side}_forearm"
        yield Seam({upper: _stump(scene, upper, 1, inset_m), lower: _stump(scene, lower, 0, inset_m)})
        wrist = _stump(scene, lower, 1, inset_m)
        yield Seam({lower: wrist, f"{side}_hand": wrist})
        thigh = f"{side}_thigh"
        yield Seam({"trunk": _hip_stump(scene, side, inset_m), thigh: _stump(scene, thigh, 0, inset_m)})


def _stump(scene: Scene, segment: str, end: int, inset_m: float) -> Solid:
    """The proximal (0) or distal (1) end of a limb's segment."""
    index = SEGMENT_INDEX[segment]
    ends = (scene.joint_m[index], scene.tip_m[index])
    return _capsule(ends[end], ends[1 - end] - ends[end], float(scene.radius_m[index, end]), inset_m)


def _hip_stump(scene: Scene, side: str, inset_m: float) -> Solid:
    index = SEGMENT_INDEX[f"{side}_thigh"]
    joint = scene.joint_m[index]
    return _capsule(joint, scene.rotation[0][:, 2], HIP_STUMP * float(scene.radius_m[index, 0]), inset_m)


def _capsule(joint: Floats, away: Floats, radius_m: float, inset_m: float) -> Solid:
    reach = PATCH_REACH * radius_m / max(float((away @ away) ** 0.5), 1e-9)
    thin = max(radius_m - inset_m, 0.2 * radius_m)
    return hull(ball(joint, thin), ball(joint + away * min(reach, 1.0), thin))


def piece_depth_m(piece: Piece, view: View) -> float:
    """How far towards the viewer the middle of a piece lies [m], to a millimetre, for painting order."""
    centres = [depth(solid.centre_m, view).mean() for solid in piece.solids]
    return round(float(sum(centres) / len(centres)) - piece.held_back_m, 3)


def far_limbs(scene: Scene, view: View) -> frozenset[str]:
    """Limb names, such as ``left_arm``, that lie behind their twin in this view."""
    found = []
    for limb, root in (("arm", "upper_arm"), ("leg", "thigh")):
        left, right = (float(depth(scene.joint_m[SEGMENT_INDEX[f"{side}_{root}"]], view)) for side in SIDES)
        if abs(left - right) > FAR_GAP_M:
            found.append(f"{'left' if left < right else 'right'}_{limb}")
    return frozenset(found)
