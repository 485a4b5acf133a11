"""Every set of a cycle as rows of a table; see ``columns`` for what a row holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from leanmark.cycle.files.columns import COLUMNS, Cell, OneSet
from leanmark.cycle.files.local_time import zone_of
from leanmark.cycle.files.problems import failure
from leanmark.cycle.form import Cycle

Row = dict[str, Cell]
"""One set: a cell for each column, by its name."""
TABLE_WORDS: Final = "a table of sets, written by Leanmark"
COLUMN_NAMES: Final[tuple[str, ...]] = tuple(column.name for column in COLUMNS)


def set_rows(cycle: Cycle) -> list[Row]:
    """One row for each set: by trainee, session, move and set. Lengths in metres, times in seconds.

    Raises:
        FieldError: the cycle's time zone is unknown.
    """
    return [{column.name: column.cell(one) for column in COLUMNS} for one in _sets(cycle)]


def _sets(cycle: Cycle) -> Iterator[OneSet]:
    zone = zone_of(cycle.zone)
    for plan in cycle.plans:
        for session in plan.sessions:
            for order, line in enumerate(session.lines, start=1):
                for number in range(1, line.sets + 1):
                    yield OneSet(cycle, zone, plan, session, order, line, number)


def check_names(file: str, names: Sequence[str]) -> None:
    """Refuse a file whose columns are not those of the table.

    Raises:
        CycleFileError: some are missing, are others or stand in another order.
    """
    if list(names) != [*COLUMN_NAMES]:
        missing = ", ".join(name for name in COLUMN_NAMES if name not in names)
        problem = f"columns are missing: {missing}" if missing else "the columns are other ones"
        raise failure(file, problem, f"give {TABLE_WORDS}", line=1)
