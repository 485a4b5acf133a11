"""A small move file for tests to change: a copy of the demo's, and what a check says of it."""

from __future__ import annotations

from typing import Final

from tests.docs.pages import ROOT

from leanmark.moves.check.files import Checked, checked
from leanmark.moves.problems import MoveFileError
from leanmark.moves.source import parse

OWN_MOVES: Final = ROOT / "demo" / "own-moves"
PULL: Final = (OWN_MOVES / "straight-arm-pull.yaml").read_text("utf-8")
PAUSED: Final = (OWN_MOVES / "paused-row.yaml").read_text("utf-8")


def changed(old: str, new: str, text: str = PULL) -> str:
    """The file with one piece replaced, which must be there."""
    assert old in text, old
    return text.replace(old, new, 1)


def check_text(text: str) -> Checked:
    """The file checked as far as its fields."""
    return checked(parse(text.encode(), "pull.yaml"))


def said(text: str) -> list[str]:
    """What is said of the file, one line a problem."""
    try:
        return [str(problem) for problem in check_text(text).check.problems]
    except MoveFileError as error:
        return [str(problem) for problem in error.problems]


def line_of(piece: str, text: str) -> int:
    """The line of the first place where a piece of the file stands."""
    return text[: text.index(piece)].count("\n") + 1


NEEDED_TEXTS = """
works: {shoulder flexion: [anterior deltoid]}
not-for: [anyone in pain]
stop: [pain]
breathing: out on the way up
lever: arms long
faults:
  - {fault: too fast, remedy: slower}
  - {fault: too far, remedy: stop earlier}
"""
"""Fields of words that every move needs, where a test is about others."""
