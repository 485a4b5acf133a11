"""Checks the library's shared files: set-ups, families and named poses."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final

from leanmark.moves.check.angles import pose_problems
from leanmark.moves.check.fields import FieldCheck
from leanmark.moves.check.likes import like_problems
from leanmark.moves.files import HOME
from leanmark.moves.schema import Move

SHARED: Final = Path(str(HOME)) / "shared"


def is_shared(path: Path) -> bool:
    """Whether a file is one of the library's shared ones, which hold no whole move."""
    return path.resolve().is_relative_to(SHARED.resolve())


def shared_paths() -> list[Path]:
    """The library's shared files."""
    return sorted(SHARED.rglob("*.yaml"))


def check_shared(check: FieldCheck, raw: object) -> None:
    """Report what is wrong with a shared file, which is told by what it holds: a list of families, a mapping
    of named poses, or a set-up."""
    if isinstance(raw, list):
        for at, entry in enumerate(raw):
            check.struct(Move, entry, (at,), needed=("family", "not-for", "stop", "breathing"))
    elif check.source.file.endswith("poses.yaml"):
        for name, pose in check.mapping(raw, ()).items():
            pose_problems(check, pose, (name,))
    else:
        check.struct(Move, raw, (), needed=())
        if isinstance(raw, Mapping):
            like_problems(check, raw)
