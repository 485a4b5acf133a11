"""Rows of bars, week by week, at one scale, with every number written: two charts are made of them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

import altair as alt
import numpy as np

from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.look import Fill, Look
from leanmark.figures.plots.picture import Canvas, Rows
from leanmark.figures.plots.said import listed, weeks_words
from leanmark.mechanics.arrays import Floats, Ints

_ROW: Final = 2.6  # letter heights, own figures
_TOTALS: Final = 1.6 / _ROW
_WEEKS: Final = 2.0 / _ROW
_BAR_SHARE: Final = 0.52
_BAR_WIDTH: Final = 0.6
_STAGE_FILLS: Final[tuple[Fill, ...]] = ("tint", "hatched", "dotted")


def weekly_sets(
    families: Sequence[str], sets: Ints | Floats, look: Look, deload_weeks: Collection[int] = ()
) -> str:
    """Sets of each move family, week by week, as SVG text.

    families: F names; sets: (F, W), week 1 first; deload_weeks: planned easier weeks, by number from 1.
    Where the width does not hold all weeks they go on in a band below.

    Raises:
        ValueError: ``sets`` has another shape, nothing in it, or a number that is negative or not finite.
    """
    fills: list[Fill] = ["tint"] * len(families)
    return _row_bars("Sets a week by move family", families, sets, fills, look, deload_weeks)


def speed_stages(
    stages: Sequence[str], reps: Ints | Floats, look: Look, deload_weeks: Collection[int] = ()
) -> str:
    """Reps at each speed stage, week by week, as SVG text: S stages, reps (S, W); otherwise as
    ``weekly_sets``."""
    fills = [_STAGE_FILLS[row % len(_STAGE_FILLS)] for row in range(len(stages))]
    return _row_bars("Reps a week by speed stage", stages, reps, fills, look, deload_weeks)


@dataclass(frozen=True)
class _Band:
    """Some of the weeks. table: (rows, weeks); first: number of the first; top: where the band begins, in
    rows; deload: which of its weeks are planned easier ones."""

    canvas: Canvas
    table: Floats
    most: float
    first: int
    top: float
    deload: tuple[int, ...]

    @property
    def rows(self) -> int:
        return len(self.table)

    @property
    def foot(self) -> float:
        """Under the totals."""
        return self.top + self.rows + _TOTALS

    def head(self, row: int, week: int) -> float:
        """The upper edge of a bar."""
        return self.top + row + 1.0 - _BAR_SHARE * float(self.table[row, week]) / self.most


def _row_bars(
    title: str,
    names: Sequence[str],
    values: Ints | Floats,
    fills: Sequence[Fill],
    look: Look,
    deload_weeks: Collection[int],
) -> str:
    table = np.asarray(values, dtype=float)
    _check(names, table)
    bands = _bands(names, table, look, deload_weeks)
    layers: list[alt.Chart] = []
    for band in bands:
        layers += [*_deload(band), *(_bars(band, fills, fill) for fill in dict.fromkeys(fills))]
        layers += [_grounds(band), *_numbers(band), _names(band, (*names, "all", "week"))]
    if deload_weeks:
        layers.append(_key(bands[-1], deload_weeks))
    return bands[0].canvas.svg(layers, title, _describe(title, names, table, deload_weeks))


def _check(names: Sequence[str], table: Floats) -> None:
    if table.ndim != 2 or table.shape[0] != len(names) or table.size == 0:
        wanted = f"({len(names)}, weeks), with at least one of each"
        raise ValueError(f"the bars have the shape {table.shape}; they must be {wanted}")
    if not np.all(np.isfinite(table)) or table.min() < 0.0:
        raise ValueError("a bar is negative or not finite; give counts")


def _bands(
    names: Sequence[str], table: Floats, look: Look, deload_weeks: Collection[int]
) -> tuple[_Band, ...]:
    """The weeks in as many bands as the width asks for, all of one length but perhaps the last."""
    font, weeks = look.font_px, table.shape[1]
    left = max(text_width_px(name, 0.92 * font) for name in (*names, "week")) + 0.8 * font
    left = min(left, 0.42 * look.width_px)
    widest = max(len(f"{value:g}") for value in [*table.ravel().tolist(), *table.sum(axis=0).tolist()])
    each_px = text_width_px("0" * widest, font) + 0.6 * font
    count = ceil(weeks / max(int((look.width_px - left - 0.3 * font) / each_px), 1))
    each = ceil(weeks / count)
    high = len(names) + _TOTALS + _WEEKS
    canvas = Canvas(
        look,
        (count * high - _WEEKS) * _ROW * font,
        left,
        0.3 * font,
        0.4 * font,
        2.9 * font,
        (0.5, each + 0.5),
        (count * high - _WEEKS, 0.0),
    )
    most = max(float(table.max()), 1.0)
    return tuple(
        _Band(
            canvas,
            table[:, at : at + each],
            most,
            at + 1,
            number * high,
            tuple(week for week in sorted(deload_weeks) if at < week <= min(at + each, weeks)),
        )
        for number, at in enumerate(range(0, weeks, each))
    )


def _bars(band: _Band, fills: Sequence[Fill], fill: Fill) -> alt.Chart:
    """The bars of all rows of one fill."""
    look = band.canvas.look
    boxes = [
        {
            "x": week + 1 - 0.5 * _BAR_WIDTH,
            "x2": week + 1 + 0.5 * _BAR_WIDTH,
            "y": band.top + row + 1.0,
            "y2": band.head(row, week),
        }
        for row in range(band.rows)
        for week in range(band.table.shape[1])
        if fills[row] == fill and band.table[row, week] > 0.0
    ]
    stroke = look.colours.ochre_text if fill == "dotted" else look.colours.accent
    return band.canvas.boxes(boxes, look.fill(fill), stroke, 0.09 * look.font_px)


def _grounds(band: _Band) -> alt.Chart:
    low, high = band.canvas.across
    heights = [band.top + row for row in range(1, band.rows + 1)]
    lines = [{"x": low, "x2": high, "y": y, "y2": y} for y in heights]
    return band.canvas.lines(lines, band.canvas.look.colours.hairline, 0.08 * band.canvas.look.font_px)


def _numbers(band: _Band) -> list[alt.Chart]:
    """Over each bar its number, under the rows the totals and the weeks."""
    canvas, font = band.canvas, band.canvas.look.font_px
    over: Rows = [
        {"x": week + 1, "y": band.head(row, week), "words": f"{value:g}" if value else "–"}
        for row, values in enumerate(band.table.tolist())
        for week, value in enumerate(values)
    ]
    totals: Rows = [
        {"x": week, "y": band.foot - 0.5 * _TOTALS, "words": f"{value:g}"}
        for week, value in enumerate(band.table.sum(axis=0).tolist(), start=1)
    ]
    weeks: Rows = [
        {"x": week, "y": band.foot, "words": str(band.first + week - 1)}
        for week in range(1, band.table.shape[1] + 1)
    ]
    soft, lift = canvas.look.colours.soft_ink, -0.12 * font
    return [
        canvas.halos(over, "center", baseline="bottom", dy=lift),
        canvas.texts(over, "center", baseline="bottom", dy=lift),
        canvas.halos(totals, "center", baseline="middle", fontWeight="bold"),
        canvas.texts(totals, "center", baseline="middle", fontWeight="bold"),
        canvas.texts(weeks, "center", baseline="top", dy=0.35 * font, color=soft),
    ]


def _names(band: _Band, names: Sequence[str]) -> alt.Chart:
    """What each row is, and the rows of totals and of weeks."""
    canvas, font = band.canvas, band.canvas.look.font_px
    places = [*(band.top + row + 0.8 for row in range(band.rows)), band.foot - 0.5 * _TOTALS]
    places.append(band.foot + 0.8 / _ROW)
    left = canvas.across[0]
    texts = [{"x": left, "y": y, "words": name} for y, name in zip(places, names, strict=True)]
    return canvas.texts(texts, "right", baseline="middle", dx=-0.5 * font, limit=canvas.left_px - 0.6 * font)


def _key(band: _Band, deload_weeks: Collection[int]) -> alt.Chart:
    canvas, font = band.canvas, band.canvas.look.font_px
    row = {
        "x": canvas.across[1],
        "y": band.foot,
        "words": f"hatched column: deload ({weeks_words(deload_weeks)})",
    }
    return canvas.texts([row], "right", baseline="top", dy=1.6 * font, color=canvas.look.colours.soft_ink)


def _deload(band: _Band) -> list[alt.Chart]:
    places = [week - band.first + 1 for week in band.deload]
    boxes = [{"x": at - 0.48, "x2": at + 0.48, "y": band.top, "y2": band.foot} for at in places]
    return [band.canvas.boxes(boxes, band.canvas.look.fill("barred"), None, 0.0)] if boxes else []


def _describe(title: str, names: Sequence[str], table: Floats, deload_weeks: Collection[int]) -> str:
    rows = [
        f"{name}: {listed([f'{value:g}' for value in values])}."
        for name, values in zip(names, table.tolist(), strict=True)
    ]
    deload = f" Deload: {weeks_words(deload_weeks)}." if deload_weeks else ""
    return f"{title}, week 1 to {table.shape[1]}. {' '.join(rows)}{deload}"
