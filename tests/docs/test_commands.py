"""Every ``$ leanmark`` command of the pages runs, and prints what the page shows."""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.docs.pages import PAGES, ROOT, Command, commands, page_name

RUN = "import sys; from leanmark.cli.main import main; sys.argv[0] = 'leanmark'; sys.exit(main())"
LEFT_OUT = "..."
SPOKEN = {page: found for page in PAGES if (found := commands(page.read_text(encoding="utf-8")))}


def test_readme_shows_how_to_make_cards() -> None:
    assert any(command.text.startswith("leanmark cards ") for command in SPOKEN[ROOT / "README.md"])


@pytest.mark.parametrize("page", SPOKEN, ids=page_name)
def test_printed_commands_run(page: Path, tmp_path: Path) -> None:
    """The commands of one page run one after another, in one copy of the demo."""
    shutil.copytree(ROOT / "demo", tmp_path / "demo")
    for command in SPOKEN[page]:
        place = f"{page_name(page)}:{command.line_number} $ {command.text}"
        ran = subprocess.run(
            [sys.executable, "-W", "error", "-c", RUN, *shlex.split(command.text)[1:]],
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT / "src")},
            capture_output=True,
            text=True,
            timeout=600,
            check=False,
        )
        assert ran.returncode == 0, f"{place} left with {ran.returncode}:\n{ran.stdout}{ran.stderr}"
        missing = lines_not_printed(command, ran.stdout)
        assert not missing, f"{place} did not print {missing}, but:\n{ran.stdout}"


def lines_not_printed(command: Command, output: str) -> list[str]:
    """Lines that the page shows and that do not come, in this order, in the output."""
    printed = iter([" ".join(line.split()) for line in output.splitlines()])
    wanted = [" ".join(line.split()) for line in command.shown if line.strip() != LEFT_OUT]
    return [line for line in wanted if line not in printed]


def test_shown_lines_must_come_in_order() -> None:
    command = Command(1, "leanmark mark row", ("first", "...", "last"))
    assert lines_not_printed(command, "first\nmiddle\nlast\n") == []
    assert lines_not_printed(command, "last\nfirst\n") == ["last"]
