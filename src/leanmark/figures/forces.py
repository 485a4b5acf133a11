"""Arrows and words for the forces of straps and floor."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain
from typing import Final

import numpy as np

from leanmark.figures.axes import shown_number
from leanmark.figures.labels import Label
from leanmark.figures.layout import force_tips_m
from leanmark.figures.project import depth, project
from leanmark.figures.rig import strap_text_spots
from leanmark.figures.scene import FloorForce, Scene, StrapLine
from leanmark.figures.style import Drawable, Style
from leanmark.figures.svg import path
from leanmark.mechanics.arrays import Floats
from leanmark.units import UnitSystem, show_force

HEAD_PX: Final = 0.8  # length of an arrow's head, in letter heights
ARROW_PLACE: Final = 0.42  # share of the strap, from the body up, at which its arrow stands
TOGETHER_M: Final = 0.08  # forces nearer than this in the picture share their words; own figures


def paint_strap_arrows(scene: Scene, style: Style) -> list[Drawable]:
    """A head on each strap, pointing the way it pulls, at the strap's own depth."""
    drawn = []
    for strap in scene.straps:
        ends = style.frame.to_px(project(np.stack([strap.body_m, strap.anchor_m]), style.view))
        way = ends[1] - ends[0]
        if float(np.linalg.norm(way)) > 6.0 * style.font_px:
            place_m = strap.body_m + ARROW_PLACE * (strap.anchor_m - strap.body_m)
            markup = _head(ends[0] + ARROW_PLACE * way, way, style.theme.ochre, style)
            drawn.append(Drawable(float(depth(place_m, style.view)), 6, markup))
    return drawn


def paint_floor_forces(scene: Scene, style: Style) -> str:
    """An arrow for every force of floor or box, as long as its share of body weight."""
    parts = []
    tips = style.frame.to_px(force_tips_m(scene, style.view))
    for force, tip in zip(scene.floor_forces, tips, strict=False):
        start = style.frame.to_px(project(force.point_m, style.view))
        way = tip - start
        length = float(np.linalg.norm(way))
        if length < 1.2 * HEAD_PX * style.font_px:
            continue
        neck = tip - way * (0.7 * HEAD_PX * style.font_px / length)
        shaft = np.stack([start, neck])
        for colour, width in ((style.theme.ground, 0.5), (style.theme.accent, 0.2)):
            parts.append(
                path(
                    shaft,
                    closed=False,
                    stroke=colour,
                    stroke_width=width * style.font_px,
                    stroke_linecap="round",
                )
            )
        parts.append(_head(tip, way, style.theme.accent, style))
    return "".join(parts)


def _head(tip: Floats, way: Floats, colour: str, style: Style) -> str:
    along = way / max(float(np.linalg.norm(way)), 1e-9)
    across = np.array([-along[1], along[0]])
    size = HEAD_PX * style.font_px
    back, half = tip - along * size, across * (0.42 * size)
    points = np.stack([tip, back + half, back - half])
    return path(points, fill=colour, stroke=style.theme.ground, stroke_width=0.6 * style.line_px)


def strap_labels(scene: Scene, style: Style) -> list[Label]:
    """The straps' forces in words; equal straps that lie on each other are named once."""
    labels = []
    for group in _strap_groups(scene, style):
        spots = strap_text_spots(group, style)
        words = strap_words(group, scene.body_weight_n, style.units)
        layouts = (tuple(f"{first} {second}" for first, second in words), tuple(chain(*words)))
        labels.append(Label(layouts, spots, style.theme.ochre_text))
    return labels


def _strap_groups(scene: Scene, style: Style) -> list[list[StrapLine]]:
    groups: list[list[StrapLine]] = []
    for strap in scene.straps:
        for group in groups:
            if _alike(strap, group[0], style):
                group.append(strap)
                break
        else:
            groups.append([strap])
    return groups


def _alike(first: StrapLine, second: StrapLine, style: Style) -> bool:
    same_words = _force_words(first, style.units) == _force_words(second, style.units)
    gap = project(first.body_m - second.body_m, style.view)
    return same_words and (float(np.linalg.norm(gap)) < TOGETHER_M or first.side != second.side)


def _force_words(strap: StrapLine, units: UnitSystem) -> str:
    tensions = (strap.tension_n, strap.tension_low_n, strap.tension_high_n)
    shown = [show_force(tension_n, units).split(" ", 1) for tension_n in tensions]
    return f"{_with_interval(*(number for number, _ in shown))} {shown[0][1]}"


def _with_interval(value: str, low: str, high: str) -> str:
    """A shown number and its interval, left out where it is no wider than what is shown."""
    return value if low == value == high else f"{value} ({low}–{high})"


def strap_words(
    group: Sequence[StrapLine], body_weight_n: float, units: UnitSystem
) -> tuple[tuple[str, str], ...]:
    """Force and interval of one strap, and what the group's pull is of body weight, each in two halves."""
    force = (_force_words(group[0], units), "each strap" if len(group) > 1 else "strap")
    if body_weight_n <= 0.0:
        return (force,)
    sums = [
        sum(values)
        for values in zip(*((s.tension_n, s.tension_low_n, s.tension_high_n) for s in group), strict=True)
    ]
    shares = [shown_number(100.0 * total / body_weight_n, 0) for total in sums]
    number, _, interval = _with_interval(*shares).partition(" ")
    return (force, (f"{number} % {interval}".strip(), "of body weight"))


def floor_labels(scene: Scene, style: Style) -> list[Label]:
    """The floor's forces in words; equal forces of left and right that lie on each other are named once."""
    tips = style.frame.to_px(force_tips_m(scene, style.view))
    labels = []
    named: set[int] = set()
    for force, tip in zip(scene.floor_forces, tips, strict=False):
        twin = _twin(force, scene, style)
        if id(force) in named:
            continue
        named.add(id(twin))
        start = style.frame.to_px(project(force.point_m, style.view))
        spots = np.stack([tip, start + 0.6 * (tip - start), start + 0.3 * (tip - start)])
        labels.append(Label(_floor_layouts(force, twin, style.units), spots, style.theme.accent))
    return labels


def _shown_n(force: FloorForce, units: UnitSystem) -> str:
    return show_force(float(np.linalg.norm(force.force_n)), units)


def _twin(force: FloorForce, scene: Scene, style: Style) -> FloorForce | None:
    for other in scene.floor_forces:
        gap = project(force.point_m - other.point_m, style.view)
        near = other is not force and float(np.linalg.norm(gap)) < TOGETHER_M
        alike = _shown_n(other, style.units) == _shown_n(force, style.units)
        if near and alike and _stem(other) == _stem(force):
            return other
    return None


def _stem(force: FloorForce) -> str:
    return force.label.removeprefix("left ").removeprefix("right ")


def _floor_layouts(
    force: FloorForce, twin: FloorForce | None, units: UnitSystem
) -> tuple[tuple[str, ...], ...]:
    who = force.label if twin is None else f"each {_stem(force)}"
    shown = _shown_n(force, units)
    return ((f"{who} {shown}",), (who, shown)) if who else ((shown,),)
