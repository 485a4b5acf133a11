"""What the template must keep whatever else changes: no letter below seven points."""

from __future__ import annotations

import re
from importlib import resources

from leanmark.sheets.cards import FIGURE_FONT_PX, TEMPLATE

SOURCE = resources.files("leanmark.sheets").joinpath(TEMPLATE).read_text(encoding="utf-8")
LEAST_PT = 7.0


def test_no_size_is_below_seven_points() -> None:
    sizes = [float(value) for value in re.findall(r"size: ?(?:if [^{]*\{ )?([\d.]+)pt", SOURCE)]
    assert sizes
    assert min(sizes) >= LEAST_PT
    assert "#let small = 7pt" in SOURCE


def test_letters_only_ever_grow() -> None:
    growths = [float(value) for value in re.findall(r"text: ([\d.]+)", SOURCE)]
    assert growths
    assert min(growths) >= 1.0
    assert FIGURE_FONT_PX >= LEAST_PT
