"""Which line of a TOML text holds which value.

The standard library's TOML reader gives values without positions. This index walks the same text once more
and notes the line of every key, table and list element. It expects text that the reader has accepted; on
other text it finds fewer lines but raises nothing.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from functools import cached_property
from typing import Final, NamedTuple

from leanmark.squad.paths import ValuePath

_DEEPEST: Final = 8  # own figure: a squad file nests four deep; deeper brackets are stepped over unread

_TOKEN: Final = re.compile(
    r'''
      (?P<space>[ \t\r]+|\#[^\n]*)
    | (?P<newline>\n)
    | (?P<string>"""(?:[^\\]|\\.)*?"""(?:"{0,2})|\'\'\'.*?\'\'\'(?:\'{0,2})|"(?:[^"\\]|\\.)*"|\'[^\']*\')
    | (?P<mark>[\[\]{},=.])
    | (?P<bare>[^\s\[\]{},=.\#"\']+|.)
    ''',
    re.VERBOSE | re.DOTALL,
)


class _Token(NamedTuple):
    kind: str
    text: str
    line: int


_END: Final = _Token("end", "", 0)


class LineIndex:
    """The lines of a TOML text, found on first use."""

    def __init__(self, text: str) -> None:
        self.text = text

    def line(self, path: ValuePath) -> int | None:
        """The line (from 1) of the value at ``path``, else of the closest table around it, else None."""
        for length in range(len(path), 0, -1):
            if path[:length] in self._lines:
                return self._lines[path[:length]]
        return None

    @cached_property
    def _lines(self) -> dict[ValuePath, int]:
        walker = _Walker(self.text)
        walker.document()
        return walker.lines


def _tokens(text: str) -> Iterator[_Token]:
    line = 1
    for match in _TOKEN.finditer(text):
        kind = str(match.lastgroup)
        if kind != "space":
            yield _Token(kind, match.group(), line)
        if kind in ("newline", "string"):
            line += match.group().count("\n")


class _Walker:
    """One pass over the tokens with one token of look-ahead."""

    def __init__(self, text: str) -> None:
        self.lines: dict[ValuePath, int] = {}
        self._source = _tokens(text)
        self._list_lengths: dict[ValuePath, int] = {}
        self._token = next(self._source, _END)

    def document(self) -> None:
        table: ValuePath = ()
        while self._token.kind != "end":
            if self._token.kind == "newline":
                self._advance()
            elif self._token.text == "[":
                table = self._header()
            else:
                self._pair(table, depth=0)
                self._skip_to_line_end()

    def _note(self, path: ValuePath, shortest: int, line: int) -> None:
        """Note the line of a path and of each table on the way to it that was not met before."""
        for length in range(shortest, min(len(path), _DEEPEST) + 1):
            self.lines.setdefault(path[:length], line)

    def _advance(self) -> _Token:
        token, self._token = self._token, next(self._source, _END)
        return token

    def _take(self, mark: str) -> bool:
        if self._token.kind == "mark" and self._token.text == mark:
            self._advance()
            return True
        return False

    def _skip_newlines(self) -> None:
        while self._token.kind == "newline":
            self._advance()

    def _skip_to_line_end(self) -> None:
        while self._token.kind not in ("newline", "end"):
            self._advance()

    def _header(self) -> ValuePath:
        line = self._token.line
        self._advance()
        is_list = self._take("[")
        path = self._resolve(self._key(), is_list)
        self._note(path, 1, line)
        self.lines[path] = line
        self._skip_to_line_end()
        return path

    def _resolve(self, key: tuple[str, ...], is_list: bool) -> ValuePath:
        """A header's path, with the position of the newest element after each list of tables on the way."""
        path: ValuePath = ()
        for part in key[:-1]:
            path = (*path, part)
            if path in self._list_lengths:
                path = (*path, self._list_lengths[path] - 1)
        path = (*path, *key[-1:])
        if is_list:
            self._list_lengths[path] = self._list_lengths.get(path, 0) + 1
            path = (*path, self._list_lengths[path] - 1)
        return path

    def _key(self) -> tuple[str, ...]:
        parts: list[str] = []
        while self._token.kind in ("bare", "string"):
            token = self._advance()
            parts.append(_unquote(token.text) if token.kind == "string" else token.text)
            if not self._take("."):
                break
        return tuple(parts)

    def _pair(self, table: ValuePath, depth: int) -> None:
        line, key = self._token.line, self._key()
        path = (*table, *key)
        self._note(path, len(table) + 1, line)
        if not self._take("="):
            self._advance()
            return
        self._value(path, depth + 1)

    def _value(self, path: ValuePath, depth: int) -> None:
        if self._token.text in ("[", "{") and depth > _DEEPEST:
            self._skip_brackets()
        elif self._take("["):
            self._list(path, depth)
        elif self._take("{"):
            self._inline_table(path, depth)
        else:
            while self._token.kind not in ("newline", "end") and self._token.text not in (",", "]", "}"):
                self._advance()

    def _list(self, path: ValuePath, depth: int) -> None:
        position = 0
        while True:
            self._skip_newlines()
            if self._token.kind == "end" or self._take("]"):
                return
            self.lines[*path, position] = self._token.line
            self._value((*path, position), depth + 1)
            position += 1
            self._skip_newlines()
            if not self._take(",") and self._token.text != "]":
                self._advance()

    def _inline_table(self, path: ValuePath, depth: int) -> None:
        while True:
            self._skip_newlines()
            if self._token.kind == "end" or self._take("}"):
                return
            self._pair(path, depth)
            self._skip_newlines()
            self._take(",")

    def _skip_brackets(self) -> None:
        open_brackets = 0
        while self._token.kind != "end":
            mark = self._advance()
            open_brackets += (mark.text in ("[", "{")) - (mark.text in ("]", "}"))
            if not open_brackets:
                return


def _unquote(quoted: str) -> str:
    """A quoted key as the text it stands for."""
    try:
        return str(tomllib.loads(f"key = {quoted}")["key"])
    except tomllib.TOMLDecodeError:
        return quoted
