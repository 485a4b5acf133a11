"""Paints a posed body from far to near, with clean seams, or as one quiet ghost."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from leanmark.figures.pieces import Piece, Seam, body_pieces, far_limbs, piece_depth_m, seams
from leanmark.figures.project import View
from leanmark.figures.scene import Scene
from leanmark.figures.solids import Solid, directions, outline
from leanmark.figures.style import Drawable, Style
from leanmark.figures.svg import element, path_data
from leanmark.figures.theme import Theme
from leanmark.mechanics.arrays import Floats

DIRECTIONS: Final[tuple[tuple[float, int], ...]] = ((60.0, 24), (160.0, 36), (math.inf, 72))
"""Points round one outline up to a scale [px/m]: a facet then misses a limb's curve by about a tenth of a
pixel. Own figures."""


def _shape(solids: Sequence[Solid], style: Style, fill: str, ink: str = "") -> str:
    """One shape of one colour; with ink, outlined round the whole of it and not between its solids."""
    count = next(count for limit, count in DIRECTIONS if style.frame.px_per_m <= limit)
    data = "".join(path_data(style.frame.to_px(outline(solid, style.view, count))) for solid in solids)
    if not ink:
        return element("path", d=data, fill=fill)
    return element(
        "path",
        d=data,
        fill=fill,
        stroke=ink,
        stroke_width=2.0 * style.line_px,
        stroke_linejoin="round",
        paint_order="stroke",  # the fill covers the inner half of every line
    )


def paint_body(scene: Scene, style: Style) -> list[Drawable]:
    """The body's pieces with their seams painted out, each at its depth."""
    far = far_limbs(scene, style.view)
    inset_m = 0.6 * style.line_px / style.frame.px_per_m
    joins = tuple(seams(scene, inset_m))
    placed = sorted(
        ((piece_depth_m(piece, style.view), piece) for piece in body_pieces(scene)),
        key=lambda pair: (pair[0], pair[1].rank),
    )
    drawn = []
    for place, (depth_m, piece) in enumerate(placed):
        markup = _piece(piece, _is_far(piece, far), style)
        before = [other for _, other in placed[:place]]
        for seam in joins:
            if piece.name in seam.stumps:
                markup += _mend(seam, piece, before, far, style)
        drawn.append(Drawable(depth_m, piece.rank, markup))
    return drawn


def _is_far(piece: Piece, far: frozenset[str]) -> bool:
    part = piece.name.removeprefix(f"{piece.side}_")
    limb = "arm" if part in ("upper_arm", "forearm", "hand") else "leg"
    return piece.side != "middle" and f"{piece.side}_{limb}" in far


def _fill(paint: str, is_far: bool, theme: Theme) -> str:
    fills = {
        "skin": (theme.skin, theme.far_skin),
        "cloth": (theme.cloth, theme.far_cloth),
        "shoe": (theme.shoe, theme.far_shoe),
        "hair": (theme.hair, theme.hair),
    }
    return fills[paint][is_far]


def _piece(piece: Piece, is_far: bool, style: Style) -> str:
    ink = style.theme.far_line if is_far else style.theme.ink
    return _shape(piece.solids, style, _fill(piece.paint, is_far, style.theme), ink)


def _mend(seam: Seam, piece: Piece, before: Sequence[Piece], far: frozenset[str], style: Style) -> str:
    """Paint the lower piece's stump over the outline of ``piece``, just painted.

    Nothing is painted when the lower piece is still to come, has another colour, or when something painted
    since then would be hidden.
    """
    lower = next(name for name in seam.stumps if name != piece.name)
    names = [other.name for other in before]
    if lower not in names:
        return ""
    stump, place = seam.stumps[lower], names.index(lower)
    fill, other_fill = (_fill(one.paint, _is_far(one, far), style.theme) for one in (piece, before[place]))
    since = [one for one in before[place + 1 :] if one.paint != piece.paint]
    if fill != other_fill or any(_meet(stump, solid, style.view) for one in since for solid in one.solids):
        return ""
    return _shape((stump,), style, fill)


def _meet(first: Solid, second: Solid, view: View) -> bool:
    """Whether two convex outlines overlap: no direction, of sixteen, has all of one beyond the other."""
    direction = directions(16)
    reach = outline(first, view, 16) @ direction.T
    start = outline(second, view, 16) @ direction.T
    return not bool(np.any(reach.max(axis=0) < start.min(axis=0)))


def paint_ghost(scene: Scene, style: Style) -> str:
    """An earlier phase: the body's outline alone, on a faint ground."""
    solids = [solid for piece in body_pieces(scene) for solid in piece.solids]
    return _shape(solids, style, style.theme.ghost, style.theme.ghost_line)


def body_outline_m(scene: Scene, view: View) -> Floats:
    """Points of every outline of the body in a view, (M, 2) [m], for the extent of the picture."""
    solids = [solid for piece in body_pieces(scene) for solid in piece.solids]
    return np.concatenate([outline(solid, view, 24) for solid in solids])
