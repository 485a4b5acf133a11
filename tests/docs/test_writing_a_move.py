"""The worked example: its files are the demo's, its slips are found as shown, its tables are current."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask
from tests.docs.pages import ROOT, samples

from leanmark.moves.fields_page import PAGE, fill

TEXT = (ROOT / "docs" / PAGE).read_text("utf-8")
OWN = ROOT / "demo" / "own-moves"
SLIPS = (("- {patch: sole, width: 1.2}", "- {patch: soles, width: 1.2}"), ("flexion: 5}", "flexion: 200}"))


def shown(language: str, first: str) -> list[str]:
    """The lines of the sample that starts with a line, without that line."""
    (found,) = (lines[1:] for kind, _, lines in samples(TEXT) if kind == language and lines[0] == first)
    return found


@pytest.mark.parametrize("path", sorted(OWN.iterdir()), ids=lambda path: path.stem)
def test_the_pages_files_are_the_demos(path: Path) -> None:
    assert shown("yaml", f"# demo/own-moves/{path.name}") == path.read_text("utf-8").splitlines()


def test_the_slips_are_found_as_shown_and_gone_once_mended(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    path = Path("my-moves") / "straight-arm-pull.yaml"
    path.parent.mkdir()
    right = (OWN / path.name).read_text("utf-8")
    start, end = right.split("  end:\n", 1)
    wrong = start.replace(*SLIPS[0]) + "  end:\n" + end.replace(*SLIPS[1], 1)
    assert all(f"`{slip}`" in TEXT for slip in (SLIPS[0][1], "elbow: {flexion: 200}"))
    path.write_text(wrong, "utf-8")
    said = ask("moves", "check", path)
    assert said.code == 2
    assert said.err.splitlines() == shown("text", f"$ leanmark moves check {path.as_posix()}")
    path.write_text(right, "utf-8")
    assert ask("moves", "check", path).code == 0


def test_the_tables_of_fields_are_current() -> None:
    assert fill(TEXT) == TEXT, "write them anew: python -m leanmark.moves.fields_page docs"
