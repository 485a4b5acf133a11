"""The JSON Schema of move files, judged by an independent validator (jsonschema, draft 2020-12)."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from tests.moves.check.test_fields import CHANGES
from tests.moves.move_files import PAUSED, PULL

from leanmark.moves.check.field_words import FIELD_WORDS
from leanmark.moves.check.fields import fields_of
from leanmark.moves.check.shared import shared_paths
from leanmark.moves.editor_schema import move_schema
from leanmark.moves.files import library_paths
from leanmark.moves.source import read_source

WHOLE = Draft202012Validator(move_schema())
SET_UP = Draft202012Validator(move_schema(whole=False))
SET_UPS = [path for path in shared_paths() if path.parent.name == "set-ups"]
NOT_SEEN = {
    "is not a text of 1 to 400 characters",  # of spaces alone
    "is not a text of one line",
    "is not allowed (allowed: -1.8 to 0, its",  # what several entries say together
    "is not 0.2",
    "width = nan is not",  # JSON has no such number
    "is also the name of rung 1; give it",
    "is not a rung further up the same file",
}
"""What only ``leanmark moves check`` sees."""


def errors(validator: Draft202012Validator, value: object) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in validator.iter_errors(value)]


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(move_schema())
    Draft202012Validator.check_schema(move_schema(whole=False))


@pytest.mark.parametrize("path", library_paths(), ids=lambda path: path.stem)
def test_the_librarys_moves_validate(path: Path) -> None:
    assert errors(WHOLE, read_source(path).value) == []


@pytest.mark.parametrize("path", SET_UPS, ids=lambda path: path.stem)
def test_the_set_ups_validate(path: Path) -> None:
    assert errors(SET_UP, read_source(path).value) == []
    assert errors(WHOLE, read_source(path).value) == ["$: 'move' is a required property"]


@pytest.mark.parametrize("text", [PULL, PAUSED], ids=["pull", "paused"])
def test_the_demos_own_moves_validate(text: str) -> None:
    assert errors(WHOLE, yaml.safe_load(text)) == []


def seen(words: str) -> bool:
    return not any(part in words for part in NOT_SEEN)


@pytest.mark.parametrize(("old", "new", "piece", "words"), [row for row in CHANGES if seen(row[3])])
def test_what_the_check_refuses_in_one_entry_the_schema_refuses(
    old: str, new: str, piece: str, words: str
) -> None:
    value: Any = yaml.safe_load(PULL.replace(old, new, 1).replace("<<:", "'<<':"))
    assert errors(WHOLE, value), f"{piece}: {words}"


def test_every_field_is_described_and_nothing_else_is_allowed() -> None:
    defs = move_schema()["$defs"]
    for kind in FIELD_WORDS:
        node = defs[kind.__name__]
        assert {*node["properties"]} - {"like"} == {*fields_of(kind)}
        assert all(field["description"] for field in node["properties"].values())
        assert node["additionalProperties"] is False


def test_only_what_a_file_must_write_itself_is_required() -> None:
    defs = move_schema()["$defs"]
    assert defs["Move"]["required"] == ["move"]
    assert defs["Rung"]["required"] == ["rung"]
    assert defs["Mark"]["required"] == defs["Phases"]["required"] == []
    assert defs["Fault"]["required"] == ["fault", "remedy"]
