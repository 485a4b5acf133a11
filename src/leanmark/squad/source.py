"""From a file's bytes to TOML data: encoding, size and syntax, each failure as one line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from leanmark.errors import one_line
from leanmark.squad.problems import SquadFileError, SquadProblem

MOST_TRAINEES: Final = 2000
"""Own figure: a squad is planned and printed as one batch, and 2000 cards are already a stack 20 cm high."""
LARGEST_FILE_BYTES: Final = 2_000_000  # 1 kB for each trainee; a full trainee table takes about 400 bytes
MOST_DOTS: Final = (
    30  # own figure: a squad file needs three; the standard reader's memory grows with the square
)
_DOTTED_PART: Final = r"""(?:[\w-]++|"(?:[^"\\\n]|\\.)*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+"""
_DOTTED: Final = re.compile(rf"(?<![\w-])(?:{_DOTTED_PART}){{{MOST_DOTS}}}")
_TOO_MANY_DIGITS: Final = re.compile(r"[0-9_]{1000}")
_LIKE_A_DATE: Final = re.compile(r"(?<![\w.])\d{1,4}(?:[:/]\d{1,4}|(?:[:./-]\d{1,4}){2})(?![\w.:/-])")
_TEXT_OR_COMMENT: Final = re.compile(r""""[^"]*"|'[^']*'|\#.*""")

_SAVE_AS_UTF8: Final = "save the file as UTF-8"
_BYTE_ORDER_MARKS: Final[dict[bytes, str]] = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}

_SYNTAX_HINTS: Final[dict[str, tuple[str, str]]] = {
    "Illegal character '\\n'": ("a quoted text does not end on its line", "close it with the same quote"),
    "invalid character": ("there is a control character in the text", "delete it"),
    "Illegal character": ("there is a control character in the text", "delete it"),
    "after a statement": (
        "there is more on the line than one field",
        "write one field a line, and decimals with a point, as in 74.5",
    ),
    "Cannot overwrite": ("a field or table is given twice", "keep one; each trainee starts with [[trainee]]"),
    "Cannot declare": ("a table is given twice", "keep one; each trainee starts with [[trainee]]"),
    "Cannot mutate": ("a closed table is added to", "write its fields in one place"),
    "Expected '=' after": ("a field has no equals sign", "write field = value, as in mass_kg = 74"),
    "Expected ']": ("a table's brackets are not closed", "write [rig] or [[trainee]] alone on its line"),
    "Invalid value": (
        "this value is not one that TOML knows",
        "put text in straight double quotes and write decimals as in 0.5",
    ),
    "Invalid statement": ("this line is neither a field nor a table", "write field = value, or [table]"),
    "Invalid initial character": (
        "a field has no plain name",
        "use letters, digits, - and _, or quote the name",
    ),
    "Unclosed": ("a list or an inline table is not closed", "close it with ] or }"),
    "Unescaped '\\'": ("there is a single backslash in quoted text", "double it, or use single quotes"),
    "Unterminated string": ("a quoted text is not closed", "close it with the same quotes"),
    "Invalid date": ("there is no such date or time", "correct it"),
}


def read_bytes(path: Path) -> bytes:
    """The bytes of a squad file.

    Raises:
        SquadFileError: no such file, a folder, too large, or unreadable.
    """
    file = file_label(str(path))
    try:
        if path.is_dir():
            raise failure(file, None, "this is a folder", "give the squad file inside it")
        if not path.is_file():
            raise failure(
                file, None, "there is no such file", "check the path, or start from demo/squad.toml"
            )
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise _too_large(file, path.stat().st_size)
        return path.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise failure(
            file, None, f"the file cannot be read ({one_line(reason)})", "check its path and rights"
        ) from None


