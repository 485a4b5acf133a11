"""The floor chart: who is where when, set by set, with the straps' settings and their changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import altair as alt

from leanmark.figures.axes import round_step
from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.floor_straps import StrapSpell, strap_layers, straps_height
from leanmark.figures.plots.look import Look
from leanmark.figures.plots.picture import Align, Canvas, Rows
from leanmark.figures.plots.said import listed

_LANE: Final = 2.35  # letter heights, own figures: a line of words over a bar
_GAP: Final = 0.7
_SMALL: Final = 0.82
_BOLD: Final = 1.12  # how much wider bold letters are, and how much narrower small print is than guessed
_NARROW: Final = 0.92


@dataclass(frozen=True)
class SetSpell:
    """Sets of one move: the row that they stand in, what is written over them, start and end of each [s]."""

    row: str
    label: str
    sets_s: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class _Placed:
    """at_end: the words end at the chart's right edge."""

    spell: SetSpell
    lane: int
    at_end: bool


def floor_chart(
    rows: Sequence[str],
    spells: Sequence[SetSpell],
    straps: Sequence[StrapSpell],
    look: Look,
    title: str = "Floor chart",
) -> str:
    """Sets over the minutes of a session as SVG text; rows: names from top to bottom. Spells of one row that
    overlap, or whose words would, go into lanes of their own.

    Raises:
        ValueError: no row, no set, a spell of a row that is not there, or a set that ends before it starts.
    """
    _check(rows, spells, straps)
    ends = [*(end for spell in spells for _, end in spell.sets_s), *(one.end_s for one in straps)]
    minutes, font = max(ends) / 60.0, look.font_px
    left = 0.8 * font + min(_BOLD * max(text_width_px(row, font) for row in rows), 0.3 * look.width_px)
    wide_px = look.width_px - left - 0.4 * font
    placed = {row: _lanes([one for one in spells if one.row == row], wide_px, minutes, font) for row in rows}
    band = straps_height(straps, 60.0 * minutes / wide_px, font)
    with_strap = {one.row for one in straps}
    tops, height = _tops(placed, {row: band if row in with_strap else 0.0 for row in rows})
    canvas = Canvas(
        look, height * font, left, 0.4 * font, 0.3 * font, 2.9 * font, (0.0, minutes), (height, 0.0)
    )
    layers = [*_frame(canvas, tops, minutes), *strap_layers(canvas, tops, straps, band)]
    for row, found in placed.items():
        layers += _set_layers(canvas, tops[row] + (band if row in with_strap else 0.0), found)
    return canvas.svg(layers, title, _describe(rows, spells, straps, minutes))


def _check(rows: Sequence[str], spells: Sequence[SetSpell], straps: Sequence[StrapSpell]) -> None:
    if not rows or not spells or any(not spell.sets_s for spell in spells):
        raise ValueError("the floor chart needs at least one row and one spell, each spell at least one set")
    for row in (*(one.row for one in spells), *(one.row for one in straps)):
        if row not in rows:
            raise ValueError(f"row {row!r} is not one of {listed([repr(name) for name in rows])}")
    if any(end < start or start < 0.0 for spell in spells for start, end in spell.sets_s):
        raise ValueError("a set must start at 0 s or later and end after it starts")


def _lanes(spells: Sequence[SetSpell], wide_px: float, minutes: float, font_px: float) -> list[_Placed]:
    """Each spell in the first lane that is free for its sets and its words; words that would run over the
    right edge end there."""
    per_s = wide_px / (60.0 * minutes)
    free_px: list[float] = []
    placed = []
    for spell in sorted(spells, key=lambda one: (one.sets_s[0], one.label)):
        first_px, last_px = spell.sets_s[0][0] * per_s, spell.sets_s[-1][1] * per_s
        words_px = _NARROW * text_width_px(spell.label, _SMALL * font_px)
        at_end = first_px + words_px > wide_px
        start_px = min(first_px, wide_px - words_px) if at_end else first_px
        end_px = wide_px if at_end else max(last_px, first_px + words_px)
        lane = next((at for at, free in enumerate(free_px) if free <= start_px), len(free_px))
        free_px[lane : lane + 1] = [end_px + 0.5 * font_px]
        placed.append(_Placed(spell, lane, at_end))
    return placed


