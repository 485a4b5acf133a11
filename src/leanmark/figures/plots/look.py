"""The one look of all charts: paper and ink, the size of the letters, and the fills that tell kinds apart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np

from leanmark.figures.svg import element, path_data
from leanmark.figures.theme import Theme, ThemeName, theme_by_name

Fill = Literal["tint", "hatched", "dotted", "barred"]
"""``barred`` is the hatching over spans of time, in grey; the others fill bars."""
_TILE: Final = 0.55  # own figures: sides of the patterns' tiles and width of lines in letter heights
_WIDE_TILE: Final = 0.9
_STROKE: Final = 0.1


@dataclass(frozen=True)
class Look:
    """width_px: of the whole chart; font_px: height of its letters; theme: by name. A pixel becomes a point
    on paper."""

    width_px: float = 540.0
    font_px: float = 9.0
    theme: ThemeName = "print"

    @property
    def colours(self) -> Theme:
        """The colours by what they say.

        Raises:
            ValueError: there is no such theme.
        """
        return theme_by_name(self.theme)

    def fill(self, kind: Fill) -> str:
        """What an SVG shape is filled with; a pattern is named, and ``patterns`` draws it."""
        if kind == "tint":
            return self.colours.accent_tint
        return f"url(#{self._pattern(kind)})"

    def _pattern(self, kind: Fill) -> str:
        return f"{kind}-{self.theme}-{round(10.0 * self.font_px)}"

    def patterns(self) -> str:
        """The definitions of all patterns, as SVG."""
        tile, wide, width = _TILE * self.font_px, _WIDE_TILE * self.font_px, _STROKE * self.font_px
        ground = element("rect", width=tile, height=tile, fill=self.colours.ground)
        dot = element("circle", cx=0.5 * tile, cy=0.5 * tile, r=1.3 * width, fill=self.colours.ochre)
        return element(
            "defs",
            self._tile("hatched", tile, ground + _slant(tile, self.colours.accent, 1.4 * width))
            + self._tile("dotted", tile, ground + dot)
            + self._tile("barred", wide, _slant(wide, self.colours.far_line, 0.6 * width)),
        )

    def _tile(self, kind: Fill, size: float, inside: str) -> str:
        return element(
            "pattern", inside, id=self._pattern(kind), width=size, height=size, patternUnits="userSpaceOnUse"
        )

    def config(self) -> dict[str, Any]:
        """Vega-Lite's ``config`` of every chart."""
        return {
            "font": self.colours.font_family,
            "background": self.colours.ground,
            "text": {"fontSize": self.font_px, "color": self.colours.ink},
            "view": {"stroke": None},
        }


def _slant(tile: float, colour: str, width: float) -> str:
    """A line through a tile's corners and a little beyond, and its neighbours' at the other corners, so that
    tiles join without a gap."""
    lines = [
        np.array([[low * tile, (high + 0.2) * tile], [(high + 0.2) * tile, low * tile]])
        for low, high in ((-0.2, 1.0), (-0.7, 0.5), (0.3, 1.5))
    ]
    drawn = "".join(path_data(line, closed=False) for line in lines)
    return element("path", d=drawn, stroke=colour, stroke_width=width)
