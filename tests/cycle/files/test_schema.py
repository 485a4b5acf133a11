"""The published schema of cycles, judged by an independent validator (jsonschema), and the page's tables."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator
from tests.cycle.sample_cycle import cycles, sample_cycle

from leanmark.cycle.files.columns import COLUMNS
from leanmark.cycle.files.field_words import FIELD_WORDS
from leanmark.cycle.files.json_file import cycle_json
from leanmark.cycle.files.schema import PAGE, SCHEMA_FILE, blocks, cycle_schema, fill, schema_text
from leanmark.cycle.form import Cycle

DOCS = Path(__file__).resolve().parents[3] / "docs"
HOW = "run: python -m leanmark.cycle.files.schema docs"
VALIDATOR = Draft202012Validator(cycle_schema(), format_checker=Draft202012Validator.FORMAT_CHECKER)
GOOD = cycle_json(sample_cycle()).decode()


def errors(value: object) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(value)]


def test_the_published_schema_is_current() -> None:
    assert (DOCS / SCHEMA_FILE).read_text(encoding="utf-8") == schema_text(), HOW


def test_the_generated_parts_of_the_page_are_current() -> None:
    page = (DOCS / PAGE).read_text(encoding="utf-8")
    assert page == fill(page), HOW


def test_every_generated_part_stands_in_the_page() -> None:
    text = (DOCS / PAGE).read_text(encoding="utf-8")
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in text]


def test_a_stale_page_is_noticed() -> None:
    assert "`mark_m`" in fill("<!-- generated: step fields -->\nold\n<!-- end of generated -->\n")


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(cycle_schema())


def test_the_sample_is_valid() -> None:
    assert errors(json.loads(GOOD)) == []


@given(cycles())
def test_any_cycle_is_valid(cycle: Cycle) -> None:
    assert errors(json.loads(cycle_json(cycle))) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('"week": 1', '"week": "x"'),
        ('"week": 1', '"week": 0'),
        ('"deload"', '"delaod"'),
        ('"sets": 3', '"sets": 0'),
        ('"reps": 8', '"reps": -8'),
        ('"stage": "fast"', '"stage": "quick"'),
        ('"wave": 0.0', '"wave": null'),
        ('"form": 1', '"form": 2'),
        ('"form": 1', '"seed_of": 1'),
        ('"starts": "2027-01-11"', '"starts": "Monday"'),
        ('"uid": "tuva-session-1",', ""),
    ],
)
def test_what_reading_refuses_the_schema_refuses(old: str, new: str) -> None:
    assert old in GOOD
    assert errors(json.loads(GOOD.replace(old, new, 1)))


def test_every_field_is_described_and_nothing_else_is_allowed() -> None:
    defs: dict[str, Any] = cycle_schema()["$defs"]
    assert set(defs) == {kind.__name__ for kind in FIELD_WORDS}
    for kind, words in FIELD_WORDS.items():
        node = defs[kind.__name__]
        assert set(node["properties"]) == set(words)
        assert all(field["description"] for field in node["properties"].values())


def test_every_column_is_declared_once_with_its_meaning() -> None:
    names = [column.name for column in COLUMNS]
    assert len(set(names)) == len(names)
    assert all(column.meaning for column in COLUMNS)
    assert not [column.name for column in COLUMNS if "|" in column.meaning]


@pytest.mark.parametrize(
    ("suffix", "unit"),
    [("_m", "m"), ("_s", "s"), ("_n", "N"), ("_j", "J"), ("_ns", "N s"), ("_share", "share")],
)
def test_a_columns_suffix_is_its_unit(suffix: str, unit: str) -> None:
    ending = {column.name: column.unit for column in COLUMNS if column.name.endswith(suffix)}
    assert ending
    assert set(ending.values()) == {unit}
