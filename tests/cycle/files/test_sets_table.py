"""Every set as a row: how many there are, what they hold, and that CSV and Parquet read back the same."""

from __future__ import annotations

import csv
import datetime as dt
import io
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pyarrow.parquet as pq
import pytest
from hypothesis import given
from msgspec.structs import replace
from tests.cycle.sample_cycle import cycles, sample_cycle

from leanmark.cycle.files.columns import COLUMNS
from leanmark.cycle.files.problems import CycleFileError
from leanmark.cycle.files.sets_csv import read_sets_csv, sets_csv
from leanmark.cycle.files.sets_parquet import read_sets_parquet, sets_parquet
from leanmark.cycle.files.sets_table import Row, set_rows
from leanmark.cycle.form import Cycle

ROOT = Path(__file__).resolve().parents[3]
ENVIRONMENT = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT), str(ROOT / "src")])}
FORMULAS = ["=1+1", "+2", "-x", "@SUM(A1)", "\tx", "\rx", "\nx", "'=1", "''+", "＝1"]  # noqa: RUF001
NOT_FORMULAS = ["Åsa", "'s Gravenmoer", "a=b", "x-y", "", "🚣", 'a,"b";c\r\nd']


def row_of(move: str, **where: object) -> Row:
    (found,) = [
        row
        for row in set_rows(sample_cycle())
        if row["move"] == move and all(row[name] == value for name, value in where.items())
    ]
    return found


def named(name: str) -> Cycle:
    cycle = sample_cycle()
    return replace(cycle, plans=(replace(cycle.plans[0], trainee=name),))


def test_one_row_is_one_set() -> None:
    cycle = sample_cycle()
    rows = set_rows(cycle)
    sets = [line.sets for plan in cycle.plans for session in plan.sessions for line in session.lines]
    assert len(rows) == sum(sets)
    keys = [(row["uid"], row["set"]) for row in rows]
    assert len(set(keys)) == len(keys)


def test_a_set_of_three_speed_stages() -> None:
    row = row_of("push-up", trainee="Tuva Lindvåg", session=1, set=2)
    assert [row[f"reps_{stage}"] for stage in ("controlled", "fast", "ballistic")] == [8, 6, 4]
    assert row["tempo_ballistic"] == "1.5-0-0.6-0"
    assert (row["date"], row["week"], row["order"], row["sets"]) == (dt.date(2027, 1, 11), 1, 2, 3)
    # no strap: what hangs on it is empty, not zero
    assert [row[name] for name in ("strap", "strap_m", "mark_m", "strap_n")] == ["", None, None, None]
    assert row["rpe"] == 7.0  # 3 reps in reserve, as the scale of 10 prints it


def test_a_hold_and_a_set_on_each_side() -> None:
    hold = row_of("front plank", trainee="Jonas Holmvik", session=3, set=1)
    assert (hold["hold_s"], hold["reps_controlled"], hold["tempo_controlled"]) == (40.0, 0, "")
    assert (hold["strap"], hold["strap_m"], hold["mark_m"]) == ("mid-shin", 2.03, 1.35)
    sided = row_of("single-arm row", trainee="Jonas Holmvik", session=3, set=2)
    assert (sided["side"], hold["side"]) == ("each in turn", "both at once")


def test_stages_name_the_rung_they_are_done_on() -> None:
    row = row_of("split squat", trainee="Tuva Lindvåg", session=2, set=1)
    assert (row["rung"], row["rung_fast"], row["rung_ballistic"]) == ("full depth", "full depth, faster", "")


def test_the_date_is_the_places_own(tmp_path: Path) -> None:
    cycle = replace(sample_cycle(), zone="Pacific/Auckland")  # 18:00 in Oslo is 06:00 on the next day there
    row = set_rows(cycle)[0]
    assert row["date"] == dt.date(2027, 1, 12)
    assert str(row["starts"]) == "2027-01-12 06:00:00+13:00"


@given(cycles())
def test_both_files_read_back_the_same_rows(cycle: Cycle) -> None:
    rows = set_rows(cycle)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sets"
        for made, read in ((sets_csv, read_sets_csv), (sets_parquet, read_sets_parquet)):
            path.write_bytes(made(cycle))
            again = read(path)
            assert again == rows
            assert [_kinds(row) for row in again] == [_kinds(row) for row in rows]
            assert [str(row["starts"]) for row in again] == [str(row["starts"]) for row in rows]


def _kinds(row: Row) -> list[type]:
    return [type(cell) for cell in row.values()]


