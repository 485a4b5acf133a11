"""Writes ``docs/commands.md`` from the commands themselves.

``python -m leanmark.cli.reference docs`` writes the page anew; a test says when it is behind the code.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final, Protocol, cast

import typer

from leanmark.cli.app import app
from leanmark.cli.quantities import LOADS_PERCENT, MOST_PEOPLE, QUANTITIES
from leanmark.units import UNITS

PAGE: Final = "commands.md"
_OPENING: Final = """# Commands

Written by `python -m leanmark.cli.reference docs` from the commands themselves; a test says when it is behind
them. Worked examples are in the [how-to](how-to.md).

A length, mass or force is written with its unit, in quotes where there is a space: `178 cm`, `'5 ft 10 in'`,
`165 lb`, `'32 kgf'`. A bare number is in metres, kilograms or newtons. The real minus sign that answers are
printed with (`−60 cm`) may be typed or pasted, and so may a plain one.

Answers go to the standard output: a table in the units asked for, or, with `--json`, one line of JSON in SI
units (UTF-8; a number that does not exist is `null`). What is wrong goes to the standard error as one line
that names the option, or file and line, the value, what is allowed and what to do.

| exit code | meaning |
|---|---|
| 0 | done |
| 1 | a fault of the program, or nobody read the output to its end |
| 2 | the input cannot be used, or none of the wanted loads can be had; nothing was written |
| 130 | stopped with Ctrl-C; nothing was written half |
"""

_HEAD: Final = ("| argument or option | meaning |", "|---|---|")
_COMMON: Final = "Who, and on which rig"
_LINK: Final = "the options that say [who, and on which rig](#who-and-on-which-rig)"


class _Parameter(Protocol):
    """What is read of an argument or option of the command-line library."""

    param_type_name: str
    opts: Sequence[str]
    name: str
    help: str | None
    required: bool
    default: object
    multiple: bool


def page() -> str:
    """The page's text."""
    commands = _with_sub_commands(cast(Any, typer.main.get_command(app)).commands)
    rows = {name: [_row(parameter) for parameter in _parameters(it)] for name, it in commands.items()}
    stature = next(row for row in rows["load"] if "`--stature`" in row)
    stands = {name: own for name, own in rows.items() if stature in own}
    shared = [row for row in rows["load"] if all(row in own for own in stands.values())]
    parts = []
    for name, own in rows.items():
        more = [f"Also {_LINK}.", ""] if name in stands else []
        kept = [row for row in own if row not in shared] if name in stands else own
        listed = [*_HEAD, *kept, ""] if kept else []
        parts.append("\n".join([f"## leanmark {name}", "", commands[name].help, "", *listed, *more]))
    parts = [_whole_program(), *parts]
    text = f"The same options in {', '.join(f'`leanmark {name}`' for name in stands)}."
    return "\n".join([_OPENING, *parts, f"## {_COMMON}", "", text, "", *_HEAD, *shared, "", _limits()])


def _whole_program() -> str:
    """What stands before any command's name."""
    rows = [_row(parameter) for parameter in _parameters(typer.main.get_command(app))]
    text = "These stand before the command's name, as in `leanmark --own-moves FOLDER load row`."
    return "\n".join(["## leanmark", "", text, "", *_HEAD, *rows, ""])


def _with_sub_commands(commands: dict[str, Any], above: str = "") -> dict[str, Any]:
    """Every command by the words it is called with, each group's own commands behind it."""
    found: dict[str, Any] = {}
    for name, command in commands.items():
        found[above + name] = command
        found |= _with_sub_commands(getattr(command, "commands", {}), f"{above}{name} ")
    return found


def _parameters(command: Any) -> list[_Parameter]:  # noqa: ANN401
    return [parameter for parameter in command.params if parameter.name != "help"]


def _row(parameter: _Parameter) -> str:
    repeated = " May be repeated." if parameter.multiple else ""
    return f"| {_spelled(parameter)} | {parameter.help}{repeated}{_when_left_out(parameter)} |"


def _spelled(parameter: _Parameter) -> str:
    is_argument = parameter.param_type_name == "argument"
    return f"`{parameter.name.upper() if is_argument else parameter.opts[0]}`"


def _when_left_out(parameter: _Parameter) -> str:
    if parameter.required:
        return " Required."
    return "" if parameter.default in (None, False, ()) else f" `{parameter.default}` if left out."


def _limits() -> str:
    rows = [
        f"| `{option}` | {row.low:g} to {row.high:g} {UNITS[row.si].symbol} | `{row.example}` |"
        for option, row in QUANTITIES.items()
    ]
    rows.append(f"| `--load` | {LOADS_PERCENT[0]:g} to {LOADS_PERCENT[1]:g} % | `35` |")
    rows.append(f"| `--people` | 1 to {MOST_PEOPLE} | `2` |")
    head = ["## What numbers may be", "", "| option | allowed | for example |", "|---|---|---|"]
    return "\n".join([*head, *rows, ""])


if __name__ == "__main__":
    (Path(sys.argv[1]) / PAGE).write_text(page(), encoding="utf-8")
