"""Where files are to be written: looked at before anything is computed."""

from __future__ import annotations

import os
from pathlib import Path

from leanmark.errors import FieldError, one_line

_REMEDY = "name another place, or ask for the right to write there"


def check_file(option: str, path: Path) -> None:
    """Raise FieldError unless a file could be written at ``path``, in a folder that is there."""
    shown = _shown(path)
    if path.is_dir() or not path.name:
        raise FieldError(option, shown, "the name of a file", f"add a file's name, as in {path / 'row.svg'}")
    if not path.parent.is_dir():
        raise FieldError(option, shown, "a file in a folder that is there", "make the folder first")
    if not os.access(path.parent, os.W_OK | os.X_OK):
        raise FieldError(option, shown, "a file in a folder that you may write in", _REMEDY)


def check_folder(option: str, path: Path) -> None:
    """Raise FieldError unless ``path`` is a folder that may be written in, or could be made as one."""
    there = next((place for place in (path, *path.absolute().parents) if place.exists()), path)
    if not there.is_dir():
        allowed = "a folder" if there == path else f"a folder; {_shown(there)} is a file"
        raise FieldError(option, _shown(path), allowed, "name another place")
    if not os.access(there, os.W_OK | os.X_OK):
        raise FieldError(option, _shown(path), "a folder that you may write in", _REMEDY)


def _shown(path: Path) -> str:
    return one_line(str(path), longest=200)
