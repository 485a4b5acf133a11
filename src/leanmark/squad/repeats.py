"""What stands twice in a squad file: names of trainees, and entries of lists."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Final

from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.problems import show
from leanmark.squad.reader import Reader
from leanmark.squad.source import MOST_TRAINEES
from leanmark.squad.text import repeated, same_name_key

_LISTS: Final[tuple[ValuePath, ...]] = (
    ("rig", "kit"),
    ("cards", "moves"),
    ("cards", "loads_percent"),
    ("cycle", "days"),
    ("cycle", "days_off"),
)
_LISTS_OF_A_TRAINEE: Final = ("emphasis", "avoid", "likes", "dislikes", "must", "days", "days_off")
"""Lists in which an entry may stand once."""


def check_repeats(reader: Reader) -> None:
    """Report names of trainees and entries of lists that stand twice."""
    trainees = _entries(reader, ("trainee",))
    if len(trainees) > MOST_TRAINEES:
        return
    _check_names(reader, trainees)
    for path in _lists(len(trainees)):
        entries = _entries(reader, path)
        plain = [entry if isinstance(entry, str | int | float | dt.date) else None for entry in entries]
        for at, first in repeated(plain).items():
            where: ValuePath = (*path, at)
            problem = f"{field_name(where)} = {show(entries[at])} repeats entry {first + 1}"
            reader.report(where, problem, "delete one of them")


def _check_names(reader: Reader, trainees: list[object]) -> None:
    names = [trainee.get("name") if isinstance(trainee, dict) else None for trainee in trainees]
    keys = [same_name_key(name) if isinstance(name, str) else None for name in names]
    for at, first in repeated(keys).items():
        problem = f"name = {show(names[at])} is also the name of trainee {first + 1}"
        reader.report(
            ("trainee", at, "name"), problem, "add an initial, so that their cards can be told apart"
        )


def _lists(trainees: int) -> Iterator[ValuePath]:
    yield from _LISTS
    for at in range(trainees):
        for field in _LISTS_OF_A_TRAINEE:
            yield ("trainee", at, field)


def _entries(reader: Reader, path: ValuePath) -> list[object]:
    raw = reader.value_at(path)
    return raw if isinstance(raw, list) else []
