"""Find and read move files: the library's own, and a coach's folder laid over it."""

from __future__ import annotations

import os
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Final, cast

import msgspec
import yaml

from leanmark.errors import FieldError
from leanmark.moves.inherit import Raw, laid_out
from leanmark.moves.schema import Move, Rung

OWN_MOVES: Final = "LEANMARK_OWN_MOVES"
"""Environment variable with the folder of a coach's own move files."""
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_HOME: Final = files("leanmark.moves")


@cache
def _files() -> dict[str, tuple[str, Traversable | Path]]:
    """By plain spelling: the move's name as written in the first line of its file, and the file. A coach's
    own file replaces the library's of the same name."""
    own = os.environ.get(OWN_MOVES)
    found = _named_files(_HOME / "library")
    return {**found, **_named_files(Path(own))} if own else found


def _named_files(folder: Traversable | Path) -> dict[str, tuple[str, Traversable | Path]]:
    found = {}
    for path in folder.iterdir():
        if path.name.endswith(".yaml"):
            with path.open(encoding="utf-8") as text:
                name = text.readline().removeprefix("move:").strip()
            found[_plain(name)] = (name, path)
    return found


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").replace("_", " ").split())


def _read(path: Traversable | Path) -> object:
    return yaml.load(path.read_text(encoding="utf-8"), Loader=_LOADER)


@cache
def families() -> dict[str, Raw]:
    """What the moves of each family share, in the order in which families are listed."""
    entries = cast("list[Raw]", _read(_HOME / "shared" / "families.yaml"))
    return {str(entry["family"]): entry for entry in entries}


@cache
def named_poses() -> dict[str, Raw]:
    """Poses of some joints that many moves share, by name."""
    return cast("dict[str, Raw]", _read(_HOME / "shared" / "poses.yaml"))


@cache
def _set_up_names() -> dict[str, str]:
    folder = _HOME / "shared" / "set-ups"
    return {path.name.removesuffix(".yaml").replace("-", " "): path.name for path in folder.iterdir()}


@cache
def _named(name: str) -> Raw:
    """The raw mapping of a shared set-up, or of a move of the library."""
    if name in _set_up_names():
        return cast("Raw", _read(_HOME / "shared" / "set-ups" / _set_up_names()[name]))
    library = _named_files(_HOME / "library")
    if _plain(name) in library:
        return cast("Raw", _read(library[_plain(name)][1]))
    known = (*_set_up_names(), *(name for name, _ in library.values()))
    raise FieldError("like", name, "a shared set-up or a move of the library", _nearest(name, known))


@cache
def move_names() -> tuple[str, ...]:
    """The library's move names, in alphabetical order, as the trade writes them."""
    return tuple(sorted(name for name, _ in _files().values()))


@cache
def load_move(name: str) -> Move:
    """Read one move of the library by name; hyphens, underscores and capitals do not matter.

    Raises FieldError for a name that the library lacks.
    """
    if _plain(name) not in _files():
        raise FieldError("move", name, "a move of the library", _nearest(_plain(name), move_names()))
    return move_of(cast("Raw", _read(_files()[_plain(name)][1])))


def move_of(raw: Raw) -> Move:
    """A move from its file's mapping, with everything inherited laid out."""
    return msgspec.convert(laid_out(raw, _named, families(), named_poses()), Move)


def find_rung(move: Move, name: str) -> Rung:
    """A move's rung by name or number (1 = easiest). Raises FieldError where there is none."""
    names = [rung.rung for rung in move.rungs]
    wanted = " ".join(name.lower().replace("_", " ").split())
    for number, rung in enumerate(move.rungs, start=1):
        if wanted in (rung.rung.lower(), str(number)):
            return rung
    listed = "; ".join(f"{n} {rung}" for n, rung in enumerate(names, start=1))
    raise FieldError(f"rung of {move.move}", name, f"one of: {listed}", _nearest(wanted, tuple(names)))


def _nearest(wanted: str, known: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(wanted, known, n=1, cutoff=0.5)
    return f"did you mean '{near[0]}'?" if near else f"the library has: {', '.join(known)}"
