"""The figure: a solved body drawn to scale on its rig, over a ruled floor."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leanmark.figures.body import body_outline_m, paint_body, paint_ghost
from leanmark.figures.floor import (
    mark_text,
    paint_floor,
    paint_mark,
    paint_plumb,
    paint_surfaces,
    ruler_height_px,
)
from leanmark.figures.forces import (
    floor_labels,
    paint_floor_forces,
    paint_strap_arrows,
    strap_labels,
    strap_words,
)
from leanmark.figures.labels import place_labels
from leanmark.figures.layout import Margins, extent_m, fit, force_tips_m
from leanmark.figures.project import Frame, View, project, view_by_name
from leanmark.figures.rig import paint_anchors, paint_rig
from leanmark.figures.scene import Scene, check_scene
from leanmark.figures.style import Style
from leanmark.figures.svg import document, path
from leanmark.figures.theme import theme_by_name
from leanmark.mechanics.arrays import Floats
from leanmark.units import UnitSystem


def draw(
    scenes: Sequence[Scene],
    view: str = "side",
    width_px: float = 640.0,
    height_px: float | None = None,
    *,
    theme: str = "light",
    units: UnitSystem = "metric",
    font_px: float = 12.0,
    forces: bool = True,
    title: str = "",
) -> str:
    """One figure as SVG text.

    scenes: phases of a rep in order; the last is drawn in full, the earlier ones as ghosts.
    view: ``side``, ``front`` or ``back``. width_px, height_px: size of the picture; without a height it
    follows from the content. theme: ``light``, ``dark`` or ``print``. font_px: size of the letters; lines and
    arrows grow with it. forces: arrows and words for the straps and the floor. title: for readers who hear
    the page; left out, it is made from the view.

    Raises:
        ValueError: no scene, an undrawable scene, an unknown view or theme, or too small a picture.
    """
    style = style_for(scenes, view, width_px, height_px, theme, units, font_px, forces)
    return _picture(scenes[-1], scenes[:-1], style, forces, title or f"Body on the rig from the {view}")


def draw_each(
    scenes: Sequence[Scene],
    view: str = "side",
    width_px: float = 640.0,
    height_px: float | None = None,
    *,
    theme: str = "light",
    units: UnitSystem = "metric",
    font_px: float = 12.0,
    forces: bool = True,
    title: str = "",
) -> list[str]:
    """The scenes as pictures of their own, all at one scale and place; arguments and errors as in
    ``draw``."""
    style = style_for(scenes, view, width_px, height_px, theme, units, font_px, forces)
    words = title or f"Body on the rig from the {view}"
    return [_picture(scene, (), style, forces, words) for scene in scenes]


def _picture(scene: Scene, ghosts: Sequence[Scene], style: Style, forces: bool, title: str) -> str:
    faint = ghost_parts(ghosts, style)
    parts = [*ground_parts(scene, style), *faint, paint_floor(style), *figure_parts(scene, style, forces)]
    if forces:
        parts.append(_forces(scene, style))
    frame, said = style.frame, describe(scene, style.units)
    return document(frame.width_px, frame.height_px, title, said, style.theme.ground, parts)


def style_for(
    scenes: Sequence[Scene],
    view: str,
    width_px: float,
    height_px: float | None,
    theme: str,
    units: UnitSystem,
    font_px: float,
    forces: bool,
    header_px: float = 0.0,
) -> Style:
    """Scale, colours and letters of a figure that shows all the scenes; arguments as in ``draw``. header_px:
    room left free above what is drawn.

    Raises:
        ValueError: as ``draw``.
    """
    if not scenes:
        raise ValueError("there is no scene to draw; give at least one")
    for scene in scenes:
        check_scene(scene)
    looking = view_by_name(view)
    frame = frame_for(scenes, looking, width_px, height_px, font_px, forces, header_px)
    return Style(looking, frame, theme_by_name(theme), units, font_px)


def frame_for(
    scenes: Sequence[Scene],
    view: View,
    width_px: float,
    height_px: float | None,
    font_px: float,
    forces: bool,
    header_px: float = 0.0,
) -> Frame:
    """The scale and place of a figure.

    Raises:
        ValueError: the picture is too small.
    """
    low_m, high_m = extent_m(scenes, view, forces)
    with_mark = view.along == scenes[-1].mark_axis and scenes[-1].floor_mark_m is not None
    margins = Margins(0.6 * font_px, 0.5 * font_px + header_px, ruler_height_px(font_px, with_mark))
    return fit(low_m, high_m, width_px, height_px, margins)


def ground_parts(scene: Scene, style: Style) -> list[str]:
    """What stands still behind the body: the plumb line and boxes."""
    return [paint_plumb(scene, style), paint_surfaces(scene, style)]


def ghost_parts(scenes: Sequence[Scene], style: Style) -> list[str]:
    """Earlier phases, faint."""
    ghosts = []
    for scene in scenes:
        ghosts.extend(_ghost_strap(scene, style))
        ghosts.append(paint_ghost(scene, style))
    return ghosts


def _ghost_strap(scene: Scene, style: Style) -> list[str]:
    dash = f"{0.3 * style.font_px:.2f} {0.3 * style.font_px:.2f}"
    return [
        path(
            style.frame.to_px(project(np.stack([strap.anchor_m, strap.body_m]), style.view)),
            closed=False,
            stroke=style.theme.ochre,
            stroke_width=0.4 * style.strap_px,
            stroke_dasharray=dash,
        )
        for strap in scene.straps
    ]


def figure_parts(scene: Scene, style: Style, forces: bool) -> list[str]:
    """The body on its straps, with the floor mark."""
    drawables = [*paint_body(scene, style), *paint_rig(scene, style)]
    if forces:
        drawables += paint_strap_arrows(scene, style)
    drawables.sort(key=lambda one: (one.depth_m, one.rank))
    return [
        *(one.markup for one in drawables),
        paint_anchors(scene, style),
        paint_mark(scene, style),
    ]


def _forces(scene: Scene, style: Style) -> str:
    frame, font = style.frame, style.font_px
    labels = [*strap_labels(scene, style), *floor_labels(scene, style)]
    bounds = (0.3 * font, 0.2 * font, frame.width_px - 0.3 * font, frame.origin_px[1] - 0.2 * font)
    arrows = paint_floor_forces(scene, style)
    return arrows + place_labels(labels, _obstacles_px(scene, style), bounds, font, style.theme)


def _obstacles_px(scene: Scene, style: Style) -> Floats:
    share = np.linspace(0.0, 1.0, 60)[:, None]
    straps = [strap.anchor_m + (strap.body_m - strap.anchor_m) * share for strap in scene.straps]
    ends = zip(scene.joint_m, scene.tip_m, strict=True)
    bones = [start + (end - start) * share[::6] for start, end in ends]
    flat = [project(points, style.view) for points in (*straps, *bones)]
    flat.append(body_outline_m(scene, style.view))
    for force, tip in zip(scene.floor_forces, force_tips_m(scene, style.view), strict=False):
        start = project(force.point_m, style.view)
        flat.append(start + (tip - start) * share)
    return style.frame.to_px(np.concatenate(flat))


def describe(scene: Scene, units: UnitSystem) -> str:
    """The figure in words: floor mark and straps."""
    said = []
    if scene.floor_mark_m is not None:
        said.append(f"Floor mark: {mark_text(scene, units)} from the plumb point.")
    for strap in scene.straps:
        force, *share = strap_words([strap], scene.body_weight_n, units)
        of_weight = "".join(f", {' '.join(words)}" for words in share)
        said.append(f"{strap.side.capitalize()} strap: {force[0]}{of_weight}.")
    return " ".join(said) or "No strap holds the body."
