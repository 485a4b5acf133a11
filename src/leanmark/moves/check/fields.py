"""Checks a move file as it is written, before anything inherited is laid under it: fields, types, numbers,
names. Every problem is gathered with its place."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import inf, nextafter
from typing import Final

import msgspec
from msgspec import inspect

from leanmark.errors import FieldError, one_line
from leanmark.moves.check.angles import pose_problems
from leanmark.moves.gathering import Gathering
from leanmark.moves.names import (
    ACTIONS_OF,
    LIMITS,
    NAMES,
    POSE_FIELDS,
    SHORTEST_MOVING_S,
    FieldOf,
    muscles_of,
)
from leanmark.moves.problems import FieldPath, choice, field_words, shown
from leanmark.moves.schema import Mark, Move, Phases, Rung

INHERITING: Final[dict[type, tuple[str, ...]]] = {Move: ("move",), Rung: ("rung",), Mark: (), Phases: ()}
"""Structs whose fields may come from what a file inherits, each with those that it must write itself."""
LIKE: Final = "like"


@cache
def fields_of(kind: type) -> dict[str, inspect.Field]:
    """A struct's fields by the name that files write."""
    declared = inspect.type_info(kind)
    if not isinstance(declared, inspect.StructType):
        raise TypeError(f"{kind.__name__} is not a struct")
    return {field.encode_name: field for field in declared.fields}


def required_of(kind: type) -> tuple[str, ...]:
    """The fields that a whole struct cannot go without."""
    return tuple(name for name, field in fields_of(kind).items() if field.required)


