"""Arms and legs as tapered solids with a little muscle, hands that grip or lie open, feet in shoes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.scene import Scene
from leanmark.figures.solids import Solid, ball, ellipsoid, hull
from leanmark.mechanics.arrays import Floats


@dataclass(frozen=True)
class Bulge:
    """Where a limb is thickest: share of its length from the proximal end, thickness against the straight
    taper, and how far it sits forward of the bone as a share of its thickness."""

    place: float
    thickness: float
    forward: float


BULGES: Final[dict[str, Bulge]] = {  # own figures, judged by eye on the drawing
    "upper_arm": Bulge(0.45, 1.10, 0.05),
    "forearm": Bulge(0.25, 1.14, 0.0),
    "thigh": Bulge(0.35, 1.08, 0.10),
    "shank": Bulge(0.27, 1.20, -0.22),
}

LIMB_STATIONS: Final = (0.0, 0.12, 0.24, 0.36, 0.5, 0.66, 1.0)  # own figures
HAND: Final[dict[str, tuple[float, float, float]]] = {  # shares of stature, own figures but the length
    "fist": (0.019, 0.027, 0.025),
    "palm": (0.009, 0.024, 0.030),
    "fingers": (0.007, 0.021, 0.030),
    "thumb": (0.007, 0.009, 0.019),
}
HAND_LENGTH: Final = 0.108  # wrist to fingertip, share of stature: Drillis & Contini 1966
PALM_PLACE: Final = 0.28  # centre of the palm, share of the hand's length, own figure
FINGERS_PLACE: Final = 0.72  # centre of the fingers, likewise
GRIP_REACH: Final = 0.12  # a strap that ends within this share of stature of the wrist is held; own figure

ANKLE_HEIGHT: Final = 0.039  # share of stature: Drillis & Contini 1966
HEEL_BACK: Final = 0.030  # heel behind the ankle, share of stature, own figure
SHOE: Final[dict[str, float]] = {  # radii as shares of stature, own figures
    "heel": 0.0155,
    "collar": 0.0215,
    "ball": 0.0125,
    "ball_half_width": 0.026,
    "toe": 0.0095,
    "toe_half_width": 0.019,
}


def limb_solid(scene: Scene, segment: str) -> Solid:
    """An upper arm, forearm, thigh or shank: a row of balls that swells at the bulge."""
    index = SEGMENT_INDEX[segment]
    start, end = scene.joint_m[index], scene.tip_m[index]
    near, far = (float(radius) for radius in scene.radius_m[index])
    bulge = BULGES[segment.split("_", 1)[1]]
    balls = []
    for along in LIMB_STATIONS:
        # a bump that is one at the bulge and fades to nothing at both ends
        swell = max(1.0 - ((along - bulge.place) / max(bulge.place, 1.0 - bulge.place)) ** 2, 0.0)
        swell *= min(along / bulge.place, 1.0)
        radius = (near + (far - near) * along) * (1.0 + (bulge.thickness - 1.0) * swell)
        shift = scene.rotation[index][:, 0] * (bulge.forward * swell * radius)
        balls.append(ball(start + (end - start) * along + shift, radius))
    return hull(*balls)


def grip_m(scene: Scene, side: str) -> Floats | None:
    """The centre of what a hand holds: the end of the nearest strap in reach, or None for an open hand."""
    if scene.kit not in ("handles", "single handle"):
        return None
    wrist = scene.joint_m[SEGMENT_INDEX[f"{side}_hand"]]
    ends = [strap.body_m for strap in scene.straps if strap.side in (side, "both")]
    gaps = [float(np.linalg.norm(end - wrist)) for end in ends]
    if not gaps or min(gaps) > GRIP_REACH * scene.stature_m:
        return None
    return ends[int(np.argmin(gaps))]


def hand_solids(scene: Scene, side: str) -> tuple[Solid, ...]:
    """A fist round what the hand holds, or an open hand: palm, fingers and thumb."""
    index = SEGMENT_INDEX[f"{side}_hand"]
    wrist, turn = scene.joint_m[index], scene.rotation[index]
    cuff = ball(wrist, float(scene.radius_m[index, 0]))
    held = grip_m(scene, side)
    if held is not None:
        return (hull(cuff, ellipsoid(held, turn, _hand_axes("fist", scene))),)
    length = HAND_LENGTH * scene.stature_m
    palm = ellipsoid(wrist - turn[:, 2] * (PALM_PLACE * length), turn, _hand_axes("palm", scene))
    tips = ellipsoid(wrist - turn[:, 2] * (FINGERS_PLACE * length), turn, _hand_axes("fingers", scene))
    outward = 1.0 if side == "left" else -1.0
    root = wrist + turn @ np.array([0.08 * length, outward * 0.24 * length, -0.36 * length])
    return hull(cuff, palm), hull(palm, tips), ellipsoid(root, turn, _hand_axes("thumb", scene))


def _hand_axes(part: str, scene: Scene) -> tuple[float, float, float]:
    thick, wide, long = (share * scene.stature_m for share in HAND[part])
    return thick, wide, long


def heel_m(scene: Scene, side: str) -> Floats:
    """The underside of the heel: the body's own point where the scene has it, else from the ankle."""
    point = scene.point_m.get(f"{side}_heel")
    if point is not None:
        return point
    index = SEGMENT_INDEX[f"{side}_foot"]
    local = np.array([-HEEL_BACK, 0.0, -ANKLE_HEIGHT]) * scene.stature_m
    return np.asarray(scene.joint_m[index] + scene.rotation[index] @ local)


def foot_solids(scene: Scene, side: str) -> tuple[Solid, ...]:
    """A shoe: heel and collar, instep to the ball of the foot, and the toe cap, flat along the sole."""
    foot, toes = SEGMENT_INDEX[f"{side}_foot"], SEGMENT_INDEX[f"{side}_toes"]
    turn, toe_turn = scene.rotation[foot], scene.rotation[toes]
    size = {name: share * scene.stature_m for name, share in SHOE.items()}
    under = heel_m(scene, side)
    ankle, hinge, tip = scene.joint_m[foot], scene.joint_m[toes], scene.tip_m[toes]
    heel = ball(under + turn @ np.array([0.3, 0.0, 1.0]) * size["heel"], size["heel"])
    sole_z = float((under - ankle) @ turn[:, 2])
    drop = sole_z + size["ball"] - float((hinge - ankle) @ turn[:, 2])
    ball_axes = (size["ball"], size["ball_half_width"], size["ball"])
    forefoot = ellipsoid(hinge + turn[:, 2] * drop, turn, ball_axes)
    toe_base = ellipsoid(hinge + toe_turn[:, 2] * drop, toe_turn, ball_axes)
    low = drop - size["ball"] + size["toe"]
    cap_m = tip + toe_turn @ np.array([-size["toe"], 0.0, 0.0])
    cap_m = cap_m + toe_turn[:, 2] * (low - float((tip - hinge) @ toe_turn[:, 2]))
    cap = ellipsoid(cap_m, toe_turn, (size["toe"], size["toe_half_width"], size["toe"]))
    collar = ball(ankle + turn[:, 2] * (0.1 * size["collar"]), size["collar"])
    instep = ball(ankle + (hinge - ankle) * 0.35 + turn[:, 2] * (-0.1 * size["collar"]), 0.8 * size["collar"])
    return hull(heel, collar), hull(heel, instep, forefoot), hull(collar, instep), hull(toe_base, cap)
