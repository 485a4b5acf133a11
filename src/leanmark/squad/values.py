"""One value against its declaration: text, numbers in their unit, dates, choices."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from msgspec import inspect

from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.problems import any_of, show, show_above, show_range
from leanmark.squad.text import first_unprintable, nearest, tidy
from leanmark.units import UNITS, Unit, from_si, spellings, to_si

_LONGEST_INTEGER_BITS: Final = 64  # own figure: larger integers are typing errors and would not print
_LARGEST_GUESS: Final = 1e6  # own figure: no unit turns a larger number into a length, mass or force of a rig


class RefusedError(Exception):
    """A value that its field does not take: what is wrong, and what to do."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem, remedy)
        self.problem, self.remedy = problem, remedy


@dataclass(frozen=True)
class GivenUnit:
    """The unit that a number is given in, and the field (or table of numbers) whose name says so."""

    unit: Unit
    holder: str

    def spelled_in(self) -> dict[str, Unit]:
        """The holder's other spellings with their units."""
        stem = self.holder.removesuffix(self.unit.suffix)
        names = spellings(stem + UNITS[self.unit.si_suffix].suffix)
        return {name: unit for name, unit in names.items() if name != self.holder}


@dataclass(frozen=True)
class Value:
    """A raw value of the file, where it stands, the unit it is given in, and the words its field declares."""

    raw: object
    path: ValuePath
    given: GivenUnit | None
    words: Mapping[str, str]

    @property
    def remedy(self) -> str:
        """What to do about a wrong value."""
        return self.words["remedy"]

    @property
    def is_shown(self) -> str:
        """The value as ``field is value``."""
        return f"{field_name(self.path)} is {show(self.raw)}"

    @property
    def shown(self) -> str:
        """The value as ``field = value``."""
        return f"{field_name(self.path)} = {show(self.raw)}"


def read_value(node: inspect.Type, value: Value) -> object:
    """The value in SI units as its declaration wants it.

    Raises:
        RefusedError: it is of the wrong kind, out of range, too long, or not one of the choices.
    """
    match node:
        case inspect.StrType():
            return _text(node, value)
        case inspect.FloatType() | inspect.IntType():
            return _number(node, value)
        case inspect.LiteralType():
            return _choice(node, value)
        case inspect.DateType():
            return _date(value)
        case inspect.TimeType():
            return _time(value)
    raise TypeError(f"{field_name(value.path)} is declared as {type(node).__name__}, which has no reader")


def check_size(
    node: inspect.StrType | inspect.ListType | inspect.DictType, size: int, things: str, value: Value
) -> None:
    """Raise RefusedError when a text, list or table has fewer or more ``things`` than declared."""
    if size < (node.min_length or 0):
        raise RefusedError(f"{field_name(value.path)} is empty", value.remedy)
    if node.max_length is not None and size > node.max_length:
        has = f"{field_name(value.path)} has {size} {things}"
        raise RefusedError(f"{has}, more than {node.max_length}", value.words["too_long"])


def _text(node: inspect.StrType, value: Value) -> str:
    if not isinstance(value.raw, str):
        raise RefusedError(f"{value.shown} is not text", "put it in double quotes")
    text = tidy(value.raw)
    check_size(node, len(text), "characters", value)
    wrong = first_unprintable(text, line_breaks=node.min_length == 0)
    if wrong:
        raise RefusedError(f"{value.shown} holds the character {wrong}", "delete that character")
    return text


def _number(node: inspect.FloatType | inspect.IntType, value: Value) -> float | int:
    raw, given = value.raw, value.given
    if isinstance(raw, bool) or not isinstance(raw, (int, float)):
        raise RefusedError(f"{value.shown} is not a number", "write a plain number, without quotes or unit")
    if isinstance(node, inspect.IntType) and not isinstance(raw, int):
        raise RefusedError(f"{value.shown} is not a whole number", value.remedy)
    low_si, high_si = float(node.ge or node.gt or 0), float(node.le or math.inf)
    if isinstance(raw, int) and raw.bit_length() > _LONGEST_INTEGER_BITS:
        value_si = math.inf
    else:
        value_si = to_si(raw, given.unit.suffix) if given else float(raw)
    if low_si <= value_si <= high_si and value_si != node.gt:
        return raw if isinstance(node, inspect.IntType) else value_si
    ends = [from_si(end, given.unit.suffix) if given else end for end in (low_si, high_si)]
    remedy = _other_unit(value, raw, low_si, high_si) or value.remedy
    wrong = f"not {show_above(*ends)}" if node.gt is not None else f"outside {show_range(*ends)}"
    raise RefusedError(f"{value.shown} is {wrong}", remedy)


def _other_unit(value: Value, raw: float, low_si: float, high_si: float) -> str | None:
    """The remedy for a number that would be in range in another unit of its field, or None."""
    if value.given is None or not abs(raw) <= _LARGEST_GUESS:
        return None
    fitting = {
        name: unit
        for name, unit in value.given.spelled_in().items()
        if low_si <= to_si(raw, unit.suffix) <= high_si
    }
    if not fitting:
        return None
    is_own = value.path[-1] == value.given.holder
    how = any_of(f"{name} = {show(raw)}" for name in fitting) if is_own else f"it under {any_of(fitting)}"
    return f"it looks like {any_of(unit.word for unit in fitting.values())}: write {how}"


def _date(value: Value) -> dt.date:
    if isinstance(value.raw, dt.date) and not isinstance(value.raw, dt.datetime):
        return value.raw
    raise RefusedError(f"{value.shown} is not a date", value.remedy)


def _time(value: Value) -> dt.time:
    if isinstance(value.raw, dt.time):
        return value.raw
    raise RefusedError(f"{value.shown} is not a time of day", value.remedy)


def _choice(node: inspect.LiteralType, value: Value) -> object:
    raw = value.raw
    for choice in node.values:
        if type(choice) is type(raw) and choice == raw:
            return choice
    choices = in_order(node, value.words["order"])
    words = [choice for choice in choices if isinstance(choice, str)]
    meant = nearest(raw, words) if isinstance(raw, str) else None
    field = "" if isinstance(value.path[-1], int) else f"{field_name(value.path)} = "
    remedy = f"write {field}{show(meant)}" if meant else value.remedy
    raise RefusedError(f"{value.shown} is not {any_of(map(show, choices))}", remedy)


def in_order(node: inspect.LiteralType, order: str) -> list[object]:
    """The choices in the order that their declaration names, else as ``msgspec`` has them: by alphabet."""
    names = order.split(", ")
    return sorted(node.values, key=lambda choice: names.index(str(choice)) if choice in names else 0)
