from __future__ import annotations

import pytest

from leanmark.figures.project import VIEWS, Frame
from leanmark.figures.style import Style
from leanmark.figures.theme import THEMES


@pytest.mark.parametrize(("scale", "line_px"), [(20.0, 0.6), (80.0, 0.8), (400.0, 1.08)])
def test_lines_thin_on_small_figures_within_bounds(scale: float, line_px: float) -> None:
    # own figures: a hundredth of a metre, between 0.05 and 0.09 of the letters' 12 px
    style = Style(VIEWS["side"], Frame(scale, (0.0, 0.0), 1.0, 1.0), THEMES["light"], "metric", 12.0)
    assert style.line_px == pytest.approx(line_px)
    assert style.strap_px > style.line_px
