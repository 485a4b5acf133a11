"""``leanmark moves check`` and ``leanmark moves schema`` as a shell sees them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.cli.ask import ask, refused
from tests.cli.squads import write_squad
from tests.moves.move_files import OWN_MOVES, PULL, changed

from leanmark.cli.late import LateStream, late_bar
from leanmark.each import WORTH_IT, processors
from leanmark.moves.check.shared import shared_paths
from leanmark.moves.editor_schema import move_schema
from leanmark.moves.files import library_paths
from leanmark.moves.library import load_move
from leanmark.moves.own import OWN_MOVES as OWN_MOVES_VARIABLE


def test_files_in_order_are_counted() -> None:
    said = ask("moves", "check", OWN_MOVES / "straight-arm-pull.yaml")
    assert (said.code, said.err) == (0, "")
    first, second = said.out.splitlines()
    assert first == "in order: 1 file, 1 move, 2 rungs"
    assert second.endswith(
        "by 6 people from a 5th-percentile woman to a 95th-percentile man, anchor at 2.4 m"
    )


def test_every_problem_is_a_line_and_the_exit_code_is_2(tmp_path: Path) -> None:
    path = tmp_path / "pull.yaml"
    path.write_text(changed("kit: handles", "kit: rope", changed("patch: sole", "patch: soles")))
    said = ask("moves", "check", path, OWN_MOVES / "paused-row.yaml")
    assert (said.code, said.out) == (2, "")
    kit, patch, count = said.err.splitlines()
    assert kit.startswith(f"{path}:12:1: kit = 'rope' is not one of its words")
    assert patch.startswith(f"{path}:26:6: contacts entry 1.patch = 'soles' is not a contact patch")
    assert count == "2 problems in 1 of 2 files"


def test_the_report_as_data(tmp_path: Path) -> None:
    path = tmp_path / "pull.yaml"
    path.write_text(changed("start-m: -1.3", "start-m: 3"))
    said = ask("moves", "check", path, "--json")
    assert said.code == 2
    assert said.data["files"] == 1
    assert said.data["moves"] == said.data["rungs"] == 0
    (problem,) = said.data["problems"]
    assert (problem["file"], problem["line"], problem["field"]) == (str(path), 24, "mark.start-m")
    assert set(problem) == {"file", "line", "column", "where", "field", "problem", "remedy"}


@pytest.mark.parametrize("name", ["gone.yaml", ".", "a\nb"])
def test_files_that_are_not_there(tmp_path: Path, name: str) -> None:
    said = ask("moves", "check", tmp_path / name)
    assert said.code == 2
    assert len(said.err.splitlines()) == 2
    assert all(line.isprintable() for line in said.err.splitlines())


def test_the_whole_library_and_the_own_folder_are_in_order() -> None:
    said = ask("--own-moves", OWN_MOVES, "moves", "check", "--json")
    assert said.data["problems"] == []
    assert said.code == 0
    assert said.data["files"] == len([*library_paths(), *shared_paths(), *OWN_MOVES.iterdir()])
    assert said.data["moves"] == len([*library_paths(), *OWN_MOVES.iterdir()])


def test_own_moves_are_there_for_every_command(tmp_path: Path) -> None:
    (tmp_path / "pull.yaml").write_text(PULL)
    who = ("--stature", "178 cm", "--mass", "74 kg", "--sex", "female")
    own = ("--own-moves", tmp_path)
    shown = ask(*own, "moves", "show", "straight-arm pull").out
    assert shown.startswith("straight-arm pull: horizontal pull")
    loaded = ask(*own, "load", "straight-arm pull", *who).out
    assert loaded.startswith("straight-arm pull, to the chest: heels")
    assert refused("load", "straight-arm pull", *who).startswith("move = 'straight-arm pull' is not allowed")


def test_listing_tells_of_own_files_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "pull.yaml").write_text(PULL)
    (tmp_path / "row.yaml").write_text(
        changed("kit: handles", "kit: rope", changed("straight-arm pull", "row"))
    )
    said = ask("--own-moves", tmp_path, "moves", "--family", "horizontal pull")
    assert said.code == 0
    assert "straight-arm pull" in said.out
    path = tmp_path / "row.yaml"
    assert said.err == f"leanmark: your own move 'row' is left out: run leanmark moves check {path}\n"


def test_a_command_that_needs_a_move_that_cannot_be_read_says_which_file(tmp_path: Path) -> None:
    (tmp_path / "row.yaml").write_text("move: row\n\tx")
    who = ("--stature", "178 cm", "--mass", "74 kg")
    own = ("--own-moves", tmp_path)
    line = refused(*own, "load", "row", *who)
    assert line.endswith(f"run leanmark moves check {tmp_path / 'row.yaml'}")
    assert "line 2: a tab at the start of the line" in line
    assert ask(*own, "load", "chest press", *who).code == 0


def test_a_folder_that_is_not_there_is_refused_by_every_command(tmp_path: Path) -> None:
    for words in (("moves",), ("load", "row"), ("moves", "check")):
        line = refused("--own-moves", tmp_path / "gone", *words)
        assert line.startswith("--own-moves or LEANMARK_OWN_MOVES = ")
        assert line.endswith("make the folder, or name another")


def test_the_schema_is_printed_or_written(tmp_path: Path) -> None:
    printed = ask("moves", "schema")
    assert printed.data == json.loads(json.dumps(move_schema()))
    out = tmp_path / "move-schema.json"
    assert ask("moves", "schema", "--out", out).out == f"schema: {out}\n"
    assert out.read_text("utf-8") == printed.out
    assert refused("moves", "schema", "--out", tmp_path).startswith("--out = ")


def test_a_bar_is_seen_only_if_the_work_takes_long(capsys: pytest.CaptureFixture[str]) -> None:
    early, late = LateStream(after_s=60.0), LateStream(after_s=0.0)
    assert early.write("early") == late.write("later") == 5
    assert capsys.readouterr().err == "later"
    with late_bar("rungs") as progress:
        progress(0.5)
        progress(1.0)
    assert capsys.readouterr().err == ""


SQUAD_MOVES = 'moves = ["row", "chest press"]'


def test_cards_leave_out_what_cannot_be_read_unless_it_is_named(tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    (own / "row.yaml").write_text("move: row\nlike: row\nrungs: 3\n")
    named = write_squad(tmp_path)
    assert SQUAD_MOVES in named.read_text("utf-8")
    line = refused("--own-moves", own, "cards", named, "--out", tmp_path / "cards")
    assert line.endswith(f"run leanmark moves check {own / 'row.yaml'}")
    other = tmp_path / "other.toml"
    other.write_text(named.read_text("utf-8").replace(SQUAD_MOVES, 'moves = ["chest press"]'), "utf-8")
    said = ask("--own-moves", own, "cards", other, "--out", tmp_path / "cards")
    assert (said.code, said.err) == (0, "")


def test_processes_that_are_started_see_the_own_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "pull.yaml").write_text(PULL)
    monkeypatch.setenv(OWN_MOVES_VARIABLE, str(tmp_path))
    with processors(WORTH_IT) as each:
        found = list(each(load_move, ["straight-arm pull", "row"]))
    assert [move.move for move in found] == ["straight-arm pull", "row"]
