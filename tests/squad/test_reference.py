"""The published schema and the generated parts of the pages are what the code says."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec
import pytest

from leanmark.body.build import LENGTH_SHARES
from leanmark.rig.rig import standard_rig
from leanmark.squad.cycle_table import CycleTable
from leanmark.squad.person_table import LengthsTable
from leanmark.squad.reader import declared_fields
from leanmark.squad.reference import PAGES, blocks, fill
from leanmark.squad.rig_table import RigTable
from leanmark.squad.schema import SCHEMA_FILE, schema_text, squad_schema
from leanmark.squad.tables import SquadTable
from leanmark.squad.trainee_table import GateTable, PainTable, TraineeTable
from leanmark.units import spellings

DOCS = Path(__file__).resolve().parents[2] / "docs"
HOW = "run: python -m leanmark.squad.reference docs"


def test_the_published_schema_is_current() -> None:
    assert (DOCS / SCHEMA_FILE).read_text(encoding="utf-8") == schema_text(), HOW


@pytest.mark.parametrize("name", PAGES)
def test_the_generated_parts_of_a_page_are_current(name: str) -> None:
    page = (DOCS / name).read_text(encoding="utf-8")
    assert page == fill(page), HOW


def test_every_generated_part_stands_in_a_page() -> None:
    text = "".join((DOCS / name).read_text(encoding="utf-8") for name in PAGES)
    assert not [name for name in blocks() if f"<!-- generated: {name} -->" not in text]


def test_a_stale_page_is_noticed() -> None:
    stale = "<!-- generated: floors -->\nold\n<!-- end of generated -->\n"
    assert "dry gym floor" in fill(stale)


def test_the_schema_has_every_spelling_of_every_field() -> None:
    tables = squad_schema()["$defs"]
    for kind in (SquadTable, RigTable, CycleTable, TraineeTable, LengthsTable, GateTable, PainTable):
        expected = {name for field in declared_fields(kind) for name in spellings(field.name) or [field.name]}
        assert set(tables[kind.__name__]["properties"]) == expected
        for node in tables[kind.__name__]["properties"].values():
            assert node.get("description"), "every field says what it means"


def test_limits_of_other_units_are_the_same_lengths() -> None:
    trainee = squad_schema()["$defs"]["TraineeTable"]["properties"]
    # 1.0-2.5 m; the inch is 0.0254 m exactly, and both sides round to a float once
    assert trainee["stature_cm"]["minimum"] == 100
    assert trainee["stature_cm"]["maximum"] == 250
    assert trainee["stature_in"]["maximum"] == pytest.approx(2.5 / 0.0254, rel=1e-15)
    thigh = trainee["lengths_cm"]["properties"]["thigh"]
    assert thigh["minimum"] == pytest.approx(16.0, rel=1e-15)


def test_the_schema_asks_for_one_spelling_of_a_required_quantity() -> None:
    trainee = squad_schema()["$defs"]["TraineeTable"]
    assert trainee["required"] == ["name"]
    stature = [{"required": [name]} for name in ("stature_m", "stature_cm", "stature_in")]
    assert {"oneOf": stature} in trainee["allOf"]
    assert {"not": {"required": ["lengths_m", "lengths_cm"]}} in trainee["allOf"]


def test_every_reference_of_the_schema_leads_somewhere() -> None:
    schema = squad_schema()
    found = [part.split('"')[0] for part in json.dumps(schema).split('"$ref": "#/$defs/')[1:]]
    assert found
    assert set(found) <= set(schema["$defs"])


def test_lengths_are_those_that_a_build_takes() -> None:
    assert {field.name for field in declared_fields(LengthsTable)} == set(LENGTH_SHARES)


def test_defaults_of_the_rig_table_are_those_of_the_rig() -> None:
    table = msgspec.convert({"anchor_height_m": 2.4}, RigTable)
    rig = standard_rig(2.4)
    assert (table.straps, table.anchors, table.floor) == (rig.strap_mode, rig.anchor_count, rig.floor_name)
    assert (table.loop_friction, table.handle_offset_m) == (rig.loop_friction, rig.handle_offset_m)
    assert table.cradle_offset_m == rig.cradle_offset_m
