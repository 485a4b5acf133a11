"""The overview's figure says what the command says today."""

from __future__ import annotations

import re
from pathlib import Path

from typer.testing import CliRunner

from leanmark.cli.app import app

ROOT = Path(__file__).parents[2]
FIGURE = ROOT / "docs" / "figures" / "row.svg"
COMMAND = ("load", "row", "--stature", "178 cm", "--mass", "75 kg", "--sex", "female", "--figure")
_WORDS = re.compile(r"<(?:text|title|desc)\b[^>]*>([^<]*)<")


def words(svg: str) -> list[str]:
    """All that a figure says: its title, its description and every label."""
    return _WORDS.findall(svg)


def test_the_overviews_figure_is_current(tmp_path: Path) -> None:
    # Words, not outlines: an outline gains or loses a corner with the last digit of a pose.
    fresh = tmp_path / "row.svg"
    result = CliRunner().invoke(app, [*COMMAND, str(fresh)])
    assert result.exit_code == 0, result.output
    said, kept = words(fresh.read_text("utf-8")), words(FIGURE.read_text("utf-8"))
    assert len(said) > 10
    assert said == kept, f"draw it again: leanmark {' '.join(COMMAND)} docs/figures/row.svg"
