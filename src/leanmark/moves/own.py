"""A coach's own folder of move files, laid over the library.

A file whose move is new adds it; one with the name of a library move replaces that. A file that cannot be
read takes nothing else down: its move is refused when it is asked for, and lists say so.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

from leanmark.errors import FieldError, one_line
from leanmark.moves.files import name_in, plain
from leanmark.moves.problems import MoveFileError, MoveProblem, in_order
from leanmark.moves.schema import Move

OWN_MOVES: Final = "LEANMARK_OWN_MOVES"
"""Environment variable with the folder of a coach's own move files; processes that are started inherit it."""
ENDINGS: Final = (".yaml", ".yml")


@dataclass(frozen=True)
class OwnFile:
    """An own file: the move's name as written in it (the file's own where it has none), and when it was
    written last."""

    name: str
    path: Path
    stamp: int


def own_folder() -> Path | None:
    """The coach's folder, None where none is set. Raises FieldError for one that is not there."""
    folder = os.environ.get(OWN_MOVES)
    if not folder:
        return None
    if not Path(folder).is_dir():
        shown = one_line(folder, longest=200)
        option = f"--own-moves or {OWN_MOVES}"
        raise FieldError(option, shown, "a folder that is there", "make the folder, or name another")
    return Path(folder)


def own_files() -> Mapping[str, OwnFile]:
    """The own folder's files by their move's plain name. Raises FieldError for a folder that is not there."""
    return _by_name(tuple((path, _stamp(path)) for path in own_paths()))


def own_paths() -> list[Path]:
    """The own folder's move files. Raises FieldError for a folder that is not there."""
    folder = own_folder()
    entries = sorted(folder.iterdir()) if folder else []
    return [path for path in entries if path.suffix in ENDINGS and not path.name.startswith(".")]


@cache
def _by_name(files: tuple[tuple[Path, int], ...]) -> Mapping[str, OwnFile]:
    found: dict[str, OwnFile] = {}
    for path, stamp in files:
        one = _own_file(path, stamp)
        key = plain(one.name)
        found[key if key not in found else path.name] = one
    return found


def _stamp(path: Path) -> int:
    """What changes when a file is written anew."""
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0


def _own_file(path: Path, stamp: int) -> OwnFile:
    try:
        name = name_in(path)
    except OSError:
        name = None
    return OwnFile(name or path.stem, path, stamp)


def own_move(one: OwnFile) -> Move:
    """The move of an own file. Raises FieldError naming the file and the command that tells all."""
    found = _read(one)
    if isinstance(found, Move):
        return found
    place = "" if found.line is None else f"line {found.line}: "
    shown = one_line(str(one.path), longest=200)
    asked = f"a move file without mistakes ({place}{found.problem})"
    raise FieldError("move", one.name, asked, f"run leanmark moves check {shown}")


def unreadable() -> dict[str, Path]:
    """The own files that cannot be read, by their move's name."""
    return {one.name: one.path for one in own_files().values() if not isinstance(_read(one), Move)}


@cache
def _read(one: OwnFile) -> Move | MoveProblem:
    """The move of an own file, or the first thing wrong with it."""
    from leanmark.moves.check.files import read_checked

    try:
        found = read_checked(one.path)
    except MoveFileError as error:
        return error.problems[0]
    return found.move or in_order(found.check.problems)[0]
