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
def move_names() -> tuple[str, ...]:
    """The library's move names, in alphabetical order, as the trade writes them."""
    stems = [path.name.removesuffix(".yaml") for path in _folder().iterdir() if path.name.endswith(".yaml")]
    return tuple(sorted(stem.replace("-", " ") for stem in stems))


def _folder() -> Traversable:
    return files("leanmark.moves") / "library"


@cache
def load_move(name: str) -> Move:
    """Read one move of the library by name. Raises FieldError for a name that the library lacks."""
    wanted = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    if wanted not in move_names():
        raise FieldError("move", name, "a move of the library", _nearest(wanted, move_names()))
    text = (_folder() / f"{wanted.replace(' ', '-')}.yaml").read_text(encoding="utf-8")
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
