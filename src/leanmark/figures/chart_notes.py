"""What a chart says in words: barred ranges with their reasons, and the key of its lines."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

from leanmark.figures.axes import Span
from leanmark.figures.labels import LETTER_WIDTH, hatch, text
from leanmark.figures.svg import element, line
from leanmark.figures.theme import Theme


@dataclass(frozen=True)
class BarredRange:
    """Places from ``low`` to ``high`` (SI) that cannot be used, and why."""

    low: float
    high: float
    reason: str


def _notes(barred: Sequence[BarredRange]) -> list[str]:
    """Each reason once, in order; its number in this list is its tag on the chart."""
    return list(dict.fromkeys(one.reason for one in barred))


def _wrapped(content: str, width_px: float, font_px: float) -> list[str]:
    letters = max(int((width_px - 2.4 * font_px) / (LETTER_WIDTH * font_px)), 8)
    return textwrap.wrap(content, letters) or [""]


def _note_lines(barred: Sequence[BarredRange], width_px: float, font_px: float) -> list[tuple[str, str]]:
    lines = []
    for number, note in enumerate(_notes(barred), start=1):
        rows = _wrapped(note, width_px, font_px)
        lines += [(str(number) if row == 0 else "", content) for row, content in enumerate(rows)]
    return lines


def key_height_px(
    names: Sequence[str], barred: Sequence[BarredRange], width_px: float, font_px: float
) -> float:
    """Room under the chart for the key of lines and the reasons of barred ranges."""
    rows = len(dict.fromkeys(names)) + len(_note_lines(barred, width_px, font_px))
    return font_px * (1.35 * rows + 0.4) if rows else 0.0


def paint_barred(barred: Sequence[BarredRange], across: Span, up: Span, font_px: float, theme: Theme) -> str:
    """Hatching over each barred range, tagged with the number of its reason in the key."""
    parts = []
    for one in barred:
        left, right = across.to_px(one.low), across.to_px(one.high)
        rect = (left, up.end_px, right, up.start_px)
        parts.append(hatch(rect, 0.6 * font_px, theme.far_line, 0.07 * font_px))
        for x in (left, right):
            parts.append(line((x, rect[1]), (x, rect[3]), stroke=theme.far_line, stroke_width=0.07 * font_px))
        tag = str(1 + _notes(barred).index(one.reason))
        parts.append(_tag(tag, 0.5 * (left + right), up.end_px + 1.2 * font_px, font_px, theme))
    return "".join(parts)


def _tag(tag: str, x: float, y: float, font_px: float, theme: Theme) -> str:
    ring = element(
        "circle",
        cx=x,
        cy=y,
        r=0.8 * font_px,
        fill=theme.ground,
        stroke=theme.ink,
        stroke_width=0.08 * font_px,
    )
    return ring + text(tag, x, y + 0.35 * font_px, font_px, theme)


def paint_key(
    names: Sequence[str],
    dashes: Sequence[str],
    barred: Sequence[BarredRange],
    width_px: float,
    top_px: float,
    font_px: float,
    theme: Theme,
) -> str:
    """The key: a sample and a name for each line, a tag and its reason for each kind of barred range."""
    parts = []
    y = top_px + 0.9 * font_px
    for row, name in enumerate(dict.fromkeys(names)):
        level = y - 0.35 * font_px
        parts.append(
            line(
                (0.3 * font_px, level),
                (2.6 * font_px, level),
                stroke=theme.accent,
                stroke_width=0.19 * font_px,
                stroke_dasharray=dashes[row % len(dashes)] or None,
            )
        )
        parts.append(text(name, 3.2 * font_px, y, font_px, theme, anchor="start"))
        y += 1.35 * font_px
    for tag, content in _note_lines(barred, width_px, font_px):
        if tag:
            parts.append(_tag(tag, 1.1 * font_px, y - 0.35 * font_px, 0.85 * font_px, theme))
        parts.append(text(content, 2.2 * font_px, y, font_px, theme, anchor="start"))
        y += 1.35 * font_px
    return "".join(parts)
