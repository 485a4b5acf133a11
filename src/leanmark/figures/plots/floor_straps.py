"""The straps on a floor chart: each setting as a line with its name, hatched while it is set anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final

import altair as alt

from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.picture import Canvas, Rows

_BAND: Final = 1.7  # letter heights, own figures
_SECOND_LINE: Final = 1.1
_SMALL: Final = 0.82


@dataclass(frozen=True)
class StrapSpell:
    """A strap at one setting: row, setting by name, when it begins to be set, first to last set on it [s]."""

    row: str
    setting: str
    change_from_s: float
    start_s: float
    end_s: float


def straps_height(straps: Sequence[StrapSpell], s_per_px: float, font_px: float) -> float:
    """Height of the straps' band in letter heights: names take two lines in turn where one is too short."""
    for own in _by_row(straps):
        for one, after in pairwise(own):
            if one.start_s + s_per_px * text_width_px(one.setting, font_px) > after.change_from_s:
                return _BAND + _SECOND_LINE
    return _BAND


def strap_layers(
    canvas: Canvas, tops: Mapping[str, float], straps: Sequence[StrapSpell], band: float
) -> list[alt.Chart]:
    """The bands of all rows. tops: where each row begins; band: from ``straps_height``."""
    if not straps:
        return []
    look, font = canvas.look, canvas.look.font_px
    lines: Rows = [_box(one, one.start_s, one.end_s, tops, (band - 0.25, band - 0.25)) for one in straps]
    changes: Rows = [
        _box(one, one.change_from_s, one.start_s, tops, (band - 0.1, band - 1.5))
        for one in straps
        if one.start_s > one.change_from_s
    ]
    lifted = _SECOND_LINE if band > _BAND else 0.0
    names: Rows = [
        {
            "x": one.start_s / 60.0,
            "y": tops[one.row] + band - 0.35 - lifted * (number % 2),
            "words": one.setting,
        }
        for own in _by_row(straps)
        for number, one in enumerate(own)
    ]
    small, colour = _SMALL * font, look.colours.ochre_text
    return [
        canvas.boxes(changes, look.fill("barred"), look.colours.far_line, 0.08 * font),
        canvas.lines(lines, look.colours.ochre, 0.22 * font),
        canvas.halos(names, "left", baseline="bottom", dx=0.2 * font, fontSize=small),
        canvas.texts(names, "left", baseline="bottom", dx=0.2 * font, fontSize=small, color=colour),
    ]


def _by_row(straps: Sequence[StrapSpell]) -> Iterator[list[StrapSpell]]:
    for _, own in groupby(sorted(straps, key=lambda one: (one.row, one.start_s)), key=lambda one: one.row):
        yield list(own)


def _box(
    one: StrapSpell, start_s: float, end_s: float, tops: Mapping[str, float], edges: tuple[float, float]
) -> dict[str, float]:
    top = tops[one.row]
    return {"x": start_s / 60.0, "x2": end_s / 60.0, "y": top + edges[0], "y2": top + edges[1]}
