"""The generated parts of documentation pages: marks in a page, and what the code puts between them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Final

_PART: Final = re.compile(
    r"(?P<start><!-- generated: (?P<name>[A-Za-z -]+) -->\n).*?(?P<end><!-- end of generated -->)", re.DOTALL
)


def filled(page: str, parts: Mapping[str, str]) -> str:
    """The page with each marked part replaced by the one of its name.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return _PART.sub(lambda found: f"{found['start']}\n{parts[found['name']]}\n{found['end']}", page)


def fill_file(path: Path, parts: Mapping[str, str]) -> None:
    """Write a page anew with its marked parts replaced. Raises KeyError as ``filled`` does."""
    path.write_text(filled(path.read_text(encoding="utf-8"), parts), encoding="utf-8")


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table in Markdown."""
    lines = [heads, ["---"] * len(heads), *rows]
    return "".join("| " + " | ".join(cells) + " |\n" for cells in lines)
