"""Anchor, straps, handles and foot cradles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.labels import hatch
from leanmark.figures.layout import BEAM_GAP_M, BEAM_M
from leanmark.figures.limbs import grip_m
from leanmark.figures.pieces import SIDES
from leanmark.figures.project import depth, project
from leanmark.figures.scene import Scene, StrapLine
from leanmark.figures.solids import Solid, ball, ellipsoid, hull, outline
from leanmark.figures.style import Drawable, Style
from leanmark.figures.svg import element, line, path
from leanmark.mechanics.arrays import Floats

STRAP_LENGTHS: Final = 6  # parts of a strap that are painted each at its depth, own figure
YOKE_M: Final = 0.12  # from the grip up to where the strap divides [m], own figure
HANDLE_HALF_M: Final = 0.068  # half length of a handle [m], own figure
HANDLE_THICK: Final = 3.6  # of a handle, in outline widths, own figure
CRADLE_M: Final = (0.020, 0.050, 0.050)  # half widths of a loop: along the foot, across it, along the strap
ARM_LOOP_M: Final = (0.022, 0.075, 0.075)  # the same for a loop under the arm; own figures


def paint_rig(scene: Scene, style: Style) -> list[Drawable]:
    """Straps with what hangs at their ends, each at its depth."""
    drawn: list[Drawable] = []
    for strap in scene.straps:
        drawn.extend(_strap(scene, strap, style))
        if scene.kit in ("cradles", "under the arms"):
            drawn.append(_loop(scene, strap, style))
    if scene.kit in ("handles", "single handle"):
        drawn.extend(_handle(scene, side, style) for side in SIDES if grip_m(scene, side) is not None)
    return drawn


def _unit(vector: Floats) -> Floats:
    return np.asarray(vector / max(float(np.linalg.norm(vector)), 1e-9))


def yoke_m(strap: StrapLine) -> Floats:
    """Where the strap divides above what it holds, (3,) [m]."""
    along = strap.anchor_m - strap.body_m
    length = float(np.linalg.norm(along))
    return np.asarray(strap.body_m + along * (min(YOKE_M, 0.5 * length) / max(length, 1e-9)))


def _strap(scene: Scene, strap: StrapLine, style: Style) -> Iterator[Drawable]:
    """The strap in short lengths, so that each passes before or behind the body where it truly does."""
    ends = np.stack([strap.anchor_m, strap.body_m if scene.kit == "none" else yoke_m(strap)])
    share = np.linspace(0.0, 1.0, STRAP_LENGTHS + 1)[:, None]
    points = ends[0] + (ends[1] - ends[0]) * share
    flat, far = style.frame.to_px(project(points, style.view)), depth(points, style.view)
    for row in range(STRAP_LENGTHS):
        markup = path(
            flat[row : row + 2],
            closed=False,
            stroke=style.theme.ochre,
            stroke_width=style.strap_px,
            stroke_linecap="round",
        )
        yield Drawable(0.5 * float(far[row] + far[row + 1]), 5, markup)


def _handle(scene: Scene, side: str, style: Style) -> Drawable:
    """The grip bar across the palm and the two webbings from its ends to the strap."""
    index = SEGMENT_INDEX[f"{side}_hand"]
    grip = grip_m(scene, side)
    held = scene.joint_m[index] if grip is None else grip
    strap = min(scene.straps, key=lambda one: float(np.linalg.norm(one.body_m - held)))
    bar = scene.rotation[index][:, 1] * HANDLE_HALF_M
    corners = np.stack([held - bar, yoke_m(strap), held + bar])
    flat = style.frame.to_px(project(corners, style.view))
    webbing = path(
        flat,
        closed=False,
        fill="none",
        stroke=style.theme.ochre,
        stroke_width=0.7 * style.strap_px,
        stroke_linejoin="round",
    )
    rod = path(
        flat[[0, 2]],
        closed=False,
        stroke=style.theme.ink,
        stroke_width=HANDLE_THICK * style.line_px,
        stroke_linecap="round",
    )
    middle = np.stack([scene.joint_m[index], held])
    # just behind the fist that closes round it
    return Drawable(float(depth(middle, style.view).mean()) - 1e-3, 7, webbing + rod)


def _loop(scene: Scene, strap: StrapLine, style: Style) -> Drawable:
    """The webbing loop from the strap's end round a foot or under an arm."""
    shape = hull(_loop_ring(scene, strap), ball(yoke_m(strap), 0.004))
    flat = style.frame.to_px(outline(shape, style.view, 48))
    markup = path(flat, fill="none", stroke=style.theme.ochre, stroke_width=0.9 * style.strap_px)
    held = _held_segment(scene, strap)
    nearest = float(depth(np.stack([scene.joint_m[held], scene.tip_m[held]]), style.view).mean())
    return Drawable(nearest + 0.03, 9, markup)


def _held_segment(scene: Scene, strap: StrapLine) -> int:
    """The segment a loop goes round: the foot, or the upper arm, nearest to the strap's end."""
    part = "foot" if scene.kit == "cradles" else "upper_arm"
    names = [f"{side}_{part}" for side in SIDES if strap.side in (side, "both")]
    gap = {
        SEGMENT_INDEX[name]: float(np.linalg.norm(scene.joint_m[SEGMENT_INDEX[name]] - strap.body_m))
        for name in names or [f"{side}_{part}" for side in SIDES]
    }
    return min(gap, key=lambda index: gap[index])


def _loop_ring(scene: Scene, strap: StrapLine) -> Solid:
    across = scene.rotation[_held_segment(scene, strap)][:, 1]
    along = _unit(strap.anchor_m - strap.body_m)
    normal = _unit(np.cross(along, across))
    turn = np.stack([normal, _unit(np.cross(normal, along)), along], axis=-1)
    return ellipsoid(strap.body_m, turn, CRADLE_M if scene.kit == "cradles" else ARM_LOOP_M)


def paint_anchors(scene: Scene, style: Style) -> str:
    """A piece of hatched beam and a ring for every anchor that shows apart in this view."""
    flat = {tuple(np.round(project(strap.anchor_m, style.view), 3).tolist()) for strap in scene.straps}
    return "".join(_anchor(np.array(place), style) for place in sorted(flat))


def _anchor(place_m: Floats, style: Style) -> str:
    half = 0.5 * BEAM_M[0]
    rect = np.array([[-half, BEAM_GAP_M], [half, BEAM_GAP_M + BEAM_M[1]]])
    corners = style.frame.to_px(place_m + rect)
    (left, bottom), (right, top) = corners.tolist()
    box = np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
    x, y = style.frame.to_px(place_m).tolist()
    return (
        path(box, fill=style.theme.ground, stroke=style.theme.ink, stroke_width=style.line_px)
        + hatch((left, top, right, bottom), 0.45 * style.font_px, style.theme.soft_ink, 0.6 * style.line_px)
        + line((x, bottom), (x, y), stroke=style.theme.ink, stroke_width=style.line_px)
        + element(
            "circle",
            cx=x,
            cy=y,
            r=0.02 * style.frame.px_per_m,
            fill=style.theme.ground,
            stroke=style.theme.ink,
            stroke_width=style.line_px,
        )
    )


def strap_text_spots(straps: Sequence[StrapLine], style: Style) -> Floats:
    """Pixel points along straps beside which their force can be written, (M, 2), the best first."""
    share = np.array([0.45, 0.35, 0.55, 0.25, 0.65, 0.15, 0.8])
    points = [one.anchor_m + (one.body_m - one.anchor_m) * share[:, None] for one in straps]
    return style.frame.to_px(project(np.concatenate(points), style.view))
