"""From a move file's bytes to values, each with its place in the file; every failure is one line.

Of YAML only what a move file needs is read: mappings, lists, text, decimal numbers, true, false and null. An
unquoted ``no``, ``12:30`` or ``2026-01-31`` is text, as current YAML has it. Anchors, aliases and tags are
refused: moves inherit by ``like``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import yaml

try:
    from yaml import CSafeLoader as _Loader
except ImportError:
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

from leanmark.errors import one_line
from leanmark.moves.problems import FieldPath, MoveFileError, MoveProblem, file_problem

LARGEST_FILE_BYTES: Final = 200_000
"""Own figure: thirty times the library's longest file."""
DEEPEST: Final = 12
"""Own figure: a move file nests eight deep."""
_TAG: Final = "tag:yaml.org,2002:"
_MOST_DIGITS: Final = 18
_UNPRINTED: Final = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufdcf\ufdf0-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)

_HINTS: Final[dict[str, tuple[str, str]]] = {
    "cannot start any token": (
        "a tab or a sign that no value starts with",
        "indent with spaces, and put text that starts with a sign in quotes",
    ),
    "tab character": ("a tab at the start of the line", "indent with spaces"),
    "mapping values are not allowed": (
        "a colon where no field can start",
        "put text that holds a colon in quotes, and each field on a line of its own, indented alike",
    ),
    "could not find expected ':'": ("a field without its colon", "write field: value"),
    "did not find expected key": (
        "this line fits neither the field before it nor the list",
        "indent it like the fields that it belongs with",
    ),
    "did not find expected ',' or": (
        "a list or mapping in brackets goes on in the wrong way",
        "put commas between the entries and close the bracket",
    ),
    "did not find expected '-'": ("this line fits no list", "start each entry with '- ', all indented alike"),
    "unexpected end of stream": ("a quoted text is not closed", "close it with the same quote"),
    "but found another document": ("there is a second document in the file", "put each move in its own file"),
    "undefined alias": ("an alias (*) without its anchor", "write the entry out, or put the text in quotes"),
    "exceeded maximum nesting": ("brackets or lists are nested too deep", "remove the extra ones"),
}


