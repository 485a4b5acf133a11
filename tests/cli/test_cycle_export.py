"""``leanmark cycle export`` writes what is named, or everything."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from tests.cli.ask import ask, files_in, refused

from leanmark.cycle.files.json_file import read_cycle, write_cycle
from leanmark.cycle.files.sets_csv import read_sets_csv

KINDS = {
    "--csv": ["sets.csv"],
    "--parquet": ["sets.parquet"],
    "--calendar": ["calendar.ics", "calendars", "calendars/01-asta-å.ics", "calendars/02-birk.ics"],
    "--json": ["cycle.json"],
}
SHEETS = ["overview.pdf", "sessions", "sessions/02-birk.pdf", "tapes.pdf"]


@pytest.mark.parametrize("kind", KINDS)
def test_one_kind_alone(built: Path, tmp_path: Path, kind: str) -> None:
    said = ask("cycle", "export", built / "cycle.json", kind, "--out", tmp_path / "new")
    assert said.code == 0
    assert files_in(tmp_path / "new") == KINDS[kind]
    listed = [str(tmp_path / "new" / name) for name in KINDS[kind] if "." in name]
    assert sorted(said.out.splitlines()) == sorted(listed)


def test_what_was_built_and_what_is_exported_are_the_same(built: Path, tmp_path: Path) -> None:
    ask("cycle", "export", built / "cycle.json", "--csv", "--json", "--out", tmp_path)
    assert read_sets_csv(tmp_path / "sets.csv") == read_sets_csv(built / "sets.csv")
    assert read_cycle(tmp_path / "cycle.json") == read_cycle(built / "cycle.json")


def test_sheets_of_one_trainee_for_the_phone(built: Path, tmp_path: Path) -> None:
    words = ("--sheets", "--trainee", "birk", "--paper", "phone", "--out", tmp_path)
    assert ask("cycle", "export", built / "cycle.json", *words).code == 0
    assert files_in(tmp_path) == SHEETS
    assert all(path.read_bytes().startswith(b"%PDF-") for path in tmp_path.rglob("*.pdf"))


def test_without_a_kind_everything_is_written(built: Path, tmp_path: Path) -> None:
    assert ask("cycle", "export", built / "cycle.json", "--out", tmp_path, "--trainee", "birk").code == 0
    kinds = {name for names in KINDS.values() for name in names if "asta" not in name}
    assert files_in(tmp_path) == sorted({*kinds, *SHEETS})
    assert len(read_cycle(tmp_path / "cycle.json").plans) == 2


def test_sessions_that_are_gone_are_cancelled_against_the_earlier_issue(built: Path, tmp_path: Path) -> None:
    cycle = read_cycle(built / "cycle.json")
    plan = cycle.plans[0]
    shorter = msgspec.structs.replace(plan, sessions=plan.sessions[:1])
    newer = msgspec.structs.replace(cycle, plans=(shorter, *cycle.plans[1:]), revision=1)
    write_cycle(newer, tmp_path / "newer.json")
    words = ("--calendar", "--earlier", built / "cycle.json", "--out", tmp_path)
    assert ask("cycle", "export", tmp_path / "newer.json", *words).code == 0
    assert (tmp_path / "calendars" / "01-asta-å.ics").read_text("utf-8").count("STATUS:CANCELLED") == 1
    back = ("--calendar", "--earlier", tmp_path / "newer.json", "--out", tmp_path)
    line = refused("cycle", "export", built / "cycle.json", *back)
    assert "before revision 0" in line


def test_another_squads_cycle_is_not_written_over(built: Path, tmp_path: Path) -> None:
    (tmp_path / "cycle.json").write_text("{}")
    line = refused("cycle", "export", built / "cycle.json", "--out", tmp_path)
    assert line.endswith("cycle.json there is another file); name another place")
    assert files_in(tmp_path) == ["cycle.json"]


def test_out_is_required(built: Path) -> None:
    assert "--out" in refused("cycle", "export", built / "cycle.json", "--csv")
