"""The generated parts of ``docs/writing-a-move.md``: every field of a move file.

``python -m leanmark.moves.fields_page docs`` writes them anew; a test says when they are behind the code.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

from msgspec import inspect

from leanmark.moves.check.field_words import FIELD_WORDS
from leanmark.moves.check.fields import INHERITING, fields_of, needs_of, required_of
from leanmark.moves.names import ACTIONS_OF, NAMES, POSE_FIELDS
from leanmark.page_parts import filled

PAGE: Final = "writing-a-move.md"
_HEAD: Final = "| field | holds | needed | meaning |\n|---|---|---|---|\n"


def fill(page: str) -> str:
    """The page with the table of each struct's fields as the code gives them now.

    Raises:
        KeyError: a mark names a struct that does not exist.
    """
    return filled(page, {kind.__name__: _table(kind) for kind in FIELD_WORDS})


def _table(kind: type) -> str:
    rows = [
        f"| `{name}` | {_holds(kind, name, field)} | {_needed(kind, name)} | {FIELD_WORDS[kind][name]} |\n"
        for name, field in fields_of(kind).items()
    ]
    return _HEAD + "".join(rows)


def _holds(kind: type, name: str, field: inspect.Field) -> str:
    of = (kind, field.name)
    if of in POSE_FIELDS:
        return "joints with their angles"
    if of in ACTIONS_OF:
        return "joint actions with their muscles"
    if of in NAMES:
        what = NAMES[of].what
        return what if needs_of(kind, name) == "a text" else f"a mapping by {what.removeprefix('a ')}"
    return needs_of(kind, name)


def _needed(kind: type, name: str) -> str:
    if name not in required_of(kind):
        return ""
    return "yes" if name in INHERITING.get(kind, (name,)) else "here or inherited"


if __name__ == "__main__":
    path = Path(sys.argv[1]) / PAGE
    path.write_text(fill(path.read_text(encoding="utf-8")), encoding="utf-8")
