"""The overview that ``leanmark cards`` prints: who stands where, one row for each trainee."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from leanmark.errors import one_line
from leanmark.units import UnitSystem, show_length

if TYPE_CHECKING:
    from leanmark.sheets.answers import CardAnswer

WIDTH: Final = 100
"""Columns of a terminal that the overview fits in; own figure."""
MOST_ROWS: Final = 40
"""Trainees listed; the rest is counted; own figure."""
_HEAD_WIDTH: Final = 10
_NAME_WIDTH: Final = 24
_GAP: Final = "  "
_OF_STRENGTH: Final = "*"


def overview(
    names: Sequence[str], answers: Sequence[Sequence[Sequence[CardAnswer]]], units: UnitSystem
) -> str:
    """Marks of the middle wanted load, moves side by side as far as they fit, then why some are missing.

    answers: by move, by trainee, by wanted load.
    """
    middles = [[own[len(own) // 2] for own in by_trainee] for by_trainee in answers]
    shown = min(len(names), MOST_ROWS)
    first = ["", "trainee", *(one_line(name, _NAME_WIDTH) for name in names[:shown])]
    columns = [_column(middle, shown, units) for middle in middles]
    lines = _blocks(first, columns)
    if shown < len(names):
        lines += [f"and {len(names) - shown} more trainees; --json lists all", ""]
    if any(map(_is_of_strength, middles)):
        lines.append(f"{_OF_STRENGTH} of reference strength, all others of body weight")
    return "\n".join([*lines, *_missing(middles, names)]).rstrip("\n")


def _is_of_strength(middle: Sequence[CardAnswer]) -> bool:
    return middle[0].load_of == "largest share"


def _column(middle: Sequence[CardAnswer], shown: int, units: UnitSystem) -> list[str]:
    """Head, wanted load and the marks of one move."""
    marks = ["—" if a.mark_m is None else show_length(a.mark_m, units) for a in middle[:shown]]
    wanted = f"{100.0 * middle[0].wanted:.0f} %" + (_OF_STRENGTH if _is_of_strength(middle) else "")
    return [middle[0].move, wanted, *marks]


def _blocks(first: list[str], columns: list[list[str]]) -> list[str]:
    """Tables one below the other, each as wide as the terminal allows."""
    lines: list[str] = []
    while columns:
        heads = [textwrap.wrap(column[0], _HEAD_WIDTH) for column in columns]
        widths = [
            max(len(cell) for cell in [*head, *column[1:]])
            for head, column in zip(heads, columns, strict=True)
        ]
        width, count = max(map(len, first)), 0
        while count < len(columns) and width + len(_GAP) + widths[count] <= WIDTH:
            width += len(_GAP) + widths[count]
            count += 1
        count = max(count, 1)
        lines += [*_block(first, heads[:count], columns[:count], widths[:count]), ""]
        columns = columns[count:]
    return lines


def _block(
    first: list[str], heads: list[list[str]], columns: list[list[str]], widths: list[int]
) -> list[str]:
    tallest = max(map(len, heads))
    tops = zip(*([""] * (tallest - len(head)) + head for head in heads), strict=True)
    body = zip(first[1:], *(column[1:] for column in columns), strict=True)
    all_widths = [max(map(len, first)), *widths]
    wanted, *rest = [_line(cells, all_widths) for cells in body]
    rule = _GAP.join("-" * width for width in all_widths)
    return [*(_line(["", *top], all_widths) for top in tops), wanted, rule, *rest]


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    """The name to the left, the rest to the right of their columns."""
    name, *rest = (
        cell.rjust(width) if k else cell.ljust(width)
        for k, (cell, width) in enumerate(zip(cells, widths, strict=True))
    )
    return _GAP.join([name, *rest]).rstrip()


def _missing(middles: Sequence[Sequence[CardAnswer]], names: Sequence[str]) -> list[str]:
    """The moves that have no mark for some, with one of them and the reason as an example."""
    lines = []
    for middle in middles:
        without = [(name, a.reason) for name, a in zip(names, middle, strict=True) if a.mark_m is None]
        if without:
            name, reason = one_line(without[0][0], _NAME_WIDTH), without[0][1]
            count = f"{len(without)} of {len(names)}"
            lines.append(f"{middle[0].move}: no mark for {count}, such as {name}: {reason}")
    return lines
