"""The load wave: how high the load stands, session by session, with deload weeks hatched and named."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Final

import altair as alt
import numpy as np

from leanmark.figures.axes import round_step
from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.look import Look
from leanmark.figures.plots.picture import Canvas, data_of
from leanmark.figures.plots.said import weeks_words
from leanmark.mechanics.arrays import Floats

SHAPES: Final = ("circle", "square", "triangle-up", "diamond")
_DASHES: Final = ((), (0.7, 0.35), (0.15, 0.3), (1.2, 0.3, 0.2, 0.3))
"""Line and point of each curve, in order; dashes in letter heights."""
_TICKS: Final = 6


def load_wave(
    place_weeks: Floats,
    curves: Mapping[str, Floats],
    weeks: int,
    look: Look,
    deload_weeks: Collection[int] = (),
) -> str:
    """Shares over the weeks of a cycle as SVG text.

    place_weeks: (N,) when each session is, in weeks, week 1 from 1 to 2; curves: names with shares (N,),
    shown in %; weeks: of the cycle; deload_weeks: by number from 1.

    Raises:
        ValueError: no curve, no session, more curves than can be told apart, a curve of another length, or a
            value that is not finite.
    """
    _check(place_weeks, curves)
    canvas = _canvas(curves, weeks, look)
    layers = [*_deload(canvas, deload_weeks), *_frame(canvas, weeks)]
    for row, (name, values) in enumerate(curves.items()):
        layers += _curve(canvas, row, place_weeks, values)
        layers += _key(canvas, row, name)
    return canvas.svg(layers, "Load wave", _describe(place_weeks, curves, weeks, deload_weeks))


def _check(place_weeks: Floats, curves: Mapping[str, Floats]) -> None:
    if not curves or len(curves) > len(SHAPES) or len(place_weeks) == 0:
        raise ValueError(f"give one to {len(SHAPES)} curves over at least one session")
    for name, values in curves.items():
        if np.shape(values) != np.shape(place_weeks) or not np.all(np.isfinite(values)):
            raise ValueError(
                f"curve {name!r} must hold one finite share for each of {len(place_weeks)} sessions"
            )


def _canvas(curves: Mapping[str, Floats], weeks: int, look: Look) -> Canvas:
    font = look.font_px
    most = 100.0 * max(float(np.max(values)) for values in curves.values())
    step = round_step(max(most, 1.0), _TICKS)
    top = step * np.ceil(max(most, step) / step - 1e-9)
    left = 1.1 * text_width_px(f"{top:.0f} %", font) + 0.5 * font
    above = (1.5 * len(curves) + 0.7) * font
    height = max(13.0 * font, 0.16 * look.width_px)
    return Canvas(look, height, left, 0.4 * font, above, 2.9 * font, (1.0, weeks + 1.0), (0.0, float(top)))


def _frame(canvas: Canvas, weeks: int) -> list[alt.Chart]:
    """The axes: per cent up, weeks across with their numbers between the lines that part them."""
    look, font = canvas.look, canvas.look.font_px
    soft, step = look.colours.soft_ink, round_step(canvas.up[1], _TICKS)
    ticks = [value * step for value in range(round(canvas.up[1] / step) + 1)]
    walls = [{"x": week, "x2": week, "y": 0.0, "y2": canvas.up[1]} for week in range(1, weeks + 2)]
    levels = [{"x": 1.0, "x2": weeks + 1.0, "y": level, "y2": level} for level in ticks[1:]]
    shares = [{"x": 1.0, "y": level, "words": f"{level:.0f} %"} for level in ticks]
    numbers = [{"x": week + 0.5, "y": 0.0, "words": str(week)} for week in range(1, weeks + 1)]
    name = {"x": 1.0, "y": 0.0, "words": "week"}
    ground = {"x": 1.0, "x2": weeks + 1.0, "y": 0.0, "y2": 0.0}
    return [
        canvas.lines([*walls, *levels], look.colours.hairline, 0.06 * font),
        canvas.lines([ground], look.colours.ink, 0.1 * font),
        canvas.texts(shares, "right", baseline="middle", dx=-0.4 * font, color=soft),
        canvas.texts(numbers, "center", baseline="top", dy=0.4 * font, color=soft),
        canvas.texts([name], "left", baseline="top", dy=1.6 * font, color=soft),
    ]


def _curve(canvas: Canvas, row: int, place_weeks: Floats, values: Floats) -> list[alt.Chart]:
    rows = [
        {"x": place, "y": 100.0 * value}
        for place, value in zip(place_weeks.tolist(), np.asarray(values).tolist(), strict=True)
    ]
    return _drawn(canvas, row, rows)


def _drawn(canvas: Canvas, row: int, rows: list[dict[str, float]]) -> list[alt.Chart]:
    """A line through points, its points filled where the curve is the first."""
    font, colours = canvas.look.font_px, canvas.look.colours
    colour = (colours.accent, colours.ochre_text)[row % 2]
    both = alt.Chart(data_of(rows)).encode(x=canvas.x("x"), y=canvas.y("y"))
    dash = [part * font for part in _DASHES[row]] or [1, 0]
    line = both.mark_line(color=colour, strokeWidth=0.17 * font, strokeDash=dash, clip=False)
    point = both.mark_point(
        shape=SHAPES[row],
        size=(0.62 * font) ** 2,
        fill=colour if row == 0 else colours.ground,
        stroke=colour,
        strokeWidth=0.12 * font,
        opacity=1,
        clip=False,
    )
    return [line, point]


def _key(canvas: Canvas, row: int, name: str) -> list[alt.Chart]:
    """A sample of the curve and its name, above the chart."""
    font = canvas.look.font_px
    per_px = canvas.up[1] / canvas.height_px
    week_px = canvas.width_px / (canvas.across[1] - canvas.across[0])
    y = canvas.up[1] + (canvas.top_px - (1.0 + 1.5 * row) * font) * per_px
    ends = [{"x": 1.0 + at * font / week_px, "y": y} for at in (0.0, 1.3, 2.6)]
    words = {"x": ends[-1]["x"], "y": y, "words": name}
    return [
        *_drawn(canvas, row, ends),
        canvas.texts([words], "left", baseline="middle", dx=0.7 * font),
    ]


def _deload(canvas: Canvas, deload_weeks: Collection[int]) -> list[alt.Chart]:
    """Hatching over deload weeks, and what it says."""
    font, top = canvas.look.font_px, canvas.up[1]
    inside = [week for week in sorted(deload_weeks) if 1 <= week < canvas.across[1]]
    if not inside:
        return []
    boxes = [{"x": week, "x2": week + 1.0, "y": 0.0, "y2": top} for week in inside]
    key = {"x": canvas.across[1], "y": 0.0, "words": f"hatched: deload ({weeks_words(inside)})"}
    soft = canvas.look.colours.soft_ink
    return [
        canvas.boxes(boxes, canvas.look.fill("barred"), None, 0.0),
        canvas.texts([key], "right", baseline="top", dy=1.6 * font, color=soft),
    ]


def _describe(
    place_weeks: Floats, curves: Mapping[str, Floats], weeks: int, deload_weeks: Collection[int]
) -> str:
    said = [f"Load over {weeks} weeks, {len(place_weeks)} sessions."]
    for name, values in curves.items():
        first, last, most = (100.0 * float(value) for value in (values[0], values[-1], np.max(values)))
        said.append(f"{name}: {first:.0f} % at first, {last:.0f} % at last, {most:.0f} % at most.")
    if deload_weeks:
        said.append(f"Deload: {weeks_words(deload_weeks)}.")
    return " ".join(said)