class FieldCheck(Gathering):
    """One file being checked field by field."""

    def struct(
        self, kind: type[msgspec.Struct], raw: object, path: FieldPath, needed: tuple[str, ...] | None = None
    ) -> None:
        """Check a mapping against a struct. needed: what it must write itself, if not as ``INHERITING``."""
        if not isinstance(raw, Mapping):
            self.wrong(path, raw, "a mapping", "write its fields below it, each as field: value")
            return
        before = len(self.problems)
        known = fields_of(kind)
        for key, value in raw.items():
            if key in known:
                self._field((kind, known[key].name), known[key].type, value, (*path, key))
            elif not (key == LIKE and kind in (Move, Rung)):
                self.report((*path, key), f"'{one_line(key)}' is not a field here", choice(key, known))
        if needed is None:
            needed = INHERITING.get(kind, required_of(kind))
        for name in needed:
            if name not in raw:
                what = f"{field_words((*path, name))} is missing"
                self.report(path, what, f"add {name}, {needs_of(kind, name)}")
        if len(self.problems) == before and kind is not Move and {*required_of(kind)} <= {*raw}:
            self._whole(kind, raw, path)

    def _whole(self, kind: type[msgspec.Struct], raw: Mapping[str, object], path: FieldPath) -> None:
        """What only all fields together show, such as a mark that starts outside its range."""
        if kind in (Rung, Phases):
            return
        try:
            msgspec.convert(raw, kind)
        except msgspec.ValidationError as error:
            cause = error.__cause__
            if isinstance(cause, FieldError):
                inside = (*path, cause.field) if cause.field in raw else path
                words = field_words(inside)
                problem = f"{words} = {shown(cause.value)} is not allowed (allowed: {cause.allowed})"
                self.report(inside, problem, cause.remedy)

    def _field(self, of: FieldOf, node: inspect.Type, raw: object, path: FieldPath) -> None:
        if of in POSE_FIELDS and raw is not None:
            pose_problems(self, raw, path)
        elif of in ACTIONS_OF:
            self._actions(of, raw, path)
        else:
            self._value(of, node, raw, path)
        if of[1] == "tempo_s" and isinstance(raw, list) and len(raw) == 4:
            for at in (0, 2):
                if isinstance(raw[at], (int, float)) and 0.0 <= raw[at] < SHORTEST_MOVING_S:
                    allowed = f"{SHORTEST_MOVING_S:g} s or more, for the body to lower or rise in"
                    self.wrong((*path, at), raw[at], allowed, "write for example [2, 1, 1, 0]")

    def _value(self, of: FieldOf, node: inspect.Type, raw: object, path: FieldPath) -> None:
        inner = node.type if isinstance(node, inspect.Metadata) else node
        if isinstance(inner, inspect.UnionType):
            if raw is None and inner.includes_none:
                return
            inner = next(kind for kind in inner.types if not isinstance(kind, inspect.NoneType))
            self._value(of, inner, raw, path)
            return
        match inner:
            case inspect.StructType():
                self.struct(inner.cls, raw, path)
            case inspect.ListType() | inspect.VarTupleType():
                for at, item in enumerate(self.entries(raw, path, inner.min_length, inner.max_length)):
                    self._value(of, inner.item_type, item, (*path, at))
            case inspect.TupleType():
                count = len(inner.item_types)
                for at, item in enumerate(self.entries(raw, path, count, count)):
                    self._value(of, inner.item_types[0], item, (*path, at))
            case inspect.DictType():
                self._named_entries(of, inner, raw, path)
            case _:
                self._plain(of, inner, raw, path)

    def _named_entries(self, of: FieldOf, node: inspect.DictType, raw: object, path: FieldPath) -> None:
        for key, value in self.mapping(raw, path).items():
            names = NAMES.get(of)
            if names and key not in names.known():
                self.report(
                    (*path, key), f"'{one_line(key)}' is not {names.what}", choice(key, names.known())
                )
            self._value((type(None), ""), node.value_type, value, (*path, key))

    def _actions(self, of: FieldOf, raw: object, path: FieldPath) -> None:
        """Joint actions, each with muscles that do it."""
        entries = self.mapping(raw, path)
        if of[1] == "works" and isinstance(raw, Mapping) and not raw:
            self.wrong(path, raw, "one joint action or more", "name what the move trains")
        for action, muscles in entries.items():
            if action not in ACTIONS_OF[of]:
                words = choice(action, ACTIONS_OF[of])
                self.report((*path, action), f"'{one_line(action)}' is not a joint action for {of[1]}", words)
                continue
            for at, muscle in enumerate(self.entries(muscles, (*path, action), 0, None)):
                if muscle not in muscles_of(action):
                    allowed = f"a muscle for {action}"
                    self.wrong((*path, action, at), muscle, allowed, choice(muscle, muscles_of(action)))

    def _plain(self, of: FieldOf, node: inspect.Type, raw: object, path: FieldPath) -> None:
        """A text, number, yes-or-no or one of some words."""
        match node:
            case inspect.LiteralType():
                if raw not in node.values:
                    words = [str(value) for value in node.values]
                    self.wrong(path, raw, "one of its words", choice(raw, words))
            case inspect.BoolType():
                if not isinstance(raw, bool):
                    self.wrong(path, raw, "true or false", "write one of the two")
            case inspect.FloatType() | inspect.IntType():
                self.number(raw, path, _limits(of, node), whole=isinstance(node, inspect.IntType))
            case inspect.StrType():
                self._text(of, node, raw, path)

    def _text(self, of: FieldOf, node: inspect.StrType, raw: object, path: FieldPath) -> None:
        names = NAMES.get(of)
        if not isinstance(raw, str):
            mapped = "put text that holds a colon in quotes"
            self.wrong(path, raw, "a text", mapped if isinstance(raw, Mapping) else "put it in quotes")
        elif not (node.min_length or 0) <= len(raw.strip()) <= (node.max_length or 400):
            allowed = f"a text of {node.min_length or 0} to {node.max_length or 400} characters"
            self.wrong(
                path, raw, allowed, "shorten it" if raw.strip() else "write it, or leave the field out"
            )
        elif not raw.isprintable():
            self.wrong(path, raw, "a text of one line", "write it without line breaks and unseen signs")
        elif names and raw not in names.known() and not (raw == "" and of[1] == "under"):
            self.wrong(path, raw, names.what, choice(raw, names.known()))


def needs_of(kind: type, name: str) -> str:
    """What a struct's field holds, in words."""
    return _needs(fields_of(kind)[name].type)


def _needs(node: inspect.Type) -> str:
    """What a field holds, in words."""
    inner = node.type if isinstance(node, inspect.Metadata) else node
    match inner:
        case inspect.LiteralType():
            return "one of " + ", ".join(map(str, inner.values))
        case inspect.ListType() | inspect.VarTupleType() | inspect.TupleType():
            return "a list"
        case inspect.StructType() | inspect.DictType():
            return "a mapping"
        case inspect.FloatType() | inspect.IntType():
            return "a number"
    return "a text"


def _limits(of: FieldOf, node: inspect.FloatType | inspect.IntType) -> tuple[float, float]:
    low, high = LIMITS.get(of, (-360.0, 360.0))
    above = (
        None
        if node.gt is None
        else (nextafter(node.gt, inf) if isinstance(node, inspect.FloatType) else node.gt + 1)
    )
    least, most = (above if node.ge is None else node.ge), node.le
    return (low if least is None else float(least)), (high if most is None else float(most))
