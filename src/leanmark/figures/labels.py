"""Words on a figure, set where they hide as little as possible, and the hatching that goes with words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np

from leanmark.figures.svg import element, path_data, words
from leanmark.figures.theme import Theme
from leanmark.mechanics.arrays import Floats

LETTER_WIDTH: Final = 0.58  # of the font size: the widest common sans face averages about this; own figure
LINE_HEIGHT: Final = 1.2
GAPS: Final = (0.8, 2.0, 4.0, 7.0)  # how far to the side of its point a label is tried, in letter heights
Rect = tuple[float, float, float, float]
"""Left, top, right, bottom [px]."""


@dataclass(frozen=True)
class Label:
    """Words to be set beside one of some pixel points, (M, 2), the best point first.

    layouts: the same words broken into lines in one or more ways, the best first.
    """

    layouts: tuple[tuple[str, ...], ...]
    spots_px: Floats
    colour: str
    bold: bool = False


def text_width_px(text: str, font_px: float) -> float:
    """A generous estimate of a line's width; no face is measured, as none is certain to be there."""
    return LETTER_WIDTH * font_px * len(text)


def text(
    content: str,
    x: float,
    y: float,
    font_px: float,
    theme: Theme,
    colour: str = "",
    anchor: str = "middle",
    bold: bool = False,
) -> str:
    """One line of text with a thin halo of the ground, so that it reads across lines."""
    return words(
        "text",
        content,
        x=x,
        y=y,
        font_size=font_px,
        font_family=theme.font_family,
        font_weight="600" if bold else None,
        text_anchor=None if anchor == "start" else anchor,
        fill=colour or theme.ink,
        stroke=theme.ground,
        stroke_width=0.28 * font_px,
        stroke_linejoin="round",
        paint_order="stroke",
    )


def hatch(rect: Rect, step_px: float, colour: str, width_px: float) -> str:
    """Slanting lines that fill a rectangle, cut at its edges."""
    left, top, right, bottom = rect
    height = bottom - top
    pieces = []
    start = left - height + step_px
    while start < right:
        low, high = max(start, left), min(start + height, right)
        if high > low:
            ends = np.array([[low, bottom - (low - start)], [high, bottom - (high - start)]])
            pieces.append(path_data(ends, closed=False))
        start += step_px
    if not pieces:
        return ""
    return element("path", d="".join(pieces), stroke=colour, stroke_width=width_px, fill="none")


def place_labels(
    labels: Sequence[Label], obstacles_px: Floats, bounds: Rect, font_px: float, theme: Theme
) -> str:
    """Set each label in turn where it covers the fewest obstacle points, (M, 2), and no earlier label."""
    taken: list[Rect] = []
    out = []
    for label in labels:
        lines, rect = _best_place(label, obstacles_px, taken, bounds, font_px)
        taken.append(rect)
        middle = 0.5 * (rect[0] + rect[2])
        for row, content in enumerate(lines):
            y = rect[1] + (row * LINE_HEIGHT + 0.9) * font_px
            out.append(text(content, middle, y, font_px, theme, label.colour, "middle", label.bold))
    return "".join(out)


def _best_place(
    label: Label, obstacles_px: Floats, taken: Sequence[Rect], bounds: Rect, font_px: float
) -> tuple[tuple[str, ...], Rect]:
    candidates = [(lines, rect) for lines in label.layouts for rect in _rects(label, lines, bounds, font_px)]
    costs = [
        _cost(rect, rank, obstacles_px, taken, label.spots_px) for rank, (_, rect) in enumerate(candidates)
    ]
    return candidates[int(np.argmin(costs))]


def _rects(label: Label, lines: tuple[str, ...], bounds: Rect, font_px: float) -> Iterator[Rect]:
    width = max(text_width_px(content, font_px) for content in lines)
    height = LINE_HEIGHT * font_px * len(lines)
    for x, y in label.spots_px.tolist():
        for gap, lift in product(GAPS, (-0.5, -1.1, 0.1)):
            yield _inside((x + gap * font_px, y + lift * height), width, height, bounds)
            yield _inside((x - gap * font_px - width, y + lift * height), width, height, bounds)


def _inside(corner: tuple[float, float], width: float, height: float, bounds: Rect) -> Rect:
    left = min(max(corner[0], bounds[0]), max(bounds[2] - width, bounds[0]))
    top = min(max(corner[1], bounds[1]), max(bounds[3] - height, bounds[1]))
    return left, top, left + width, top + height


def _cost(rect: Rect, rank: int, obstacles_px: Floats, taken: Sequence[Rect], spots_px: Floats) -> float:
    covered = _points_inside(rect, obstacles_px)
    overlap = sum(_overlap_px2(rect, other) for other in taken)
    centre = np.array([0.5 * (rect[0] + rect[2]), 0.5 * (rect[1] + rect[3])])
    astray = float(np.linalg.norm(spots_px - centre, axis=1).min())
    return 4.0 * covered + 2.0 * overlap + 0.05 * astray + 0.02 * rank


def _points_inside(rect: Rect, points_px: Floats) -> float:
    x, y = points_px[:, 0], points_px[:, 1]
    return float(np.sum((x > rect[0]) & (x < rect[2]) & (y > rect[1]) & (y < rect[3])))


def _overlap_px2(first: Rect, second: Rect) -> float:
    across = min(first[2], second[2]) - max(first[0], second[0])
    down = min(first[3], second[3]) - max(first[1], second[1])
    return max(across, 0.0) * max(down, 0.0)
