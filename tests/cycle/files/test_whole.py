"""Files are there whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from leanmark.cycle.files.whole import write_whole


def test_the_file_holds_what_was_given_and_nothing_else_is_left(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"old")
    assert write_whole(path, b"new") == path
    assert path.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [path]


def test_others_may_read_it(tmp_path: Path) -> None:
    assert write_whole(tmp_path / "a.json", b"").stat().st_mode & 0o777 == 0o644


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"old")

    def full(_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_missing_folder_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "gone" / "a.json", b"")