class _Composer(_Loader):
    """Composes nodes; plain scalars are null, true, false, decimal numbers, or text."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, re.Pattern[str]]]] = {}  # noqa: RUF012


_Composer.add_implicit_resolver(f"{_TAG}null", re.compile(r"^(?:~|null|)$"), ["~", "n", ""])
_Composer.add_implicit_resolver(f"{_TAG}bool", re.compile(r"^(?:true|false)$"), ["t", "f"])
_Composer.add_implicit_resolver(f"{_TAG}int", re.compile(r"^[-+]?[0-9]+$"), list("-+0123456789"))
_Composer.add_implicit_resolver(
    f"{_TAG}float",
    re.compile(r"^[-+]?(?:(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|\.(?:inf|nan))$"),
    list("-+.0123456789"),
)


@dataclass(frozen=True)
class Source:
    """What a file holds: its values, and where each is written. problems: fields given twice, aliases, tags
    and whatever else was left out of the values."""

    file: str
    value: object
    node: yaml.Node
    problems: tuple[MoveProblem, ...]

    def place(self, path: FieldPath) -> tuple[int, int]:
        """Line and column (from 1) of the entry at a path, or of the closest entry around it."""
        node, mark = self.node, self.node.start_mark
        for part in path:
            found = _entry(node, part)
            if found is None:
                break
            mark, node = found[0].start_mark, found[1]
        return mark.line + 1, mark.column + 1


def read_source(path: Path) -> Source:
    """Read a move file. Raises MoveFileError: no such file, a folder, too large, or as ``parse``."""
    file = one_line(str(path), longest=200)
    try:
        if path.is_dir():
            raise _failed(file, "this is a folder", "give the move files inside it")
        if not path.is_file():
            raise _failed(file, "there is no such file", "check the path")
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise _too_large(file, path.stat().st_size)
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = one_line(str(getattr(error, "strerror", None) or error))
        raise _failed(file, f"the file cannot be read ({reason})", "check its path and rights") from None
    return parse(data, file)


def parse(data: bytes, file: str) -> Source:
    """The values of a move file. Raises MoveFileError: too large, not UTF-8, not YAML, or empty."""
    if len(data) > LARGEST_FILE_BYTES:
        raise _too_large(file, len(data))
    text = _decoded(data, file)
    try:
        node = yaml.compose(text, Loader=_Composer)
    except yaml.MarkedYAMLError as error:
        raise _syntax(file, error) from None
    except RecursionError:
        raise _failed(file, *_HINTS["exceeded maximum nesting"]) from None
    if node is None:
        raise _failed(file, "the file holds nothing", "start it with the line move: and the move's name")
    reader = _Reader(file)
    value = reader.value(node, 0)
    return Source(file, value, node, tuple(reader.problems))


class _Reader:
    """Turns nodes into values and gathers what is not allowed on the way."""

    def __init__(self, file: str) -> None:
        self.problems: list[MoveProblem] = []
        self._file = file
        self._seen: set[int] = set()

    def value(self, node: yaml.Node, depth: int) -> object:
        if isinstance(node, yaml.ScalarNode):
            return self._scalar(node)
        if depth > DEEPEST:
            return self._refuse(node, "lists and mappings are nested too deep here", "remove the extra ones")
        if id(node) in self._seen:
            return self._refuse(node, "an alias (*) repeats this entry", "write it out, or inherit by like")
        self._seen.add(id(node))
        if isinstance(node, yaml.SequenceNode) and node.tag == f"{_TAG}seq":
            return [self.value(item, depth + 1) for item in node.value]
        if isinstance(node, yaml.MappingNode) and node.tag == f"{_TAG}map":
            return self._mapping(node, depth)
        return self._refuse_tag(node)

    def _mapping(self, node: yaml.MappingNode, depth: int) -> dict[str, object]:
        found: dict[str, object] = {}
        first: dict[str, int] = {}
        for key, item in node.value:
            if not isinstance(key, yaml.ScalarNode):
                self._refuse(key, "a list or mapping stands for a field's name", "write field: value")
                continue
            name = str(key.value)
            if name in first:
                problem = f"'{one_line(name)}' is given twice, first in line {first[name]}"
                self._refuse(key, problem, "keep one of the two")
            else:
                first[name] = key.start_mark.line + 1
                found[name] = self.value(item, depth + 1)
        return found

    def _scalar(self, node: yaml.ScalarNode) -> object:
        text = str(node.value)
        match node.tag.removeprefix(_TAG):
            case "str":
                return text
            case "null":
                return None
            case "bool" if text in ("true", "false"):
                return text == "true"
            case "int" if re.fullmatch(r"[-+]?[0-9]+", text):
                return int(text) if len(text) <= _MOST_DIGITS else float(text)
            case "float" if re.fullmatch(r"[-+]?[.0-9][-+.0-9eE]*|[-+]?\.(inf|nan)", text):
                return float(text.replace(".inf", "inf").replace(".nan", "nan"))
        return self._refuse_tag(node)

    def _refuse_tag(self, node: yaml.Node) -> object:
        return self._refuse(node, f"a tag ({one_line(node.tag)}) is no part of a move file", "delete it")

    def _refuse(self, node: yaml.Node, problem: str, remedy: str) -> object:
        mark = node.start_mark
        self.problems.append(file_problem(self._file, problem, remedy, mark.line + 1, mark.column + 1))
        return None


def _entry(node: yaml.Node, part: str | int) -> tuple[yaml.Node, yaml.Node] | None:
    """The node that marks where an entry starts (its name, in a mapping), and the entry's own."""
    if isinstance(node, yaml.MappingNode):
        pairs = ((key, item) for key, item in node.value if getattr(key, "value", None) == part)
        return next(pairs, None)
    if isinstance(node, yaml.SequenceNode) and isinstance(part, int) and part < len(node.value):
        return node.value[part], node.value[part]
    return None


def _decoded(data: bytes, file: str) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\0" in data:
        raise _failed(file, "the file is UTF-16 or no text at all", "save it as UTF-8", 1)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        at = error.start + len(data) - len(error.object)
        line = data.count(b"\n", 0, at) + 1
        problem = f"byte {at + 1} of the file is {data[at]:02X}, which is not UTF-8"
        raise _failed(file, problem, "save it as UTF-8", line) from None
    strange = _UNPRINTED.search(text)
    if strange:
        line = text.count("\n", 0, strange.start()) + 1
        raise _failed(file, f"the sign U+{ord(strange[0]):04X} does not print", "delete it", line)
    return text


def _syntax(file: str, error: yaml.MarkedYAMLError) -> MoveFileError:
    mark = error.problem_mark or error.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (None, None)
    said = f"{error.problem or ''} {error.context or ''}"
    for start, (problem, remedy) in _HINTS.items():
        if start in said:
            return MoveFileError([file_problem(file, problem, remedy, line, column)])
    problem = f"not YAML: {one_line(said.strip(), longest=120)}"
    remedy = "compare the line with docs/writing-a-move.md"
    return MoveFileError([file_problem(file, problem, remedy, line, column)])


def _failed(file: str, problem: str, remedy: str, line: int | None = None) -> MoveFileError:
    return MoveFileError([file_problem(file, problem, remedy, line)])


def _too_large(file: str, size_bytes: int) -> MoveFileError:
    problem = f"the file has {size_bytes / 1e3:.0f} kB, more than {LARGEST_FILE_BYTES / 1e3:.0f} kB"
    return _failed(file, problem, "a move file holds one move: split it")