def _tops(placed: dict[str, list[_Placed]], bands: dict[str, float]) -> tuple[dict[str, float], float]:
    """Where each row begins, and the whole height, in letter heights."""
    tops, at = {}, 0.0
    for row, found in placed.items():
        tops[row] = at
        lanes = max((one.lane for one in found), default=0) + 1
        at += lanes * _LANE + bands[row] + _GAP
    return tops, at


def _frame(canvas: Canvas, tops: dict[str, float], minutes: float) -> list[alt.Chart]:
    """Names of rows, lines between them, and the minutes."""
    look, font = canvas.look, canvas.look.font_px
    soft, foot = look.colours.soft_ink, canvas.up[0]
    step = max(round_step(minutes, max(int(canvas.width_px / (5.0 * font)), 1)), 1.0)
    times = [at * step for at in range(int(minutes / step + 1e-9) + 1)]
    across = [{"x": 0.0, "x2": minutes, "y": y, "y2": y} for y in (*tops.values(), foot)]
    up = [{"x": time, "x2": time, "y": 0.0, "y2": foot} for time in times]
    names = [{"x": 0.0, "y": y, "words": row} for row, y in tops.items()]
    numbers: Rows = [{"x": time, "y": foot, "words": f"{time:g}"} for time in times]
    words = [{"x": 0.5 * minutes, "y": foot, "words": "minutes from the start"}]
    return [
        canvas.lines([*across, *up], look.colours.hairline, 0.07 * font),
        canvas.texts(
            names,
            "right",
            baseline="top",
            dx=-0.5 * font,
            dy=0.35 * font,
            fontWeight="bold",
            limit=canvas.left_px - 0.6 * font,
        ),
        canvas.texts(numbers, "center", baseline="top", dy=0.35 * font, color=soft),
        canvas.texts(words, "center", baseline="top", dy=1.55 * font, color=soft),
    ]


def _set_layers(canvas: Canvas, top: float, placed: Sequence[_Placed]) -> list[alt.Chart]:
    if not placed:
        return []
    look, font = canvas.look, canvas.look.font_px
    boxes: Rows = [
        {
            "x": start / 60.0,
            "x2": end / 60.0,
            "y": top + one.lane * _LANE + 1.3,
            "y2": top + one.lane * _LANE + 2.2,
        }
        for one in placed
        for start, end in one.spell.sets_s
    ]
    return [
        canvas.boxes(boxes, look.fill("tint"), look.colours.accent, 0.08 * font),
        _labels(canvas, top, [one for one in placed if not one.at_end], "left"),
        _labels(canvas, top, [one for one in placed if one.at_end], "right"),
    ]


def _labels(canvas: Canvas, top: float, placed: Sequence[_Placed], align: Align) -> alt.Chart:
    words: Rows = [
        {
            "x": one.spell.sets_s[0][0] / 60.0 if align == "left" else canvas.across[1],
            "y": top + one.lane * _LANE + 1.25,
            "words": one.spell.label,
        }
        for one in placed
    ]
    return canvas.texts(words, align, baseline="bottom", fontSize=_SMALL * canvas.look.font_px)


def _describe(
    rows: Sequence[str], spells: Sequence[SetSpell], straps: Sequence[StrapSpell], minutes: float
) -> str:
    said = [f"Sets over {minutes:.0f} minutes."]
    for row in rows:
        own = sorted((one for one in spells if one.row == row), key=lambda one: one.sets_s[0])
        sets = [
            f"{one.label}, {one.sets_s[0][0] / 60.0:.0f} to {one.sets_s[-1][1] / 60.0:.0f} min" for one in own
        ]
        settings = [f"{one.setting} from {one.start_s / 60.0:.0f} min" for one in straps if one.row == row]
        strap = f" Strap: {'; '.join(settings)}." if settings else ""
        said.append(f"{row}: {'; '.join(sets) or 'nothing'}.{strap}")
    return " ".join(said)
