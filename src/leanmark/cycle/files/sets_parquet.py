"""Every set of a cycle as Parquet, for analysis, and back."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Final

import pyarrow as pa
import pyarrow.parquet as pq

from leanmark.cycle.files.columns import COLUMNS, Kind
from leanmark.cycle.files.local_time import fixed
from leanmark.cycle.files.problems import failure
from leanmark.cycle.files.sets_table import TABLE_WORDS, Row, check_names, set_rows
from leanmark.cycle.files.whole import read_whole
from leanmark.cycle.form import Cycle

_KINDS: Final[dict[Kind, pa.DataType]] = {
    "text": pa.string(),
    "whole number": pa.int64(),
    "number": pa.float64(),
    "yes or no": pa.bool_(),
    "date": pa.date32(),
}


def sets_parquet(cycle: Cycle) -> bytes:
    """The sets as Parquet. Each field's metadata has its ``unit`` and ``meaning``; the table's has the
    cycle's ``uid``, ``name`` and ``revision``. Times are instants with the cycle's zone.

    Raises:
        FieldError: the cycle's time zone is unknown.
    """
    rows = set_rows(cycle)
    schema = _schema(cycle)
    arrays = [pa.array([row[field.name] for row in rows], type=field.type) for field in schema]
    out = pa.BufferOutputStream()
    pq.write_table(pa.Table.from_arrays(arrays, schema=schema), out)
    return bytes(out.getvalue())


def read_sets_parquet(path: Path) -> list[Row]:
    """The rows of a Parquet file of sets.

    Raises:
        CycleFileError: it cannot be read, or is not such a table.
    """
    file = str(path)
    try:
        # on one thread: the reader's own threads can abort the process when it ends at once afterwards
        table = pq.ParquetFile(pa.BufferReader(read_whole(path, TABLE_WORDS))).read(use_threads=False)
    except pa.ArrowException as error:
        raise failure(file, f"not Parquet: {error}", f"give {TABLE_WORDS}") from None
    check_names(file, table.column_names)
    return [
        {name: fixed(cell) if isinstance(cell, dt.datetime) else cell for name, cell in row.items()}
        for row in table.to_pylist()
    ]


def _schema(cycle: Cycle) -> pa.Schema:
    kinds = {**_KINDS, "time": pa.timestamp("us", tz=cycle.zone)}
    fields = [
        pa.field(one.name, kinds[one.kind], metadata={"unit": one.unit, "meaning": one.meaning})
        for one in COLUMNS
    ]
    of_cycle = {"uid": cycle.uid, "name": cycle.name, "revision": str(cycle.revision)}
    return pa.schema(fields, metadata=of_cycle)
