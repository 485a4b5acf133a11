"""A cycle as JSON and back. What is read back equals what was written, or nothing is."""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from pathlib import Path
from typing import Any, Final

import msgspec

from leanmark.cycle.files.possible import check_possible
from leanmark.cycle.files.problems import CycleFileError, failure
from leanmark.cycle.files.whole import read_whole, write_whole
from leanmark.cycle.form import CYCLE_FORM, Cycle
from leanmark.errors import FieldError, shown_value

_WHAT: Final = "a cycle file, written by Leanmark"
_ANEW: Final = "export the cycle anew, or undo the change made by hand"
_ENTRY: Final = re.compile(r"\[(\d+)\]")
_AT: Final = re.compile(r" - at `(?P<path>[^`]*)`$")
_BYTE: Final = re.compile(r"\(byte (\d+)\)")


class _Head(msgspec.Struct):
    """What every version of the form begins with."""

    form: Any = None
    plans: msgspec.Raw = msgspec.Raw()


def cycle_json(cycle: Cycle) -> bytes:
    """The cycle as JSON, UTF-8, laid out one value a line; the same cycle gives the same bytes.

    Raises:
        FieldError: the cycle holds what cannot be (see ``check_possible``) or what JSON has no word for, such
            as a number that is not one.
    """
    check_possible(cycle)
    try:
        data = msgspec.json.encode(cycle)
        same = msgspec.json.decode(data, type=Cycle) == cycle
    except (msgspec.ValidationError, UnicodeError) as error:
        problem, where = _said(str(error))
        raise FieldError(where or "cycle", problem, "numbers and text that JSON can hold", _ANEW) from None
    if not same:
        remedy = "give plain numbers, and times with a fixed offset"
        raise FieldError("cycle", cycle.uid, "values that read back as the same", remedy)
    return msgspec.json.format(data, indent=1) + b"\n"


def write_cycle(cycle: Cycle, path: Path) -> Path:
    """Write the cycle as JSON, whole or not at all; gives the path.

    Raises:
        FieldError: as ``cycle_json``.
        OSError: the folder is missing or cannot be written to.
    """
    return write_whole(path, cycle_json(cycle))


def read_cycle(path: Path) -> Cycle:
    """Read the cycle file at ``path``.

    Raises:
        CycleFileError: it cannot be read, is no cycle file, is damaged or of an unknown form; one line.
    """
    return cycle_from_bytes(read_whole(path, _WHAT), str(path))


def cycle_from_bytes(data: bytes, file: str = "cycle.json") -> Cycle:
    """Read a cycle from JSON; ``file`` is what the problem calls it.

    Raises:
        CycleFileError: as ``read_cycle``.
    """
    data = data.removeprefix(BOM_UTF8)
    try:
        _check_head(msgspec.json.decode(data, type=_Head), file)
        cycle = msgspec.json.decode(data, type=Cycle)
        check_possible(cycle)
    except msgspec.ValidationError as error:
        problem, where = _said(str(error))
        raise failure(file, problem, _ANEW, where=where) from None
    except UnicodeDecodeError:
        raise _not_utf8(data, file) from None
    except msgspec.DecodeError as error:
        raise _no_json(data, file, str(error)) from None
    except RecursionError:
        raise failure(file, "brackets are nested too deep to read", f"give {_WHAT}") from None
    except FieldError as error:
        where, _, field = error.field.rpartition(": ")
        problem = f"{field} = {shown_value(error.value)} is not allowed (allowed: {error.allowed})"
        raise failure(file, problem, error.remedy, where=where) from None
    return cycle


def _check_head(head: _Head, file: str) -> None:
    if head.form is None or not bytes(head.plans):
        raise failure(file, "this is JSON, but not of a cycle: form or plans are missing", f"give {_WHAT}")
    if type(head.form) is not int or head.form < 1:
        problem = f"form = {shown_value(head.form)} is no version of the form"
        raise failure(file, problem, _ANEW)
    if head.form != CYCLE_FORM:
        problem = f"the cycle has form {head.form}, and this Leanmark reads form {CYCLE_FORM}"
        raise failure(file, problem, "read it with a newer Leanmark, or build the cycle anew")


def _said(message: str) -> tuple[str, str]:
    """What the reader found wrong, and where, counted from 1: ``plans entry 1, sessions entry 2: week``."""
    found = _AT.search(message)
    path = found["path"].removeprefix("$").lstrip(".") if found else ""
    steps = [_ENTRY.sub(lambda at: f" entry {int(at[1]) + 1}", step) for step in path.split(".")]
    *outer, last = steps
    where = ": ".join(filter(None, [", ".join(outer), last])) if " entry " not in last else ", ".join(steps)
    problem = (message[: found.start()] if found else message).replace("`", "'")
    return problem[:1].lower() + problem[1:], where


def _no_json(data: bytes, file: str, message: str) -> CycleFileError:
    if "truncated" in message:
        last = data.rstrip().count(b"\n") + 1
        return failure(file, "the file ends before the cycle does", "export the cycle anew", line=last)
    at = _BYTE.search(message)
    line = data.count(b"\n", 0, int(at[1])) + 1 if at else None
    return failure(file, f"not JSON: {message.removeprefix('JSON is malformed: ')}", _ANEW, line=line)


def _not_utf8(data: bytes, file: str) -> CycleFileError:
    at = _first_not_utf8(data)
    line = data.count(b"\n", 0, at) + 1
    return failure(file, f"byte {at + 1} of the file is not UTF-8", "save the file as UTF-8", line=line)


def _first_not_utf8(data: bytes) -> int:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        return error.start
    return len(data)
