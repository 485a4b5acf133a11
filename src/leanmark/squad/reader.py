"""Reads TOML data against the declared tables and gathers every problem on the way.

``msgspec`` stops at the first wrong value; a coach who typed forty trainees wants them all. So the
declarations are inspected here and each value is checked by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Final

import msgspec
from msgspec import inspect

from leanmark.squad.lines import LineIndex
from leanmark.squad.paths import ValuePath, field_name, header
from leanmark.squad.problems import SquadProblem, any_of, show
from leanmark.squad.suggest import likely_fields, stems
from leanmark.squad.values import GivenUnit, RefusedError, Value, check_size, read_value
from leanmark.units import Unit, si_unit_of, spellings

_REFUSED: Final = object()  # stands in for a value whose problem was reported


class Reader:
    """One document being read.

    Attributes:
        problems: what was found so far.
        written: path with SI field names -> path as the file spells it.
    """

    def __init__(
        self,
        file: str,
        values: Mapping[str, object],
        lines: LineIndex,
        seen: Callable[[msgspec.Struct, ValuePath], None],
    ) -> None:
        """``seen`` is called with every table that was read without a problem, and its path."""
        self.problems: list[SquadProblem] = []
        self.written: dict[ValuePath, ValuePath] = {}
        self._file, self._values, self._lines, self._seen = file, values, lines, seen

    def read(self, kind: type[msgspec.Struct]) -> None:
        """Read the whole document as ``kind``."""
        self._table(kind, self._values, (), None)

    def line(self, path: ValuePath) -> int | None:
        """The line of the value at ``path``, as the file spells it; that of the table around it where it has
        none."""
        return self._lines.line(path)

    def report(self, path: ValuePath, problem: str, remedy: str) -> None:
        """Add a problem of the value at ``path``, as the file spells it."""
        line, where = self.line(path), self._where(path)
        self.problems.append(SquadProblem(self._file, line, where, field_name(path), problem, remedy))

    def value_at(self, path: ValuePath) -> object:
        """The raw value at a path as the file spells it; None when the file does not give it."""
        value: object = self._values
        for part in path:
            if isinstance(value, list) and isinstance(part, int) and part < len(value):
                value = value[part]
            elif isinstance(value, Mapping):
                value = value.get(part)
            else:
                return None
        return value

    def _table(
        self, kind: type[msgspec.Struct], raw: Mapping[str, object], path: ValuePath, given: GivenUnit | None
    ) -> object:
        problems_before = len(self.problems)
        found: dict[str, object] = {}
        meant = self._unknown_fields(kind, raw, path)
        for field in declared_fields(kind):
            if not meant.intersection(spellings(field.name) or [field.name]):
                self._field(field, raw, path, given, found)
        if len(self.problems) > problems_before:
            return _REFUSED
        table = kind(**found)
        self._seen(table, path)
        return table

    def _field(
        self,
        field: inspect.Field,
        raw: Mapping[str, object],
        path: ValuePath,
        given: GivenUnit | None,
        found: dict[str, object],
    ) -> None:
        units: Mapping[str, Unit | None] = spellings(field.name) or {field.name: None}
        names = [name for name in units if name in raw]
        if len(names) > 1:
            self.report((*path, names[1]), f"{' and '.join(names)} are both given", "keep one of them")
        elif names:
            name, unit = names[0], units[names[0]]
            self.written[*path, field.name] = (*path, name)
            own = given if unit is None else GivenUnit(unit, name)
            found[field.name] = self._value(field.type, raw[name], (*path, name), own)
        elif field.required:
            remedy = words_of(field.type)["remedy"]
            remedy += f", as {any_of(units)}" if si_unit_of(field.name) else ""
            missing = (*path, field.name)
            self.report(missing, f"{field_name(missing)} is missing", remedy)

    def _unknown_fields(
        self, kind: type[msgspec.Struct], raw: Mapping[str, object], path: ValuePath
    ) -> set[str]:
        """Report the fields that are not declared; return the absent ones that were likely meant by them."""
        known = [name for field in declared_fields(kind) for name in spellings(field.name) or [field.name]]
        likely = {key: likely_fields(key, known) for key in raw if key not in known}
        for key, names in likely.items():
            remedy = (
                f"write {any_of(names)}" if names else f"delete it, or use one of {', '.join(stems(known))}"
            )
            self.report((*path, key), f"{show(key)} is not a field here", remedy)
        return {name for names in likely.values() if not set(names).intersection(raw) for name in names}

    def _value(self, node: inspect.Type, raw: object, path: ValuePath, given: GivenUnit | None) -> object:
        value = Value(raw, path, given, words_of(node))
        inner = node.type if isinstance(node, inspect.Metadata) else node
        try:
            match inner:
                case inspect.StructType():
                    return self._table(inner.cls, _mapping(value), path, given)
                case inspect.DictType():
                    return self._named(inner, value)
                case inspect.ListType():
                    return self._list(inner, value)
                case _:
                    return read_value(inner, value)
        except RefusedError as refused:
            self.report(path, refused.problem, refused.remedy)
            return _REFUSED

    def _list(self, node: inspect.ListType, value: Value) -> list[object]:
        if not isinstance(value.raw, list):
            is_tables = isinstance(node.item_type, inspect.StructType)
            how = (
                f"{header((*value.path, 0))}, with double brackets" if is_tables else "it in square brackets"
            )
            raise RefusedError(f"{value.is_shown}, not a list", f"write {how}")
        check_size(node, len(value.raw), "entries", value)
        return [
            self._value(node.item_type, item, (*value.path, at), None) for at, item in enumerate(value.raw)
        ]

    def _named(self, node: inspect.DictType, value: Value) -> dict[object, object]:
        raw = _mapping(value)
        check_size(node, len(raw), "entries", value)
        return {
            self._value(node.key_type, key, (*value.path, key), None): self._value(
                node.value_type, item, (*value.path, key), value.given
            )
            for key, item in raw.items()
        }

    def _where(self, path: ValuePath) -> str:
        if len(path) < 2:
            return ""
        if not isinstance(path[1], int):
            return str(path[0])
        name = self.value_at((*path[:2], "name"))
        return f"{path[0]} {path[1] + 1}" + (f" {show(name)}" if isinstance(name, str) else "")


@cache
def declared_fields(kind: type[msgspec.Struct]) -> tuple[inspect.Field, ...]:
    """The fields of a declared table, with their limits and words."""
    declared = inspect.type_info(kind)
    if not isinstance(declared, inspect.StructType):
        raise TypeError(f"{kind.__name__} is not a table")
    return declared.fields


def words_of(node: inspect.Type) -> dict[str, str]:
    """The words declared with a field: ``remedy``, ``too_long``, the ``order`` of choices and, where it is
    derived, ``default``."""
    extra = node.extra if isinstance(node, inspect.Metadata) else None
    return {"remedy": "correct it", "too_long": "shorten it", "order": "", "default": ""} | (extra or {})


def _mapping(value: Value) -> Mapping[str, object]:
    if not isinstance(value.raw, Mapping):
        raise RefusedError(f"{value.is_shown}, not a table", f"write it as {header(value.path)}")
    return value.raw
