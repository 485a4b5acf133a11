"""``leanmark cycle build`` writes a cycle, its tables, calendars and sheets, never over another's."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.cli.ask import ask, files_in, refused
from tests.cli.cycle_squads import write_cycle_squad
from tests.cli.squads import write_squad

from leanmark.cycle.files.json_file import read_cycle

TABLES = [
    "calendar.ics", "calendars", "calendars/01-asta-å.ics", "cycle.json", "sets.csv", "sets.parquet",
    "squad.toml",
]  # fmt: skip
SHEETS = ["overview.pdf", "sessions", "sessions/01-asta-å.pdf", "tapes.pdf"]
ALONE = ("Asta Å",)
TODAY = ("--today", "2027-01-01")


def build(squad: Path, *words: str | Path) -> str:
    """Build beside the squad file, without sheets."""
    said = ask("cycle", "build", squad, "--out", squad.parent, "--no-sheets", *TODAY, *words)
    assert (said.code, said.err) == (0, ""), said
    return said.out


def test_everything_is_written_and_a_rebuild_changes_nothing(tmp_path: Path) -> None:
    squad = write_cycle_squad(tmp_path, people=ALONE, days="['mon']")
    said = ask("cycle", "build", squad, "--out", tmp_path, *TODAY)
    assert (said.code, said.err) == (0, "")
    assert files_in(tmp_path) == sorted([*TABLES, *SHEETS])
    assert all(path.read_bytes().startswith(b"%PDF-") for path in tmp_path.rglob("*.pdf"))
    before = read_cycle(tmp_path / "cycle.json")
    assert "revision 0\n" in build(squad)
    assert read_cycle(tmp_path / "cycle.json") == before
    assert files_in(tmp_path) == sorted([*TABLES, *SHEETS])


def test_the_overview_has_a_row_for_each_trainee(built: Path) -> None:
    lines = ask("cycle", "show", built / "cycle.json").out.splitlines()
    assert lines[0] == "Spring of Boathouse: 1 week from Monday 2027-03-01, seed 1"
    cycle = read_cycle(built / "cycle.json")
    for plan in cycle.plans:
        sets = sum(line.sets for session in plan.sessions for line in session.lines)
        minutes = sum(session.minutes.value for session in plan.sessions)
        assert any(line.split() == [*plan.trainee.split(), f"2/{minutes:.0f}/{sets}"] for line in lines)
        missed = [*plan.trainee.split(), f"{plan.objective:.0f}", f"{plan.bound:.0f}"]
        assert any(line.split()[: len(missed)] == missed for line in lines)


def test_clashes_and_pain_are_told_before_where_the_files_are(tmp_path: Path) -> None:
    wishes = "minutes = 13\n[[trainee.pain]]\nplace = 'left knee'\n"
    squad = write_cycle_squad(tmp_path, people=ALONE, days="['mon']", extra=wishes)
    words = " ".join(build(squad).split())
    to_know, written = words.index("To know"), words.index("written to")
    for said in ("Asta Å: pain in the left knee", "these wishes cannot all be met", "13 minutes a session"):
        assert to_know < words.index(said) < written


def test_a_trainee_is_built_alone_and_another_is_added(tmp_path: Path) -> None:
    squad = write_cycle_squad(tmp_path, days="['mon']")
    build(squad, "--trainee", "ASTA")
    first = read_cycle(tmp_path / "cycle.json")
    assert [plan.trainee for plan in first.plans] == ["Asta Å"]
    build(squad, "--trainee", "bir")
    second = read_cycle(tmp_path / "cycle.json")
    assert [plan.trainee for plan in second.plans] == ["Asta Å", "Birk"]
    assert second.plans[0] == first.plans[0]
    assert (first.revision, second.revision) == (0, 1)
    assert read_cycle(tmp_path / "cycle-revision-0.json") == first
    assert b"SEQUENCE:1" in (tmp_path / "calendar.ics").read_bytes()
    changed = write_cycle_squad(tmp_path, days="['mon']", extra="dislikes = ['row']\n")
    line = refused("cycle", "build", changed, "--out", tmp_path, "--no-sheets", "--trainee", "asta")
    assert "the squad file has changed: Birk" in line


def test_another_squads_cycle_and_a_foreign_file_are_kept_unless_told_to_replace(
    built: Path, tmp_path: Path
) -> None:
    squad = write_cycle_squad(tmp_path, name="Autumn", people=ALONE, days="['mon']")
    for there, word in (
        ((built / "cycle.json").read_bytes(), "'Spring' of 'Boathouse'"),
        (b"{}", "another file"),
    ):
        (tmp_path / "cycle.json").write_bytes(there)
        line = refused("cycle", "build", squad, "--out", tmp_path, "--no-sheets")
        assert line.startswith("--out = ")
        assert word in line
        assert line.endswith("name another folder, or add --replace")
        assert (tmp_path / "cycle.json").read_bytes() == there
    build(squad, "--replace")
    assert read_cycle(tmp_path / "cycle.json").name == "Autumn"


def test_an_edit_by_hand_outlives_a_rebuild(cycle_file: Path, tmp_path: Path) -> None:
    move = read_cycle(cycle_file).plans[1].sessions[0].lines[0].move
    said = ask("cycle", "edit", cycle_file, "--trainee", "birk", "--session", "1", "--drop", move)
    assert said.code == 0, said
    squad = write_cycle_squad(tmp_path, extra="dislikes = ['row']\n")
    build(squad)
    again = read_cycle(cycle_file)
    assert again.revision == 2
    assert again.pins == read_cycle(tmp_path / "cycle-revision-1.json").pins
    assert move not in {line.move for line in again.plans[1].sessions[0].lines}


def test_data_says_what_was_built(tmp_path: Path) -> None:
    squad = write_cycle_squad(tmp_path, people=ALONE, days="['mon']")
    said = ask("cycle", "build", squad, "--out", tmp_path, "--no-sheets", "--seed", "7", "--json", *TODAY)
    assert said.data["revision"] == 0
    assert [plan["trainee"] for plan in said.data["plans"]] == ["Asta Å"]
    assert [str(tmp_path / name) for name in TABLES if "." in name and name != "squad.toml"] == sorted(
        said.data["files"]
    )
    assert read_cycle(tmp_path / "cycle.json").seed == 7


def test_a_squad_file_without_a_cycle_is_refused(tmp_path: Path) -> None:
    line = refused("cycle", "build", write_squad(tmp_path), "--out", tmp_path / "out")
    assert line.startswith("[cycle] = 'nothing' is not allowed (allowed: a table [cycle] in the squad file)")
    assert files_in(tmp_path) == ["squad.toml"]


WRONG = [
    (("--trainee", "asta b"), "--trainee = 'asta b'", "Asta Å, Birk"),
    (("--trainee", "bark"), "--trainee = 'bark'", "did you mean 'Birk'?"),
    (("--trainee", ""), "--trainee = ''", "Asta Å, Birk"),
    (("--paper", "a3"), "--paper = 'a3'", "a4, letter, phone"),
    (("--today", "tomorrow"), "--today = 'tomorrow'", "--today 2026-11-30"),
    (("--today", "2027-02-29"), "--today = '2027-02-29'", "--today 2026-11-30"),
    (("--seed", "x"), "Invalid value for '--seed'", "leanmark cycle build --help"),
    (("--out", "file"), "--out = 'file'", "name another place"),
]


@pytest.mark.parametrize(("words", "given", "remedy"), WRONG)
def test_options_that_cannot_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], given: str, remedy: str
) -> None:
    monkeypatch.chdir(tmp_path)
    write_cycle_squad(tmp_path)
    (tmp_path / "file").write_text("kept")
    line = refused("cycle", "build", "squad.toml", *words)
    assert line.startswith(given)
    assert remedy in line
    assert files_in(tmp_path) == ["file", "squad.toml"]


@pytest.mark.parametrize(
    ("extra", "said"),
    [("minutes = 0\n", "minutes = 0"), ("must = ['rwo']\n", 'write "row"'), ("level = 'mighty'\n", "level")],
)
def test_wishes_that_cannot_be_name_file_and_line(tmp_path: Path, extra: str, said: str) -> None:
    squad = write_cycle_squad(tmp_path, people=ALONE, extra=extra).read_text("utf-8")
    if extra.startswith("level"):
        squad = squad.replace('level = "trained"\n', "")
    (tmp_path / "squad.toml").write_text(squad, encoding="utf-8")
    line = refused("cycle", "build", tmp_path / "squad.toml", "--out", tmp_path)
    assert "squad.toml:" in line
    assert said in line
    assert files_in(tmp_path) == ["squad.toml"]


def test_a_folder_that_may_not_be_written_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    squad = write_cycle_squad(tmp_path)
    monkeypatch.setattr("os.access", lambda path, mode: not mode & os.W_OK)
    assert "that you may write in" in refused("cycle", "build", squad, "--out", tmp_path / "out")