@pytest.mark.parametrize("name", FORMULAS)
def test_no_cell_is_a_formula(name: str, tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    path.write_bytes(sets_csv(named(name)))
    _, first, *_ = csv.reader(io.StringIO(path.read_bytes().decode("utf-8-sig"), newline=""))
    assert first[0] == f"'{name}"
    assert read_sets_csv(path)[0]["trainee"] == name


@pytest.mark.parametrize("name", NOT_FORMULAS)
def test_other_names_stand_as_they_are(name: str, tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    path.write_bytes(sets_csv(named(name)))
    _, first, *_ = csv.reader(io.StringIO(path.read_bytes().decode("utf-8-sig"), newline=""))
    assert first[0] == name
    assert read_sets_csv(path)[0]["trainee"] == name


def test_lines_end_as_the_standard_says_and_decimals_have_a_point() -> None:
    text = sets_csv(sample_cycle()).decode("utf-8-sig")
    assert text.count("\r\n") == text.count("\n") == len(set_rows(sample_cycle())) + 1
    assert ",-0.62," in text


def test_parquet_says_unit_and_meaning_of_each_column(tmp_path: Path) -> None:
    path = tmp_path / "sets.parquet"
    path.write_bytes(sets_parquet(sample_cycle()))
    schema = pq.read_schema(path)
    assert schema.names == [column.name for column in COLUMNS]
    for column in COLUMNS:
        metadata = schema.field(column.name).metadata
        assert (metadata[b"unit"].decode(), metadata[b"meaning"].decode()) == (column.unit, column.meaning)
    assert schema.metadata[b"uid"].decode() == sample_cycle().uid
    assert str(schema.field("starts").type) == "timestamp[us, tz=Europe/Oslo]"


def test_a_cycle_without_sets_gives_an_empty_table(tmp_path: Path) -> None:
    empty = replace(sample_cycle(), plans=())
    (tmp_path / "a.csv").write_bytes(sets_csv(empty))
    (tmp_path / "a.parquet").write_bytes(sets_parquet(empty))
    assert read_sets_csv(tmp_path / "a.csv") == read_sets_parquet(tmp_path / "a.parquet") == []


def test_other_tables_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "other"
    path.write_text("trainee,mark\nTuva,3\n", encoding="utf-8")
    with pytest.raises(CycleFileError, match="other:1: columns are missing: date, starts"):
        read_sets_csv(path)
    with pytest.raises(CycleFileError, match="not Parquet"):
        read_sets_parquet(path)
    path.write_bytes(b"\xff\xfe")
    with pytest.raises(CycleFileError, match="byte 1 of the file is not UTF-8"):
        read_sets_csv(path)


def test_a_damaged_cell_is_refused_with_its_place(tmp_path: Path) -> None:
    path, good = tmp_path / "sets.csv", sets_csv(sample_cycle())
    path.write_bytes(good.replace(b",-0.62,", b",far,", 1))
    with pytest.raises(CycleFileError, match="row 1: mark_m = 'far' is not a number"):
        read_sets_csv(path)
    path.write_bytes(good + b"x,y\r\n")
    with pytest.raises(CycleFileError, match="there are 2 cells"):
        read_sets_csv(path)
    path.write_bytes(good[:-40] + b'"')
    with pytest.raises(CycleFileError, match=r"sets\.csv"):
        read_sets_csv(path)


def test_no_data_frame_library_is_needed() -> None:
    code = (
        "import builtins\nkept = builtins.__import__\n"
        "def without(name, *more):\n"
        "    if name.split('.')[0] == 'pandas': raise ImportError(name)\n"
        "    return kept(name, *more)\n"
        "builtins.__import__ = without\n"
        "from tests.cycle.sample_cycle import sample_cycle\n"
        "from leanmark.cycle.files.sets_parquet import sets_parquet\n"
        "assert sets_parquet(sample_cycle())[:4] == b'PAR1'\n"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, env=ENVIRONMENT, capture_output=True)
    assert done.returncode == 0, done.stderr.decode()


def test_reading_parquet_and_ending_at_once_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "sets.parquet"
    path.write_bytes(sets_parquet(sample_cycle()))
    code = (
        "import sys\nfrom pathlib import Path\n"
        "from leanmark.cycle.files.sets_parquet import read_sets_parquet\n"
        "read_sets_parquet(Path(sys.argv[1]))\n"
    )
    command = [sys.executable, "-c", code, str(path)]
    for _ in range(3):
        done = subprocess.run(command, cwd=ROOT, env=ENVIRONMENT, capture_output=True)
        assert done.returncode == 0, done.stderr.decode()
