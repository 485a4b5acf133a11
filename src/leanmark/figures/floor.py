"""The ruled floor: a rule in centimetres or feet, the plumb point, boxes, and the floor mark called out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.figures.labels import hatch, text, text_width_px
from leanmark.figures.layout import surface_rect_m
from leanmark.figures.project import project
from leanmark.figures.scene import Scene, mark_point_m
from leanmark.figures.style import Style
from leanmark.figures.svg import line, path
from leanmark.units import UnitSystem, show_length


@dataclass(frozen=True)
class Ruling:
    """A way to rule the floor: numbered every ``major``, ticked every ``minor``, in ``unit``."""

    major: int
    minor: int
    unit_m: float
    per_number: int
    word: str


_CM: Final = 0.01
_INCH: Final = 0.0254
RULINGS: Final[dict[UnitSystem, tuple[Ruling, ...]]] = {  # finest first, own figures
    "metric": (
        Ruling(10, 2, _CM, 1, "cm"),
        Ruling(20, 5, _CM, 1, "cm"),
        Ruling(50, 10, _CM, 1, "cm"),
        Ruling(100, 20, _CM, 1, "cm"),
        Ruling(200, 50, _CM, 1, "cm"),
    ),
    "us": (
        Ruling(12, 2, _INCH, 12, "ft"),
        Ruling(24, 6, _INCH, 12, "ft"),
        Ruling(48, 12, _INCH, 12, "ft"),
        Ruling(96, 24, _INCH, 12, "ft"),
    ),
}
NUMBER_GAP: Final = 3.6  # least distance of two numbers on the ruler, in letter heights, own figure
BAND: Final = 2.0  # height of ticks and numbers under the floor, in letter heights
CALLOUT: Final = 1.85  # height of the floor mark's line and words, likewise


def ruler_height_px(font_px: float, with_mark: bool) -> float:
    """Room that the ruler, and the floor mark's words, need under the floor."""
    return font_px * (BAND + (CALLOUT if with_mark else 0.0))


def ruling_for(units: UnitSystem, px_per_m: float, font_px: float) -> Ruling:
    """The finest ruling whose numbers keep apart."""
    for ruling in RULINGS[units]:
        if ruling.major * ruling.unit_m * px_per_m >= NUMBER_GAP * font_px:
            return ruling
    return RULINGS[units][-1]


def paint_floor(style: Style) -> str:
    """The floor's line across the picture, its ticks and its numbers; zero is the plumb point."""
    frame, theme = style.frame, style.theme
    y = frame.origin_px[1]
    ruling = ruling_for(style.units, frame.px_per_m, style.font_px)
    parts = [line((0.0, y), (frame.width_px, y), stroke=theme.ink, stroke_width=1.4 * style.line_px)]
    step_px = ruling.minor * ruling.unit_m * frame.px_per_m
    first = int(np.ceil(-frame.origin_px[0] / step_px))
    last = int(np.floor((frame.width_px - frame.origin_px[0]) / step_px))
    unit_px = text_width_px(ruling.word, style.font_px)
    for tick in range(first, last + 1):
        x = frame.origin_px[0] + tick * step_px
        numbered = tick * ruling.minor % ruling.major == 0
        length = style.font_px * (0.55 if numbered else 0.3)
        parts.append(line((x, y), (x, y + length), stroke=theme.ink, stroke_width=0.8 * style.line_px))
        if numbered:
            parts.append(_ruler_number(tick * ruling.minor // ruling.per_number, x, unit_px, style))
    parts.append(
        text(
            ruling.word,
            frame.width_px - 0.3 * style.font_px,
            y + 1.55 * style.font_px,
            style.font_px,
            theme,
            theme.soft_ink,
            "end",
        )
    )
    return "".join(parts)


def _ruler_number(value: int, x: float, unit_px: float, style: Style) -> str:
    shown = f"−{-value}" if value < 0 else str(value)
    half = 0.5 * text_width_px(shown, style.font_px)
    if x - half < 0.0 or x + half > style.frame.width_px - unit_px - 0.9 * style.font_px:
        return ""
    y = style.frame.origin_px[1] + 1.55 * style.font_px
    return text(shown, x, y, style.font_px, style.theme, style.theme.soft_ink)


def paint_plumb(scene: Scene, style: Style) -> str:
    """A dashed line from the anchors' height to the plumb point, with a small bob."""
    if not scene.straps:
        return ""
    height_m = max(float(strap.anchor_m[2]) for strap in scene.straps)
    (x, top), (_, y) = style.frame.to_px(np.array([[0.0, height_m], [0.0, 0.0]])).tolist()
    size = 0.36 * style.font_px
    bob = np.array([[x - size, y - 2.2 * size], [x + size, y - 2.2 * size], [x, y]])
    dashes = f"{0.15 * style.font_px:.2f} {0.4 * style.font_px:.2f}"
    return line(
        (x, top),
        (x, y),
        stroke=style.theme.far_line,
        stroke_width=0.8 * style.line_px,
        stroke_dasharray=dashes,
    ) + path(bob, fill=style.theme.ground, stroke=style.theme.soft_ink, stroke_width=style.line_px)


def paint_surfaces(scene: Scene, style: Style) -> str:
    """Boxes, hatched."""
    parts = []
    for surface in scene.surfaces:
        low, high = surface_rect_m(surface, style.view)
        (left, bottom), (right, top) = style.frame.to_px(np.stack([low, high])).tolist()
        box = np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
        theme = style.theme
        parts.append(path(box, fill=theme.ground, stroke=theme.soft_ink, stroke_width=style.line_px))
        parts.append(hatch((left, top, right, bottom), 0.7 * style.font_px, theme.hairline, style.line_px))
        if surface.label:
            middle, y = 0.5 * (left + right), 0.5 * (top + bottom) + 0.35 * style.font_px
            parts.append(text(surface.label, middle, y, style.font_px, theme, theme.soft_ink))
    return "".join(parts)


def paint_mark(scene: Scene, style: Style) -> str:
    """The floor mark as a measured line under the rule, from the plumb point on, in views along it."""
    if scene.floor_mark_m is None or style.view.along != scene.mark_axis:
        return ""
    frame, theme, font = style.frame, style.theme, style.font_px
    place = project(np.stack([np.zeros(3), mark_point_m(scene)]), style.view)
    (zero, floor), (mark, _) = frame.to_px(place).tolist()
    y = floor + BAND * font + 0.25 * font
    size = 0.34 * font
    pointer = np.array([[mark, floor], [mark - size, floor + 2.0 * size], [mark + size, floor + 2.0 * size]])
    shown = mark_text(scene, style.units)
    if text_width_px(shown, font) > frame.width_px:
        shown = show_length(scene.floor_mark_m, style.units)
    half = 0.5 * text_width_px(shown, font)
    middle = min(max(0.5 * (zero + mark), half + 2.0), frame.width_px - half - 2.0)
    strokes = [((zero, y), (mark, y)), *(((x, y - size), (x, y + size)) for x in (zero, mark))]
    return (
        path(pointer, fill=theme.accent)
        + "".join(line(*ends, stroke=theme.accent, stroke_width=1.1 * style.line_px) for ends in strokes)
        + text(shown, middle, y + 1.25 * font, font, theme, theme.accent, bold=True)
    )


def mark_text(scene: Scene, units: UnitSystem) -> str:
    """The floor mark in words: ``heel −97 cm``."""
    mark_m = 0.0 if scene.floor_mark_m is None else scene.floor_mark_m
    return f"{scene.mark_label} {show_length(mark_m, units)}".strip()
