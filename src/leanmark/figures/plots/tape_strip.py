"""The tape strip: the floor under an anchor as a ruled strip to scale, with each tape and its number."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, floor
from typing import Final

import altair as alt

from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.look import Look
from leanmark.figures.plots.picture import Canvas, Rows
from leanmark.units import UnitSystem, from_si, show_length, to_si

_RULING: Final[dict[UnitSystem, tuple[float, int]]] = {
    "metric": (to_si(10, "cm"), 5),
    "us": (to_si(6, "in"), 2),
}
"""Length between two lines [m], and every how many of them one is long and has a number."""
_STRIP: Final = 2.6  # letter heights, own figures
_LEAD: Final = 3.2
_LABEL_GAP: Final = 1.25


def tape_strip(
    places_m: Sequence[float],
    labels: Sequence[str],
    ends: tuple[str, str],
    look: Look,
    height_px: float,
    units: UnitSystem = "metric",
) -> str:
    """Tapes along a line through the plumb point as SVG text.

    places_m: (N,) signed, rising; labels: one for each; ends: what lies at the negative and at the positive
    end; height_px: of the whole picture, which grows where the labels need more.

    Raises:
        ValueError: no place, places that do not rise, or another number of labels.
    """
    if not places_m or len(labels) != len(places_m):
        raise ValueError(
            f"give a label for each of at least one place, not {len(labels)} for {len(places_m)}"
        )
    if any(after <= before for before, after in pairwise(places_m)):
        raise ValueError("places_m must rise; merge tapes of one place")
    canvas = _canvas(places_m, ends, look, height_px, units)
    drawn = [*_rule(canvas, units), *_ends(canvas, ends), *_tapes(canvas, places_m, labels)]
    said = " ".join(f"{label}: {show_length(at, units)}." for at, label in zip(places_m, labels, strict=True))
    words = f"Floor along a line through the plumb point, {ends[0]} to {ends[1]}, with {len(places_m)} tapes."
    return canvas.svg(drawn, "Tapes on the floor", f"{words} {said}")


def _canvas(
    places_m: Sequence[float], ends: tuple[str, str], look: Look, height_px: float, units: UnitSystem
) -> Canvas:
    """Positive up, from a long line beyond the last tape to one beyond the first, the plumb point inside."""
    font, (step, every) = look.font_px, _RULING[units]
    whole = step * every
    low = whole * floor(min(places_m[0], 0.0) / whole - 0.2)
    high = whole * ceil(max(places_m[-1], 0.0) / whole + 0.2)
    left = text_width_px(show_length(-2.5, units), font) + 0.6 * font
    drawn_px = max(height_px - 4.4 * font, _LABEL_GAP * font * (len(places_m) + 1))
    return Canvas(look, drawn_px, left, 0.3 * font, 2.2 * font, 2.2 * font, (0.0, 1.0), (low, high))


def _across(canvas: Canvas, letters: float) -> float:
    """A place across the picture, from letter heights right of the strip's left edge."""
    return letters * canvas.look.font_px / canvas.width_px


def _rule(canvas: Canvas, units: UnitSystem) -> list[alt.Chart]:
    look, font = canvas.look, canvas.look.font_px
    (step, every), (low, high) = _RULING[units], canvas.up
    ticks = range(round(low / step), round(high / step) + 1)
    strip = {"x": 0.0, "x2": _across(canvas, _STRIP), "y": low, "y2": high}
    lines: Rows = [
        {"x": 0.0, "x2": _across(canvas, 0.9 if at % every == 0 else 0.4), "y": at * step, "y2": at * step}
        for at in ticks
    ]
    numbers: Rows = [
        {"x": 0.0, "y": at * step, "words": _ruled(at * step, units)} for at in ticks if at % every == 0
    ]
    plumb = {"x": 0.0, "x2": _across(canvas, _STRIP), "y": 0.0, "y2": 0.0}
    return [
        canvas.boxes([strip], look.colours.ground, look.colours.ink, 0.1 * font),
        canvas.lines(lines, look.colours.ink, 0.08 * font),
        canvas.texts(numbers, "right", baseline="middle", dx=-0.4 * font, color=look.colours.soft_ink),
        canvas.lines([plumb], look.colours.ink, 0.16 * font, (0.5 * font, 0.25 * font)),
    ]


def _ruled(length_m: float, units: UnitSystem) -> str:
    if units == "metric" or not length_m:
        return show_length(length_m, units) if length_m else "plumb"
    feet = round(from_si(abs(length_m), "in") / 12.0)
    return f"{'−' if length_m < 0 else ''}{feet} ft"


def _ends(canvas: Canvas, ends: tuple[str, str]) -> list[alt.Chart]:
    """What lies at either end, with an arrow."""
    font, (low, high) = canvas.look.font_px, canvas.up
    soft = canvas.look.colours.soft_ink
    return [
        canvas.texts(
            [{"x": 0.0, "y": high, "words": f"↑ {ends[1]}"}],
            "left",
            baseline="bottom",
            dy=-0.6 * font,
            color=soft,
        ),
        canvas.texts(
            [{"x": 0.0, "y": low, "words": f"↓ {ends[0]}"}], "left", baseline="top", dy=0.6 * font, color=soft
        ),
    ]


def _tapes(canvas: Canvas, places_m: Sequence[float], labels: Sequence[str]) -> list[alt.Chart]:
    """Each tape across the strip, a line from it to its label, and the labels apart from each other."""
    look, font = canvas.look, canvas.look.font_px
    heights = spread(
        places_m, _LABEL_GAP * font * (canvas.up[1] - canvas.up[0]) / canvas.height_px, canvas.up
    )
    edge, bend, words = (_across(canvas, at) for at in (_STRIP, _STRIP + _LEAD, _STRIP + _LEAD + 0.9))
    tapes: Rows = [{"x": 0.0, "x2": edge, "y": at, "y2": at} for at in places_m]
    leads: Rows = [
        {"x": edge, "x2": bend, "y": at, "y2": height} for at, height in zip(places_m, heights, strict=True)
    ]
    tails: Rows = [{"x": bend, "x2": words, "y": height, "y2": height} for height in heights]
    texts = [{"x": words, "y": height, "words": label} for height, label in zip(heights, labels, strict=True)]
    return [
        canvas.lines([*leads, *tails], look.colours.far_line, 0.07 * font),
        canvas.lines(tapes, look.colours.accent, 0.34 * font),
        canvas.texts(texts, "left", baseline="middle", dx=0.3 * font),
    ]


def spread(places: Sequence[float], gap: float, ends: tuple[float, float]) -> list[float]:
    """Rising places moved as little as need be to stand at least ``gap`` apart: up from the lower end, then
    down from the upper one. Where there is room for all they stay between the ends."""
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + gap) if found else place)
    limit = ends[1]
    for at in range(len(found) - 1, -1, -1):
        found[at] = min(found[at], limit)
        limit = found[at] - gap
    return found
