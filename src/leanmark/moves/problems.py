"""What can be wrong with a move file, said in one line each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final

from leanmark.errors import one_line, shown_value

FieldPath = tuple[str | int, ...]
"""Keys and list positions, as in ``("rungs", 2, "mark", "start-m")``."""
_LISTED: Final = 12
"""Own figure: a longer list of what is allowed is left out when a near spelling says it."""
_MOST_LISTED: Final = 36
"""Own figure: a longer list fills the screen and is cut short."""


@dataclass(frozen=True)
class MoveProblem:
    """One problem: file, line and column (from 1; None when no line holds it), where, field, what is wrong,
    what to do.

    ``str()`` gives the one line a person reads, for instance ``step-row.yaml:24:7: rung 2 "deep":
    mark.start-m = 3 is outside its own range −1.5 to 0.1; move the start or widen the range``.
    """

    file: str
    line: int | None
    column: int | None
    where: str
    field: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}:{self.column}"
        where = f"{self.where}: " if self.where else ""
        return f"{place}: {where}{self.problem}; {self.remedy}"


class MoveFileError(Exception):
    """A move file that cannot be used; ``problems`` holds every problem in the order of the file's lines."""

    def __init__(self, problems: Iterable[MoveProblem]) -> None:
        self.problems = in_order(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        first, *more = self.problems
        return f"{first} (and {len(more)} more)" if more else str(first)


def in_order(problems: Iterable[MoveProblem]) -> tuple[MoveProblem, ...]:
    """Problems by file, line and column, each once."""
    key = lambda problem: (problem.file, problem.line or 0, problem.column or 0)  # noqa: E731
    return tuple(dict.fromkeys(sorted(problems, key=key)))


def file_problem(
    file: str, problem: str, remedy: str, line: int | None = None, column: int | None = None
) -> MoveProblem:
    """A problem of the file as a whole, or of its writing."""
    return MoveProblem(file, line, None if line is None else column or 1, "", "", problem, remedy)


def field_words(path: FieldPath) -> str:
    """A value's name inside its move or rung: ``phases.start.elbow.flexion``, ``cues entry 2``."""
    inside = path[2:] if path[:1] == ("rungs",) and len(path) > 2 else path
    words = [f" entry {part + 1}" if isinstance(part, int) else f".{one_line(part)}" for part in inside]
    return "".join(words).lstrip(". ")


def shown(value: object) -> str:
    """A value of a move file as one short printable piece of text."""
    match value:
        case None:
            return "nothing"
        case bool():
            return str(value).lower()
        case Mapping():
            return "a mapping"
        case list():
            return f"a list of {len(value)}"
    return shown_value(value)


def choice(given: object, known: Iterable[str]) -> str:
    """What to write instead of an unknown name: the nearest one; all where few or none is near."""
    names = list(known)
    near = nearest(given, names) if isinstance(given, str) else None
    listed = f"allowed: {listing(names)}" if len(names) <= _LISTED or not near else ""
    return "; ".join(filter(None, [f"did you mean '{near}'?" if near else "", listed]))


def listing(names: Sequence[str]) -> str:
    """Names with commas; of very many the first few, and how many more there are."""
    if len(names) <= _MOST_LISTED:
        return ", ".join(names)
    return f"{', '.join(names[:_LISTED])} and {len(names) - _LISTED} more"


def nearest(given: str, known: Iterable[str]) -> str | None:
    """The known name that was most likely meant, or None."""
    by_fold = {name.casefold(): name for name in known}
    plain = given.strip().casefold()[:80]
    for spelled in (plain, plain.replace(" ", "_"), plain.replace("_", "-"), plain.replace("_", " ")):
        if spelled in by_fold:
            return by_fold[spelled]
    close = get_close_matches(plain, by_fold, n=1, cutoff=0.6)
    return by_fold[close[0]] if close else None
