"""Checks a move with everything that it inherits laid out: what is still missing, what no longer fits, and
whether its gates lead anywhere."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from leanmark.errors import FieldError, one_line
from leanmark.moves.check.fields import needs_of, required_of
from leanmark.moves.files import families, named, named_poses
from leanmark.moves.gathering import Gathering
from leanmark.moves.inherit import Raw, laid_out
from leanmark.moves.problems import FieldPath, MoveFileError, choice, shown
from leanmark.moves.schema import Gate, Mark, Move, Phases, Rung

Rungs = Callable[[str], tuple[str, ...] | None]
"""The names of the rungs of a move; None where there is no such move; none where it cannot be read."""


def whole_move(check: Gathering, raw: Raw) -> Move | None:
    """The move of a file whose fields are in order, or None after reporting what is wrong with it."""
    try:
        whole = laid_out(raw, named, families(), named_poses())
    except (FieldError, MoveFileError) as error:
        path = ("like",) if "like" in raw else ()
        check.report(path, f"what it inherits cannot be read ({error})", "mend it")
        return None
    before = len(check.problems)
    _missing(check, Move, whole, ())
    for rung in whole["rungs"]:
        _missing(check, Rung, rung, rung_path(raw, str(rung.get("rung"))))
    return _converted(check, raw, whole) if len(check.problems) == before else None


def _missing(
    check: Gathering, kind: type[msgspec.Struct], whole: Mapping[str, object], path: FieldPath
) -> None:
    """Report fields that neither the file nor what it inherits gives."""
    for name in required_of(kind):
        if name not in whole:
            nobody = "neither the file nor what it inherits gives it"
            check.report(path, f"{name} is missing: {nobody}", f"add {name}, {needs_of(kind, name)}")
    for name, inner in (("mark", Mark), ("phases", Phases)):
        part = whole.get(name)
        if not isinstance(part, Mapping):
            continue
        for own in required_of(inner):
            if own not in part:
                words = f"{name}.{own} is missing: the file gives {name} without it"
                check.report((*path, name), words, f"add {own}, {needs_of(inner, own)}")


def _converted(check: Gathering, raw: Raw, whole: Raw) -> Move | None:
    """The move itself; what only shows in the whole is reported once for the move and once for each rung."""
    before = len(check.problems)
    for rung in whole["rungs"]:
        _convert(check, rung, Rung, rung_path(raw, str(rung.get("rung"))))
    if len(check.problems) > before:
        return None
    move: Move | None = _convert(check, whole, Move, ())
    return move


def _convert(check: Gathering, whole: object, kind: type, path: FieldPath) -> Any:  # noqa: ANN401
    try:
        return msgspec.convert(whole, kind)
    except msgspec.ValidationError as error:
        cause = error.__cause__
        if isinstance(cause, FieldError):
            words = f"{cause.field} = {shown(cause.value)} is not allowed (allowed: {cause.allowed})"
            part = next((name for name in ("mark",) if f"$.{name}" in str(error)), None)
            check.report((*path, part) if part else path, words, cause.remedy)
        else:
            said = one_line(str(error), longest=160)
            problem = f"with what it inherits it cannot be read ({said})"
            check.report(path, problem, "write that entry out here")
    return None


def rung_path(raw: Mapping[str, Any], name: str) -> FieldPath:
    """Where a rung is written in its file: its own entry, or ``like`` where it comes from there."""
    for number, written in enumerate(raw.get("rungs") or []):
        if written.get("rung") == name:
            return ("rungs", number)
    return ("like",) if "like" in raw else ()


def gate_problems(check: Gathering, raw: Raw, move: Move, rungs_of: Rungs) -> None:
    """Gates that name a move or rung that is not there. Only the file's own gates: inherited ones are
    checked where they are written."""
    for at, rung in enumerate(raw.get("rungs") or []):
        for number, entry in enumerate(rung.get("gates") or []):
            path = ("rungs", at, "gates", number)
            gate = msgspec.convert(entry, Gate)
            if gate.move is None or gate.move == move.move:
                known: tuple[str, ...] | None = tuple(one.rung for one in move.rungs)
            else:
                known = rungs_of(gate.move)
            if known is None:
                allowed = "a move of the library or of your own"
                check.wrong((*path, "move"), gate.move, allowed, "check the name")
            elif known and gate.rung not in known:
                allowed = f"a rung of {gate.move or move.move}"
                check.wrong((*path, "rung"), gate.rung, allowed, choice(gate.rung, known))
