"""The choices that every part of a figure shares."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leanmark.figures.project import Frame, View
from leanmark.figures.theme import Theme
from leanmark.units import UnitSystem


@dataclass(frozen=True)
class Style:
    """view: which way one looks; frame: metres to pixels; font_px: size of the letters, from which line
    widths follow; units: of the ruler and the words."""

    view: View
    frame: Frame
    theme: Theme
    units: UnitSystem
    font_px: float

    @property
    def line_px(self) -> float:
        """The body's outline: thinner on a small figure, that its shapes stay open."""
        return float(np.clip(0.010 * self.frame.px_per_m, 0.05 * self.font_px, 0.09 * self.font_px))

    @property
    def strap_px(self) -> float:
        """The strap."""
        return 1.9 * self.line_px


@dataclass(frozen=True)
class Drawable:
    """Markup with its place in the order of painting: far before near [m], then by rank."""

    depth_m: float
    rank: int
    markup: str
