"""The JSON schema of squad files, for editors that check TOML while it is typed.

``msgspec`` gives the schema of the declared tables; this adds the other units that a quantity may have.
"""

from __future__ import annotations

import json
from itertools import combinations
from typing import Any, Final

import msgspec

from leanmark.squad.tables import SquadTable
from leanmark.units import Unit, from_si, spellings

SCHEMA_FILE: Final = "squad-schema.json"
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

Node = dict[str, Any]
"""One JSON schema object."""


def squad_schema() -> Node:
    """The schema of a squad file, JSON Schema draft 2020-12."""
    plain = msgspec.json.schema(SquadTable)
    tables: dict[str, Node] = plain["$defs"]
    expanded = {name: _with_other_units(table, tables) for name, table in tables.items()}
    return {"$schema": _DIALECT, "title": "Squad file", "$ref": plain["$ref"], "$defs": expanded}


def schema_text() -> str:
    """The schema as it is published."""
    return json.dumps(squad_schema(), indent=2, ensure_ascii=False) + "\n"


def _with_other_units(table: Node, tables: dict[str, Node]) -> Node:
    """A table's schema in which each quantity has every spelling, and no two of them together."""
    properties: Node = {}
    required: list[str] = []
    rules: list[Node] = []
    for name, node in table["properties"].items():
        units = spellings(name)
        names = list(units) or [name]
        properties[name] = node
        properties |= {other: _in_unit(node, units[other], tables) for other in names[1:]}
        if name in table["required"] and len(names) == 1:
            required.append(name)
        elif name in table["required"]:
            rules.append({"oneOf": [{"required": [spelled]} for spelled in names]})
        elif len(names) > 1:
            rules += [{"not": {"required": list(pair)}} for pair in combinations(names, 2)]
    return table | {"properties": properties, "required": required} | ({"allOf": rules} if rules else {})


def _in_unit(node: Node, unit: Unit, tables: dict[str, Node]) -> Node:
    """A node whose limits are turned into another unit; a default in SI units is left out."""
    if "$ref" in node:
        table = tables[node["$ref"].rpartition("/")[2]]
        node = table | {key: value for key, value in node.items() if key != "$ref"}
    turned: Node = {}
    for key, value in node.items():
        if key in ("minimum", "maximum"):
            turned[key] = from_si(value, unit.suffix)
        elif key == "additionalProperties" and isinstance(value, dict):
            turned[key] = _in_unit(value, unit, tables)
        elif key == "properties":
            turned[key] = {name: _in_unit(inner, unit, tables) for name, inner in value.items()}
        elif key != "default":
            turned[key] = value
    return turned
