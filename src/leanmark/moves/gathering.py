"""Gathers what is wrong with one move file, each with its place and the field in the reader's words."""

from __future__ import annotations

from collections.abc import Mapping
from math import isfinite
from typing import Any, Final

from leanmark.moves.names import MOST_ENTRIES
from leanmark.moves.problems import FieldPath, MoveProblem, field_words, shown
from leanmark.moves.source import Source

_TINY: Final = 1e-300


class Gathering:
    """One file being checked. problems: what was found so far."""

    def __init__(self, source: Source) -> None:
        self.problems: list[MoveProblem] = list(source.problems)
        self.source = source

    def report(self, path: FieldPath, problem: str, remedy: str) -> None:
        """Add a problem of the entry at ``path``, named in the reader's words."""
        line, column = self.source.place(path)
        words = field_words(path)
        self.problems.append(
            MoveProblem(self.source.file, line, column, _where(self.source, path), words, problem, remedy)
        )

    def wrong(self, path: FieldPath, value: object, allowed: str, remedy: str) -> None:
        """Add the problem of a value that is not allowed."""
        self.report(path, f"{field_words(path) or 'the file'} = {shown(value)} is not {allowed}", remedy)

    def entries(
        self, raw: object, path: FieldPath, least: int | None = None, most: int | None = None
    ) -> list[object]:
        """The entries of a list, none where it is none or has too few or too many."""
        least, most = least or 0, min(most or MOST_ENTRIES, MOST_ENTRIES)
        if not isinstance(raw, list):
            self.wrong(path, raw, "a list", "write it in square brackets, or below it with '- '")
        elif not least <= len(raw) <= most:
            allowed = f"{least}" if least == most else f"{least} to {most}"
            problem = f"{field_words(path)} has {_entries(len(raw))}, not {allowed}"
            self.report(path, problem, "add some" if len(raw) < least else "leave some out")
        else:
            return raw
        return []

    def mapping(self, raw: object, path: FieldPath) -> Mapping[str, object]:
        """The entries of a mapping, none where it is none or has too many."""
        if not isinstance(raw, Mapping):
            self.wrong(path, raw, "a mapping", "write it as {name: value}")
        elif len(raw) > MOST_ENTRIES:
            problem = f"{field_words(path)} has {_entries(len(raw))}, not 1 to {MOST_ENTRIES}"
            self.report(path, problem, "leave some out")
        else:
            return raw
        return {}

    def number(
        self, raw: object, path: FieldPath, limits: tuple[float, float], *, whole: bool = False
    ) -> None:
        """A number within limits, both included."""
        what = "a whole number" if whole else "a number"
        low, high = limits
        if isinstance(raw, bool) or not isinstance(raw, int if whole else (int, float)):
            self.wrong(path, raw, what, "write it with digits, decimals with a point")
        elif not (isfinite(raw) and low <= raw <= high):
            span = f"{'above 0' if 0.0 < low < _TINY else f'{low:g}'} to {high:g}".replace("-", "−")
            self.wrong(path, raw, f"{what} from {span}", _unit_remedy(path, raw))


def _where(source: Source, path: FieldPath) -> str:
    """The rung that a path leads into, as a person finds it."""
    if path[:1] != ("rungs",) or len(path) < 2 or not isinstance(path[1], int):
        return ""
    rungs: Any = source.value["rungs"] if isinstance(source.value, dict) else []
    rung = rungs[path[1]]
    name = rung.get("rung") if isinstance(rung, dict) else None
    return f"rung {path[1] + 1}" + (f" {shown(name)}" if isinstance(name, str) else "")


def _unit_remedy(path: FieldPath, value: float) -> str:
    name = next((part for part in reversed(path) if isinstance(part, str)), "")
    unit = {"m": "in metres", "deg": "in degrees", "s": "in seconds", "percent": "in per cent"}
    spelled = unit.get(name.rpartition("-")[2], "")
    return f"give it {spelled}" if spelled else "correct it"


def _entries(count: int) -> str:
    return "1 entry" if count == 1 else f"{count} entries"
