"""Charts drawn by hand: load over the floor mark, and load over the rep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.figures.axes import Axis, Span, paint_axes, span
from leanmark.figures.chart_notes import BarredRange, key_height_px, paint_barred, paint_key
from leanmark.figures.labels import text, text_width_px
from leanmark.figures.svg import document, line, path
from leanmark.figures.theme import Theme, theme_by_name
from leanmark.mechanics.arrays import Floats
from leanmark.units import UnitSystem

LOAD_AXIS: Final = Axis("load", "% of body weight", 100.0)
STRENGTH_AXIS: Final = Axis("largest joint moment", "% of reference strength", 100.0)
MARK_AXES: Final[dict[UnitSystem, Axis]] = {
    "metric": Axis("floor mark", "cm from the plumb point", 100.0),
    "us": Axis("floor mark", "ft from the plumb point", 1.0 / 0.3048),
}
TIME_AXIS: Final = Axis("time in the rep", "s")
DASHES: Final = ("", "6 3", "2 2", "8 2 2 2")
"""One pattern for each line of a chart, in letter-twelfths; lines never differ by colour alone."""


@dataclass(frozen=True)
class Curve:
    """A value and its interval over a rising place, all (N,) in SI units, N at least one."""

    place: Floats
    value: Floats
    low: Floats
    high: Floats
    label: str = ""


@dataclass(frozen=True)
class Spell:
    """A named part of the rep, from ``start`` to ``end`` [s]."""

    start: float
    end: float
    label: str


@dataclass(frozen=True)
class Chart:
    """Everything a chart shows. wanted: a load to aim at, in the unit of the curves, or None."""

    curves: tuple[Curve, ...]
    across: Axis
    up: Axis
    barred: tuple[BarredRange, ...] = ()
    spells: tuple[Spell, ...] = ()
    wanted: float | None = None
    title: str = ""


def load_over_mark(
    curves: Sequence[Curve],
    barred: Sequence[BarredRange] = (),
    wanted: float | None = None,
    up: Axis = LOAD_AXIS,
    *,
    width_px: float = 480.0,
    height_px: float | None = None,
    theme: str = "light",
    units: UnitSystem = "metric",
    font_px: float = 12.0,
    title: str = "Load over the floor mark",
) -> str:
    """Load [share of body weight] over the floor mark [m] as SVG text.

    barred: ranges of the mark where the position cannot be held, each with its reason.

    Raises:
        ValueError: nothing to draw, arrays that do not match or are not finite, or an unknown theme.
    """
    chart = Chart(tuple(curves), MARK_AXES[units], up, tuple(barred), (), wanted, title)
    return draw_chart(chart, width_px, height_px, theme, font_px)


def load_over_rep(
    curves: Sequence[Curve],
    spells: Sequence[Spell] = (),
    wanted: float | None = None,
    up: Axis = LOAD_AXIS,
    *,
    width_px: float = 480.0,
    height_px: float | None = None,
    theme: str = "light",
    font_px: float = 12.0,
    title: str = "Load over the rep",
) -> str:
    """Load [share of body weight] over the time in a rep [s] as SVG text.

    Raises:
        ValueError: nothing to draw, arrays that do not match or are not finite, or an unknown theme.
    """
    chart = Chart(tuple(curves), TIME_AXIS, up, (), tuple(spells), wanted, title)
    return draw_chart(chart, width_px, height_px, theme, font_px)


def draw_chart(chart: Chart, width_px: float, height_px: float | None, theme: str, font_px: float) -> str:
    """Any chart as SVG text; without a height it is six tenths as tall as wide, and its key besides.

    Raises:
        ValueError: nothing to draw, arrays that do not match or are not finite, or an unknown theme.
    """
    _check(chart)
    colours = theme_by_name(theme)
    names = [curve.label for curve in chart.curves if curve.label]
    key_px = key_height_px(names, chart.barred, width_px, font_px)
    total_px = 0.6 * width_px + key_px if height_px is None else height_px
    across, up = _spans(chart, width_px, total_px - key_px, font_px)
    parts = [
        paint_barred(chart.barred, across, up, font_px, colours),
        *(_band(curve, across, up, colours) for curve in chart.curves),
        paint_axes(across, up, font_px, colours),
        *_spells(chart.spells, across, up, font_px, colours),
        *_curves(chart.curves, across, up, font_px, colours),
        _wanted(chart, across, up, font_px, colours),
        paint_key(names, DASHES, chart.barred, width_px, total_px - key_px, font_px, colours),
    ]
    return document(width_px, total_px, chart.title, describe_chart(chart), colours.ground, parts)


def _check(chart: Chart) -> None:
    if not chart.curves and not chart.barred:
        raise ValueError("the chart has neither a curve nor a barred range; give at least one")
    for row, curve in enumerate(chart.curves):
        arrays = (curve.place, curve.value, curve.low, curve.high)
        if len(curve.place) == 0 or any(np.shape(one) != np.shape(curve.place) for one in arrays):
            raise ValueError(f"curves[{row}]: place, value, low and high must be of one length, at least one")
        if not all(np.all(np.isfinite(one)) for one in arrays):
            raise ValueError(f"curves[{row}] holds a value that is not finite; break the curve there instead")
        if np.any(np.diff(curve.place) <= 0.0):
            raise ValueError(f"curves[{row}].place must rise")


def _spans(chart: Chart, width_px: float, height_px: float, font_px: float) -> tuple[Span, Span]:
    places = [value for curve in chart.curves for value in (curve.place[0], curve.place[-1])]
    places += [edge for one in chart.barred for edge in (one.low, one.high)]
    places += [edge for one in chart.spells for edge in (one.start, one.end)]
    values = [0.0, *(float(value) for curve in chart.curves for value in (curve.low.min(), curve.high.max()))]
    values += [] if chart.wanted is None else [1.05 * chart.wanted]
    bottom = height_px - 3.2 * font_px
    up = span(chart.up, min(values), max(values), bottom, 2.0 * font_px, 2.2 * font_px, True)
    numbers_px = max(text_width_px(shown, font_px) for _, shown in up.ticks())
    left, right = numbers_px + 0.8 * font_px, width_px - 1.2 * font_px
    return span(chart.across, min(places), max(places), left, right, 4.2 * font_px, False), up


def _points(place: Floats, value: Floats, across: Span, up: Span) -> Floats:
    return np.array([[across.to_px(x), up.to_px(y)] for x, y in zip(place, value, strict=True)])


def _band(curve: Curve, across: Span, up: Span, theme: Theme) -> str:
    low = _points(curve.place, curve.low, across, up)
    high = _points(curve.place, curve.high, across, up)
    return path(np.concatenate([low, high[::-1]]), fill=theme.accent_tint, fill_opacity=0.75)


def _curves(curves: Sequence[Curve], across: Span, up: Span, font_px: float, theme: Theme) -> Iterator[str]:
    names = list(dict.fromkeys(curve.label for curve in curves if curve.label))
    for curve in curves:
        dash = DASHES[names.index(curve.label) % len(DASHES)] if curve.label else ""
        yield path(
            _points(curve.place, curve.value, across, up),
            closed=False,
            fill="none",
            stroke=theme.accent,
            stroke_width=0.19 * font_px,
            stroke_linejoin="round",
            stroke_linecap="round" if len(curve.place) == 1 or not dash else "butt",
            stroke_dasharray=dash or None,
        )


def _spells(spells: Sequence[Spell], across: Span, up: Span, font_px: float, theme: Theme) -> Iterator[str]:
    for spell in spells:
        start, end = across.to_px(spell.start), across.to_px(spell.end)
        yield line((end, up.start_px), (end, up.end_px), stroke=theme.far_line, stroke_width=0.07 * font_px)
        if text_width_px(spell.label, font_px) < end - start:
            place = (0.5 * (start + end), up.start_px - 0.5 * font_px)
            yield text(spell.label, *place, font_px, theme, theme.soft_ink)


def _wanted(chart: Chart, across: Span, up: Span, font_px: float, theme: Theme) -> str:
    if chart.wanted is None:
        return ""
    y = up.to_px(chart.wanted)
    shown = f"wanted {chart.wanted * chart.up.factor:.0f}{' %' if chart.up.unit.startswith('%') else ''}"
    return line(
        (across.start_px, y),
        (across.end_px, y),
        stroke=theme.ochre,
        stroke_width=0.13 * font_px,
        stroke_dasharray=f"{0.5 * font_px:.2f} {0.3 * font_px:.2f}",
    ) + text(shown, across.end_px, y - 0.45 * font_px, font_px, theme, theme.ochre_text, "end")


def describe_chart(chart: Chart) -> str:
    """The chart in words: each curve's ends, the load wanted, and what is barred and why."""
    said = []
    for curve in chart.curves:
        ends = [
            f"{value * chart.up.factor:.0f} at {place * chart.across.factor:.3g}".replace("-", "−")
            for place, value in ((curve.place[0], curve.value[0]), (curve.place[-1], curve.value[-1]))
        ]
        said.append(f"{curve.label or chart.up.name}: {ends[0]} to {ends[1]}.")
    if chart.wanted is not None:
        said.append(f"Wanted: {chart.wanted * chart.up.factor:.0f} {chart.up.unit}.")
    for one in chart.barred:
        low, high = (f"{edge * chart.across.factor:.3g}".replace("-", "−") for edge in (one.low, one.high))
        said.append(f"Not possible from {low} to {high}: {one.reason}.")
    return f"{chart.up.words} over {chart.across.words}. " + " ".join(said)