def parse(data: bytes, file: str) -> tuple[str, Mapping[str, object]]:
    """The text of a squad file and its TOML data.

    Raises:
        SquadFileError: too large, not UTF-8, not TOML, or empty.
    """
    if len(data) > LARGEST_FILE_BYTES:
        raise _too_large(file, len(data))
    text = _decode(data, file)
    dotted = _DOTTED.search(text)
    if dotted:
        problem = f"a name has more than {MOST_DOTS} parts with dots between them"
        raise failure(file, _line_at(text, dotted.start()), problem, "no field of a squad file needs that")
    try:
        values = tomllib.loads(text)
    except RecursionError:
        raise failure(
            file, None, "brackets are nested too deep to read", "remove the extra brackets"
        ) from None
    except ValueError as error:
        raise _syntax_failure(file, text, str(error)) from None
    if not values:
        raise failure(
            file,
            None,
            "the file holds no fields",
            "it needs squad, [rig] and [[trainee]]: see demo/squad.toml",
        )
    return text, values


def failure(file: str, line: int | None, problem: str, remedy: str) -> SquadFileError:
    """A problem of the file as a whole."""
    return SquadFileError([SquadProblem(file, line, "", "", problem, remedy)])


def file_label(file: str) -> str:
    """A file's name as it is shown at the start of a line."""
    return one_line(file, longest=200)


def _decode(data: bytes, file: str) -> str:
    for mark, encoding in _BYTE_ORDER_MARKS.items():
        if data.startswith(mark):
            start = mark.hex(" ").upper()
            raise failure(
                file, 1, f"the file starts with the bytes {start}, so it is {encoding}", _SAVE_AS_UTF8
            )
    if b"\0" in data:
        at = data.index(b"\0")
        problem = f"byte {at + 1} of the file is 00, so it is UTF-16 or no text at all"
        raise failure(file, data.count(b"\n", 0, at) + 1, problem, _SAVE_AS_UTF8)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # the reader that drops the byte order mark counts from behind it, so the place is found again here
        at = error.start + (len(data) - len(error.object))
        byte = data[at]
        looks = f' (in Latin-1 it would be "{one_line(chr(byte))}")' if byte >= 0xA0 else ""
        problem = f"byte {at + 1} of the file is {byte:02X}, which is not UTF-8{looks}"
        raise failure(file, data.count(b"\n", 0, at) + 1, problem, _SAVE_AS_UTF8) from None


def _syntax_failure(file: str, text: str, message: str) -> SquadFileError:
    found = re.search(r" \(at (?:line (\d+), column \d+|end of document)\)", message)
    if found is None:
        digits = _TOO_MANY_DIGITS.search(text)
        line = _line_at(text, digits.start()) if digits else None
        return failure(file, line, "a whole number has too many digits", "write it as a person would")
    line = int(found[1]) if found[1] else _line_at(text, len(text.rstrip()))
    wrong = _no_date_or_time(text.split("\n")[line - 1])
    if wrong and "Invalid date" not in message:
        problem = f"{wrong} is no date or time as TOML writes them"
        return failure(file, line, problem, "write a date as 2026-11-30 and a time as 18:00:00")
    for start, (problem, remedy) in _SYNTAX_HINTS.items():
        if start in message:
            return failure(file, line, problem, remedy)
    plain = one_line(message[: found.start()], longest=120)
    return failure(file, line, f"not TOML: {plain}", "compare the line with docs/squad-file.md")


def _no_date_or_time(line: str) -> str | None:
    """The first piece of a line that was meant for a date or a time and is neither in TOML; None without."""
    for found in _LIKE_A_DATE.finditer(_TEXT_OR_COMMENT.sub("", line)):
        try:
            tomllib.loads(f"when = {found[0]}")
        except ValueError:
            return found[0]
    return None


def _line_at(text: str, position: int) -> int:
    return text.count("\n", 0, position) + 1


def _too_large(file: str, size_bytes: int) -> SquadFileError:
    problem = f"the file has {size_bytes / 1e6:.1f} MB, more than {LARGEST_FILE_BYTES / 1e6:g} MB"
    remedy = f"a squad file holds at most {MOST_TRAINEES} trainees: split it into several files"
    return failure(file, None, problem, remedy)
