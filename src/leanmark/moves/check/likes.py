"""Checks what a move file inherits from, and the names of its rungs."""

from __future__ import annotations

from collections.abc import Mapping

from leanmark.errors import FieldError
from leanmark.moves.files import named, plain, set_up_files, to_start_from
from leanmark.moves.gathering import Gathering
from leanmark.moves.problems import MoveFileError, choice


def like_problems(check: Gathering, raw: Mapping[str, object]) -> None:
    """``like`` at the top names a set-up or a move of the library that is there and leads back to no one;
    ``like`` in a rung names a rung further up; no two rungs have one name."""
    if "like" in raw:
        _top(check, raw)
    rungs = raw.get("rungs")
    names: list[str] = []
    for at, rung in enumerate(rungs if isinstance(rungs, list) else []):
        if not isinstance(rung, Mapping):
            continue
        if "like" in rung and rung["like"] not in names:
            path = ("rungs", at, "like")
            check.wrong(path, rung["like"], "a rung further up the same file", _earlier(rung["like"], names))
        name = rung.get("rung")
        if isinstance(name, str) and name in names:
            problem = f"'{name}' is also the name of rung {names.index(name) + 1}"
            check.report(("rungs", at, "rung"), problem, "give it a name of its own")
        names.append(name if isinstance(name, str) else "")


def _earlier(given: object, names: list[str]) -> str:
    return choice(given, names) if any(names) else "name an earlier rung, or leave like out"


def _top(check: Gathering, raw: Mapping[str, object]) -> None:
    """What the file starts from. A file in the library may not be like itself by way of others."""
    name, passed = raw["like"], list[object]()
    if not isinstance(name, str) or not (name in set_up_files() or plain(name) in _plain_names()):
        allowed = "a shared set-up or a move of the library"
        check.wrong(("like",), name, allowed, choice(name, to_start_from()))
        return
    while isinstance(name, str):
        if name in passed:
            check.wrong(
                ("like",), raw["like"], "free of a circle: it leads back to itself", "leave one like out"
            )
            return
        passed.append(name)
        try:
            name = named(name).get("like")
        except (FieldError, MoveFileError) as error:
            check.wrong(("like",), raw["like"], f"one that can be read ({error})", "mend that file first")
            return


def _plain_names() -> frozenset[str]:
    """The plain names of what a file may be like."""
    return frozenset(map(plain, to_start_from()))
