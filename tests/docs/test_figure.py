"""The overview's figure is what the command draws today."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from leanmark.cli.app import app

ROOT = Path(__file__).parents[2]
FIGURE = ROOT / "docs" / "figures" / "row.svg"
COMMAND = ("load", "row", "--stature", "178 cm", "--mass", "75 kg", "--sex", "female", "--figure")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_ROUNDING_PX = 0.3
"""Coordinates are written to a tenth of a pixel; solvers on other processors may round the last digit apart,
and a path's relative steps carry it twice."""


def test_the_overviews_figure_is_current(tmp_path: Path) -> None:
    fresh = tmp_path / "row.svg"
    result = CliRunner().invoke(app, [*COMMAND, str(fresh)])
    assert result.exit_code == 0, result.output
    drawn, kept = fresh.read_text("utf-8"), FIGURE.read_text("utf-8")
    again = f"draw it again: leanmark {' '.join(COMMAND)} docs/figures/row.svg"
    assert _NUMBER.sub("#", drawn) == _NUMBER.sub("#", kept), again
    numbers = [[float(found) for found in _NUMBER.findall(text)] for text in (drawn, kept)]
    assert numbers[0] == pytest.approx(numbers[1], abs=_ROUNDING_PX), again
