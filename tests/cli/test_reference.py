"""The command reference is what the commands say of themselves."""

from __future__ import annotations

import re

from tests.cli.ask import ask
from tests.docs.pages import ROOT

from leanmark.cli.reference import PAGE, page

TEXT = (ROOT / "docs" / PAGE).read_text(encoding="utf-8")
COMMANDS = (
    "moves", "moves show", "moves ladder", "moves cards", "moves pictures", "moves animate", "moves check",
    "moves schema", "load", "mark", "chart", "calibrate", "cards",
)  # fmt: skip


def test_the_page_is_current() -> None:
    assert page() == TEXT, "write it anew: python -m leanmark.cli.reference docs"


def test_every_option_of_the_help_is_on_the_page() -> None:
    for command in COMMANDS:
        options = set(re.findall(r"--[a-z]+(?:-[a-z]+)*", ask(*command.split(), "--help").out)) - {"--help"}
        missing = {option for option in options if f"`{option}`" not in TEXT}
        assert f"## leanmark {command}\n" in TEXT
        assert options
        assert not missing, command
