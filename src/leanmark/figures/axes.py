"""Axes of a chart: round ticks, their numbers and units, and the map from values to pixels."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from leanmark.figures.labels import text, text_width_px
from leanmark.figures.svg import line
from leanmark.figures.theme import Theme

ROUND_STEPS: Final = (1.0, 2.0, 5.0, 10.0)


@dataclass(frozen=True)
class Axis:
    """What an axis shows: its name, its unit, and the factor from the SI value to that unit."""

    name: str
    unit: str
    factor: float = 1.0

    @property
    def words(self) -> str:
        """Name and unit, as they stand beside the axis."""
        return f"{self.name}, {self.unit}" if self.unit else self.name


@dataclass(frozen=True)
class Span:
    """An axis laid out: values ``low`` to ``high`` (SI) on pixels ``start_px`` to ``end_px``, ticks in the
    axis's own unit every ``step``."""

    axis: Axis
    low: float
    high: float
    start_px: float
    end_px: float
    step: float

    def to_px(self, value: float) -> float:
        """The pixel of an SI value."""
        share = (value - self.low) / (self.high - self.low)
        return self.start_px + share * (self.end_px - self.start_px)

    def ticks(self) -> list[tuple[float, str]]:
        """Pixels and shown numbers of the ticks inside the span."""
        low, high = self.low * self.axis.factor, self.high * self.axis.factor
        first, last = math.ceil(low / self.step - 1e-9), math.floor(high / self.step + 1e-9)
        places = max(0, -math.floor(math.log10(self.step) + 1e-9))
        return [
            (self.to_px(row * self.step / self.axis.factor), shown_number(row * self.step, places))
            for row in range(first, last + 1)
        ]


def shown_number(value: float, places: int) -> str:
    """A number with a real minus sign and no negative zero."""
    shown = f"{abs(value):.{places}f}"
    return f"−{shown}" if value < 0.0 and float(shown) > 0.0 else shown


def round_step(size: float, most: int) -> float:
    """The smallest of 1, 2 or 5 times a power of ten that cuts ``size`` into at most ``most`` parts."""
    rough = size / max(most, 1)
    power = 10.0 ** math.floor(math.log10(rough))
    return next(step * power for step in ROUND_STEPS if step * power >= rough * (1.0 - 1e-9))


def span(
    axis: Axis, low: float, high: float, start_px: float, end_px: float, gap_px: float, widen: bool
) -> Span:
    """Lay out an axis with ticks at least ``gap_px`` apart; ``widen`` takes the ends out to whole ticks.

    Equal ends are parted by one unit, so that a chart of a single value can be drawn.
    """
    if not high > low:
        high = low + 1.0 / axis.factor
    step = round_step((high - low) * axis.factor, int(abs(end_px - start_px) / gap_px))
    if widen:
        unit = step / axis.factor
        low, high = math.floor(low / unit + 1e-9) * unit, math.ceil(high / unit - 1e-9) * unit
    return Span(axis, low, high, start_px, end_px, step)


def paint_axes(across: Span, up: Span, font_px: float, theme: Theme) -> str:
    """Hairlines for the values, ticks for the places, numbers, and the words of both axes."""
    left, right = across.start_px, across.end_px
    bottom, top = up.start_px, up.end_px
    parts = []
    for y, shown in up.ticks():
        parts.append(line((left, y), (right, y), stroke=theme.hairline, stroke_width=0.06 * font_px))
        place = (left - 0.4 * font_px, y + 0.35 * font_px)
        parts.append(text(shown, *place, font_px, theme, theme.soft_ink, "end"))
    for x, shown in across.ticks():
        end = bottom + 0.35 * font_px
        parts.append(line((x, bottom), (x, end), stroke=theme.ink, stroke_width=0.08 * font_px))
        parts.append(text(shown, x, bottom + 1.4 * font_px, font_px, theme, theme.soft_ink))
    parts.append(line((left, bottom), (right, bottom), stroke=theme.ink, stroke_width=0.11 * font_px))
    width = 0.5 * text_width_px(across.axis.words, font_px)
    middle = min(max(0.5 * (left + right), width), right + 0.5 * font_px - width)
    parts.append(text(across.axis.words, middle, bottom + 2.7 * font_px, font_px, theme))
    parts.append(text(up.axis.words, 0.3 * font_px, top - 0.7 * font_px, font_px, theme, anchor="start"))
    return "".join(parts)
