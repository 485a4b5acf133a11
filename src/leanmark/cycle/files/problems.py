"""What can be wrong with a file that a cycle or its sets are read from, said in one line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from leanmark.errors import one_line

_LONGEST: Final = 200
"""Own figure: enough for a path, and for what a reader of JSON says."""


@dataclass(frozen=True)
class CycleFileProblem:
    """One problem: file, line (None when no line holds it), where in the cycle, what is wrong, what to do.

    ``str()`` gives the one line a person reads, for instance ``winter.json: plans entry 1, sessions entry 2:
    expected int, got str, in 'week'; export the cycle anew``.
    """

    file: str
    line: int | None
    where: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        where = f"{self.where}: " if self.where else ""
        return f"{place}: {where}{self.problem}; {self.remedy}"


class CycleFileError(Exception):
    """A file that no cycle, or no sets of one, can be read from; ``problem`` says why."""

    def __init__(self, problem: CycleFileProblem) -> None:
        self.problem = problem
        super().__init__(problem)

    def __str__(self) -> str:
        return str(self.problem)


def failure(
    file: str, problem: str, remedy: str, *, where: str = "", line: int | None = None
) -> CycleFileError:
    """The error for one problem; the file's name and the texts are cut to one printable line."""
    return CycleFileError(
        CycleFileProblem(
            one_line(file, longest=_LONGEST),
            line,
            one_line(where, longest=_LONGEST),
            one_line(problem, longest=_LONGEST),
            remedy,
        )
    )
