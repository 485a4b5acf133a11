"""A coach's own folder laid over the library: adds, replaces, and takes nothing down."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.moves.move_files import PAUSED, PULL, changed

from leanmark.errors import FieldError
from leanmark.moves.files import library_files, name_in
from leanmark.moves.library import load_move, move_names, own_move_names, unreadable_moves
from leanmark.moves.own import OWN_MOVES
from leanmark.moves.problems import listing

LIBRARY = tuple(sorted((name for name, _ in library_files().values()), key=str.lower))


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An own folder in use."""
    monkeypatch.setenv(OWN_MOVES, str(tmp_path))
    return tmp_path


def test_without_a_folder_there_is_the_library_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(OWN_MOVES, raising=False)
    assert move_names() == LIBRARY
    assert own_move_names() == ()
    assert unreadable_moves() == {}


def test_a_new_move_is_added(folder: Path) -> None:
    (folder / "pull.yaml").write_text(PULL)
    assert move_names() == tuple(sorted([*LIBRARY, "straight-arm pull"], key=str.lower))
    assert own_move_names() == ("straight-arm pull",)
    assert load_move("Straight arm PULL").rungs[1].rung == "to the hips"


def test_a_move_of_the_librarys_name_replaces_it_and_may_start_from_it(folder: Path) -> None:
    (folder / "mine.yml").write_text(changed("move: paused row", "move: Row", PAUSED))
    assert "Row" in move_names()
    assert "row" not in move_names()
    assert len(move_names()) == len(LIBRARY)
    assert load_move("row").cues[0] == "hands to the ribs, and stay"


def test_a_file_that_cannot_be_read_takes_nothing_else_down(folder: Path) -> None:
    (folder / "pull.yaml").write_text(PULL)
    (folder / "row.yaml").write_text("move: row\nlike: row\nrungs: 3\n")
    (folder / "noise.yaml").write_bytes(b"\x00\xff\xfe" * 50)
    (folder / "empty.yaml").write_text("")
    (folder / "sub.yaml").mkdir()
    assert {*unreadable_moves()} == {"row", "noise", "empty", "sub"}
    assert {*move_names()} == {*LIBRARY, "straight-arm pull"} - {"row"}
    assert load_move("chest press").move == "chest press"


def test_a_move_that_cannot_be_read_is_refused_when_asked_for(folder: Path) -> None:
    """Not silently answered from the library."""
    (folder / "row.yaml").write_text("move: row\nlike: row\nrungs: 3\n")
    with pytest.raises(FieldError) as error:
        load_move("row")
    assert str(error.value) == (
        "move = 'row' is not allowed "
        "(allowed: a move file without mistakes (line 3: rungs = 3 is not a list)); "
        f"run leanmark moves check {folder / 'row.yaml'}"
    )


def test_a_file_written_anew_is_read_anew(folder: Path) -> None:
    path = folder / "pull.yaml"
    path.write_text("move: straight-arm pull\n")
    os.utime(path, ns=(1, 1))
    assert "straight-arm pull" in unreadable_moves()
    path.write_text(PULL)
    os.utime(path, ns=(2, 2))
    assert unreadable_moves() == {}
    assert load_move("straight-arm pull").kit == "handles"


def test_other_files_in_the_folder_do_not_matter(folder: Path) -> None:
    for name in ("notes.txt", ".hidden.yaml", "pull.yaml.bak"):
        (folder / name).write_text("nothing of a move")
    assert move_names() == LIBRARY
    assert unreadable_moves() == {}


def test_a_folder_that_is_not_there_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(OWN_MOVES, str(tmp_path / "gone"))
    with pytest.raises(FieldError, match=r"--own-moves or LEANMARK_OWN_MOVES = .*; make the folder"):
        move_names()


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("move: paused row\n", "paused row"),
        ("# a comment\n\n---\nmove: paused row  # of mine\n", "paused row"),
        ("move: 'paused row'\n", "paused row"),
        ('\ufeffmove: "paused: row"\r\n', "paused: row"),
        ("family: squat\nmove: row\n", None),
        ("move:\n", None),
        ("", None),
    ],
)
def test_the_name_is_in_the_first_line_that_is_no_comment(
    tmp_path: Path, text: str, name: str | None
) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(text.encode())
    assert name_in(path) == name


def test_a_long_list_of_what_there_is_is_cut_short() -> None:
    names = [f"n{k}" for k in range(36)]
    assert listing(names) == ", ".join(names)
    assert listing([*names, "one"]) == ", ".join(names[:12]) + " and 25 more"
