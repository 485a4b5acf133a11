"""What commands print: plain tables for a person, JSON for a program."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

import typer


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Columns of even width, the first to the left, numbers as they come; no colour."""
    widths = [max(len(row[k]) for row in [head, *rows]) for k in range(len(head))]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in [head, *rows]
    ]
    return "\n".join([lines[0], "  ".join("-" * width for width in widths), *lines[1:]])


def named_rows(name: str, width: int, *cells: str, before: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """A row for ``table``; a name longer than ``width`` goes on in rows of its own below."""
    first, *more = textwrap.wrap(name, width)
    blank = ("",) * len(cells)
    return [(*before, first, *cells), *((*("",) * len(before), rest, *blank) for rest in more)]


def whole_range(low: float, high: float, unit: str) -> str:
    """Two numbers to the whole as a range, with a real minus sign and never a negative zero: ``0 to 9 %``."""
    ends = [f"{round(end) + 0:d}".replace("-", "−") for end in (low, high)]
    return f"{ends[0]} to {ends[1]} {unit}"


def print_json(data: object) -> None:
    """One line of JSON, in UTF-8 whatever the terminal's encoding (RFC 8259); not-a-number is null."""
    import msgspec

    typer.echo(msgspec.json.encode(data))
