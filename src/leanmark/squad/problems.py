"""What can be wrong with a squad file, said in one line each."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from leanmark.errors import one_line

SHOWN_PROBLEMS: Final = 20  # own figure: a screenful; the rest is counted


@dataclass(frozen=True)
class SquadProblem:
    """One problem: file, line (None when no line holds it), where, field, what is wrong, what to do.

    ``str()`` gives the one line a person reads, for instance
    ``squad.toml:14: trainee 3 "Edda": stature_m = 178 is outside 1.0–2.5; it looks like centimetres: write
    stature_cm = 178``.
    """

    file: str
    line: int | None
    where: str
    field: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        where = f"{self.where}: " if self.where else ""
        return f"{place}: {where}{self.problem}; {self.remedy}"


class SquadFileError(Exception):
    """A squad file that cannot be used; ``problems`` holds every problem in the order of the file's lines."""

    def __init__(self, problems: Iterable[SquadProblem]) -> None:
        self.problems = tuple(sorted(problems, key=lambda problem: problem.line or 0))
        super().__init__(self.problems)

    def __str__(self) -> str:
        lines = [str(problem) for problem in self.problems[:SHOWN_PROBLEMS]]
        hidden = len(self.problems) - len(lines)
        if hidden:
            lines.append(f"{self.problems[0].file}: and {hidden} more like these; mend the ones above first")
        return "\n".join(lines)


def show(value: object) -> str:
    """A value of a TOML file as one short printable piece of text."""
    if isinstance(value, str):
        return f'"{one_line(value)}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and value.bit_length() > 64:
        return "a number too long to show"
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return one_line(str(value))


def show_range(low: float, high: float) -> str:
    """A range with as many decimals on both ends as the finer end needs, at most four digits: ``1.0–2.5``."""
    texts = [f"{end:.4g}" if abs(end) < 1000 else f"{end:.0f}" for end in (low, high)]
    decimals = max(len(text.partition(".")[2]) for text in texts)
    return (" to " if low < 0 else "–").join(f"{float(text):.{decimals}f}" for text in texts)


def show_above(low: float, high: float) -> str:
    """A range whose low end is not in it: ``above 0 and up to 180``."""
    return f"above {low:g} and up to {high:g}"


def any_of(names: Iterable[str]) -> str:
    """Names as a person lists them: ``a, b or c``."""
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
