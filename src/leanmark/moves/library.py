"""Find and read moves: the library's, with a coach's own laid over them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import msgspec

from leanmark.errors import FieldError
from leanmark.moves.files import families, library_files, named, named_poses, plain, read
from leanmark.moves.inherit import Raw, laid_out
from leanmark.moves.own import own_files, own_move, unreadable
from leanmark.moves.problems import listing, nearest
from leanmark.moves.schema import Move, Rung

__all__ = [
    "families",
    "find_rung",
    "load_move",
    "move_names",
    "move_of",
    "named_poses",
    "own_move_names",
    "unreadable_moves",
]


def move_names() -> tuple[str, ...]:
    """The names of all moves that can be read, in alphabetical order, as the trade writes them.

    Raises FieldError where the coach's own folder is not there.
    """
    own = {key: one.name for key, one in own_files().items()}
    names = {key: name for key, (name, _) in library_files().items()} | own
    return tuple(sorted({*names.values()} - {*unreadable()}, key=str.lower))


def own_move_names() -> tuple[str, ...]:
    """The names of the coach's own moves that can be read."""
    return tuple(sorted({one.name for one in own_files().values()} - {*unreadable()}, key=str.lower))


def unreadable_moves() -> dict[str, Path]:
    """The coach's own files that cannot be read, by their move's name."""
    return unreadable()


def load_move(name: str) -> Move:
    """Read one move by name; hyphens, underscores and capitals do not matter. A coach's own move goes before
    the library's.

    Raises FieldError for a name that there is not, and for an own move that cannot be read.
    """
    own = own_files().get(plain(name))
    return own_move(own) if own else _library_move(name)


def _library_move(name: str) -> Move:
    if plain(name) not in library_files():
        raise FieldError("move", name, "a move of the library", _nearest(plain(name), move_names()))
    return _read(plain(name))


@cache
def _read(key: str) -> Move:
    raw = read(library_files()[key][1])
    return move_of(raw if isinstance(raw, dict) else {})


def move_of(raw: Raw) -> Move:
    """A move from its file's mapping, with everything inherited laid out."""
    return msgspec.convert(laid_out(raw, named, families(), named_poses()), Move)


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
    near = nearest(wanted, known)
    return f"did you mean '{near}'?" if near else f"the library has: {listing(known)}"
