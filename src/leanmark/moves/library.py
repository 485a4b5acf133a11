"""Find and read move files."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

import msgspec
import yaml

from leanmark.errors import FieldError
from leanmark.moves.schema import Move, Rung

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@cache
def _files() -> dict[str, tuple[str, Traversable]]:
    """By plain spelling: the move's name as written in the first line of its file, and the file."""
    found = {}
    for path in (files("leanmark.moves") / "library").iterdir():
        if path.name.endswith(".yaml"):
            with path.open(encoding="utf-8") as text:
                name = text.readline().removeprefix("move:").strip()
            found[_plain(name)] = (name, path)
    return found


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").replace("_", " ").split())


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
    text = _files()[_plain(name)][1].read_text(encoding="utf-8")
    return msgspec.convert(yaml.load(text, Loader=_LOADER), Move)


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
