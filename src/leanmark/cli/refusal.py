"""What went wrong, said in one line."""

from __future__ import annotations

import traceback
from concurrent.futures import BrokenExecutor
from typing import Any, Final

import typer

from leanmark.cli.interrupt import came_of_ctrl_c
from leanmark.cli.options import in_option_words
from leanmark.cycle.files.problems import CycleFileError
from leanmark.errors import FieldError, one_line
from leanmark.squad.problems import SquadFileError

_WRONG_USAGE: Final[type[Any]] = typer.BadParameter.__mro__[1]  # the command-line library's UsageError


def is_interrupt(error: Exception) -> bool:
    """Whether the error is Ctrl-C, as the command-line library or an import passes it on."""
    return isinstance(error, typer.Abort) or came_of_ctrl_c(error)


def refusal(error: Exception) -> tuple[str, bool]:
    """One line (for a squad file, one for each problem) about an error, and whether it is our own fault."""
    match error:
        case FieldError():
            return str(in_option_words(error)), False
        case SquadFileError() | CycleFileError():
            return str(error), False
        case OSError():
            where = f" ({one_line(str(error.filename), longest=200)})" if error.filename else ""
            return f"{error.strerror or error}{where}; check the path, and whether you may use it", False
        case MemoryError() | BrokenExecutor():
            return "not enough memory for this many people and moves at once; ask for fewer", False
        case Exception() if isinstance(error, _WRONG_USAGE):
            return _usage(error), False
    return _fault(error), True


def _usage(error: typer.BadParameter) -> str:
    message = one_line(error.format_message(), longest=400).rstrip(".")
    command = error.ctx.command_path if error.ctx else "leanmark"
    return f"{message}; see '{command} --help'"


def _fault(error: Exception) -> str:
    *_, last = traceback.extract_tb(error.__traceback__)
    what = one_line(f"{type(error).__name__}: {error}", longest=200)
    place = f"{last.filename.rpartition('leanmark')[2]}:{last.lineno}"
    return f"a fault of the program, not of your input: {what} at {place}; please report it with your command"
