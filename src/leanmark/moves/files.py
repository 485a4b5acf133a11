"""The files that come with the library: moves, shared set-ups, families and named poses."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Final, cast

from leanmark.errors import FieldError
from leanmark.moves.inherit import Raw
from leanmark.moves.problems import MoveFileError, listing, nearest
from leanmark.moves.source import parse

HOME: Final = files("leanmark.moves")
_NAME_LINE: Final = re.compile(r"""move:\s+(?:"([^"]*)"|'([^']*)'|(.*?))\s*(?:\s#.*)?""")
_NAME_BYTES: Final = 4000  # own figure: the name stands in the first lines


def plain(name: str) -> str:
    """A name without what does not matter: capitals, hyphens and underscores."""
    return " ".join(name.lower().replace("-", " ").replace("_", " ").split())


def name_in(file: Traversable | Path) -> str | None:
    """The move's name, which stands in the first line of its file that is no comment; None without it."""
    with file.open("rb") as data:
        head = data.read(_NAME_BYTES).decode("utf-8", errors="replace").removeprefix("\ufeff")
    for line in head.splitlines():
        if line.strip() and not line.startswith(("#", "---", "%")):
            found = _NAME_LINE.fullmatch(line)
            return next((name for name in found.groups() if name), None) if found else None
    return None


def read(file: Traversable | Path) -> object:
    """The values of one of the library's files. Raises MoveFileError for one that cannot be used."""
    source = parse(file.read_bytes(), str(file))
    if source.problems:
        raise MoveFileError(source.problems)
    return source.value


@cache
def library_files() -> dict[str, tuple[str, Traversable]]:
    """By plain name: the name as written, and the file."""
    found = {}
    for file in (HOME / "library").iterdir():
        if file.name.endswith(".yaml"):
            name = name_in(file) or file.name.removesuffix(".yaml")
            found[plain(name)] = (name, file)
    return found


@cache
def families() -> dict[str, Raw]:
    """What the moves of each family share, in the order in which families are listed."""
    entries = cast("list[Raw]", read(HOME / "shared" / "families.yaml"))
    return {str(entry["family"]): entry for entry in entries}


@cache
def named_poses() -> dict[str, Raw]:
    """Poses of some joints that many moves share, by name."""
    return cast("dict[str, Raw]", read(HOME / "shared" / "poses.yaml"))


@cache
def set_up_files() -> dict[str, Traversable]:
    """The shared set-ups' files by name."""
    found = ((file.name, file) for file in (HOME / "shared" / "set-ups").iterdir())
    return {
        name.removesuffix(".yaml").replace("-", " "): file for name, file in found if name.endswith(".yaml")
    }


def library_paths() -> list[Path]:
    """The library's move files."""
    return sorted(Path(str(file)) for _, file in library_files().values())


def to_start_from() -> tuple[str, ...]:
    """What ``like`` at the top of a file may name: set-ups, then moves of the library."""
    return (*set_up_files(), *sorted(name for name, _ in library_files().values()))


@cache
def named(name: str) -> Raw:
    """The raw mapping of a shared set-up, or of a move of the library. Raises FieldError for neither."""
    if name in set_up_files():
        return cast("Raw", read(set_up_files()[name]))
    if plain(name) in library_files():
        return cast("Raw", read(library_files()[plain(name)][1]))
    near = nearest(name, to_start_from())
    remedy = f"did you mean '{near}'?" if near else f"there are: {listing(to_start_from())}"
    raise FieldError("like", name, "a shared set-up or a move of the library", remedy)
