"""Every set of a cycle as CSV, for spreadsheets, and back.

It is as RFC 4180 says, in UTF-8 with a byte order mark, without which spreadsheets misread letters such as å.
Text that a spreadsheet would take for a formula gets an apostrophe in front, which reading takes off again.
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Final

from leanmark.cycle.files.columns import COLUMNS, Cell, Kind
from leanmark.cycle.files.problems import failure
from leanmark.cycle.files.sets_table import COLUMN_NAMES, TABLE_WORDS, Row, check_names, set_rows
from leanmark.cycle.files.whole import read_whole
from leanmark.cycle.form import Cycle

_FORMULA: Final = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")  # noqa: RUF001 spreadsheets know the wide signs too
_YES_NO: Final = {"true": True, "false": False}


def sets_csv(cycle: Cycle) -> bytes:
    """The sets as CSV: commas, lines ended by CR LF, decimals with a point, empty cells where there is no
    number.

    Raises:
        FieldError: the cycle's time zone is unknown.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMN_NAMES)
    writer.writerows([_written(row[name]) for name in COLUMN_NAMES] for row in set_rows(cycle))
    return out.getvalue().encode("utf-8-sig")


def read_sets_csv(path: Path) -> list[Row]:
    """The rows of a CSV file of sets.

    Raises:
        CycleFileError: it cannot be read, or is not such a table.
    """
    file = str(path)
    try:
        text = read_whole(path, TABLE_WORDS).decode("utf-8-sig")
        heads, *lines = csv.reader(io.StringIO(text, newline=""), strict=True)
    except UnicodeDecodeError as error:
        raise failure(file, f"byte {error.start + 1} of the file is not UTF-8", "save it as UTF-8") from None
    except csv.Error as error:
        raise failure(file, f"not CSV: {error}", f"give {TABLE_WORDS}") from None
    check_names(file, heads)
    return [_row(file, number, cells) for number, cells in enumerate(lines, start=1)]


def _row(file: str, number: int, cells: Sequence[str]) -> Row:
    where = f"row {number}"
    if len(cells) != len(COLUMNS):
        problem = f"there are {len(cells)} cells, not {len(COLUMNS)}"
        raise failure(file, problem, "export the table anew", where=where)
    row: Row = {}
    for column, cell in zip(COLUMNS, cells, strict=True):
        try:
            row[column.name] = _FROM_TEXT[column.kind](cell) if cell or column.kind == "text" else None
        except (ValueError, KeyError):
            problem = f"{column.name} = {cell!r} is not a {column.kind}"
            raise failure(file, problem, "export the table anew", where=where) from None
    return row


def _written(cell: Cell) -> str:
    match cell:
        case None:
            return ""
        case bool():
            return str(cell).lower()
        case str():
            return f"'{cell}" if _FORMULA.match(cell) else cell
        case dt.date():
            return cell.isoformat()
    return repr(cell)


def _text(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell


_FROM_TEXT: Final[dict[Kind, Callable[[str], Cell]]] = {
    "text": _text,
    "whole number": int,
    "number": float,
    "yes or no": _YES_NO.__getitem__,
    "date": dt.date.fromisoformat,
    "time": dt.datetime.fromisoformat,
}
