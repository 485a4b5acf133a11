"""Read the project's Markdown pages: fenced samples, the commands they print, links and tables."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGES = tuple(
    sorted([ROOT / "README.md", ROOT / "CONTRIBUTING.md", ROOT / "CHANGELOG.md", *ROOT.glob("docs/**/*.md")])
)

FENCE = re.compile(r"^(?P<mark>`{3,}|~{3,})\s*(?P<language>[\w-]*)")
LINK = re.compile(r"!?\[[^\]]*\]\((?P<target>[^)\s]+)\)")
IMAGE_TAG = re.compile(r"<(?:img|source)[^>]+(?:src|srcset)=\"(?P<target>[^\"]+)\"")
RUNNABLE = ("console", "sh")


@dataclass(frozen=True)
class Command:
    """One ``$ leanmark`` line of a page, and the lines of output printed under it."""

    line_number: int
    text: str
    shown: tuple[str, ...]


def page_name(page: Path) -> str:
    return page.relative_to(ROOT).as_posix()


def samples(text: str) -> Iterator[tuple[str, int, list[str]]]:
    """Language, number of the first line and lines of each fenced sample."""
    language, mark, first, lines = "", "", 0, list[str]()
    for number, line in enumerate(text.splitlines(), start=1):
        fence = FENCE.match(line.strip())
        if not mark and fence:
            language, mark, first, lines = fence["language"], fence["mark"], number + 1, []
        elif mark and line.strip() == mark:
            yield language, first, lines
            mark = ""
        elif mark:
            lines.append(line)


def prose(text: str) -> str:
    """The text without its fenced samples, inline code and comments."""
    fenced = {
        number for _, first, lines in samples(text) for number in range(first - 1, first + len(lines) + 1)
    }
    kept = [line for number, line in enumerate(text.splitlines(), start=1) if number not in fenced]
    return re.sub(r"`[^`\n]*`|<!--.*?-->", "", "\n".join(kept), flags=re.DOTALL)


def commands(text: str) -> list[Command]:
    """Every ``$ leanmark`` command of the console and sh samples, in the order of the page."""
    found: list[Command] = []
    for language, first, lines in samples(text):
        if language in RUNNABLE:
            found += _sample_commands(first, lines)
    return found


def _sample_commands(first: int, lines: list[str]) -> Iterator[Command]:
    """A trailing backslash carries a command on; the lines up to the next prompt are its output."""
    starts = [index for index, line in enumerate(lines) if line.startswith("$ ")]
    for start, end in pairwise([*starts, len(lines)]):
        last = start
        while lines[last].endswith("\\"):
            last += 1
        parts = [line.removesuffix("\\").strip() for line in lines[start : last + 1]]
        text = " ".join(parts).removeprefix("$ ")
        if text.split()[0] == "leanmark":
            yield Command(first + start, text, tuple(filter(str.strip, lines[last + 1 : end])))


def links(text: str) -> list[str]:
    """Targets of every link and picture of the prose."""
    body = prose(text)
    return [match["target"] for pattern in (LINK, IMAGE_TAG) for match in pattern.finditer(body)]


def anchors(text: str) -> set[str]:
    """The names by which a page's headings are linked."""
    headings = re.findall(r"^#+\s+(.+)$", prose(text), flags=re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-") for heading in headings}


def table_rows(text: str) -> list[tuple[int, list[str]]]:
    """Line number and cells of each body row of each table."""
    rows: list[tuple[int, list[str]]] = []
    in_body = False
    for number, line in enumerate(text.splitlines(), start=1):
        cells = [cell.strip() for cell in line.strip().strip("|").split("|")]
        if not line.startswith("|"):
            in_body = False
        elif all(re.fullmatch(r":?-+:?", cell) for cell in cells):
            in_body = True
        elif in_body:
            rows.append((number, cells))
    return rows
