"""The published JSON Schema of cycle files, and the generated parts of ``docs/cycle-files.md``.

``python -m leanmark.cycle.files.schema docs`` writes both anew; a test says when they are behind the code.
"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any, Final

import msgspec

from leanmark.cycle.files.columns import COLUMNS
from leanmark.cycle.files.field_words import FIELD_WORDS
from leanmark.cycle.files.possible import LEAST
from leanmark.cycle.form import CYCLE_FORM, Cycle, Line, Session
from leanmark.page_parts import filled, table

SCHEMA_FILE: Final = "cycle-schema.json"
PAGE: Final = "cycle-files.md"
Node = dict[str, Any]
"""One JSON Schema object."""
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def cycle_schema() -> Node:
    """The schema of a cycle file, JSON Schema draft 2020-12."""
    plain = msgspec.json.schema(Cycle)
    words = {kind.__name__: fields for kind, fields in FIELD_WORDS.items()}
    defs = {name: _described(node, words[name]) for name, node in plain["$defs"].items()}
    for kind, least in LEAST.items():
        for name, value in least.items():
            _limit(defs[kind.__name__]["properties"][name], value)
    defs[Line.__name__]["properties"]["parts"]["minItems"] = 1
    defs[Session.__name__]["properties"]["starts"]["format"] = "date-time"
    cycle = defs[Cycle.__name__]
    cycle["properties"]["form"] = {"description": words[Cycle.__name__]["form"], "const": CYCLE_FORM}
    cycle["required"] = [*cycle["required"], "form"]
    return {"$schema": _DIALECT, "title": "Cycle file", "$ref": plain["$ref"], "$defs": defs}


def schema_text() -> str:
    """The schema as it is published."""
    return json.dumps(cycle_schema(), indent=2, ensure_ascii=False) + "\n"


def blocks() -> dict[str, str]:
    """Every generated part of the page by the name that its mark gives."""
    columns = [(f"`{one.name}`", one.kind, one.unit or "–", one.meaning) for one in COLUMNS]
    return {
        "columns": table(("column", "kind", "unit", "meaning"), columns),
        **{f"{_spaced(kind.__name__)} fields": _fields(kind) for kind in FIELD_WORDS},
    }


def fill(page: str) -> str:
    """A page with each marked part replaced by what the code says.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return filled(page, blocks())


def write(docs: Path) -> None:
    """Write the schema and the generated parts of the page in the folder ``docs``."""
    (docs / SCHEMA_FILE).write_text(schema_text(), encoding="utf-8")
    page = docs / PAGE
    page.write_text(fill(page.read_text(encoding="utf-8")), encoding="utf-8")


def _described(node: Node, words: dict[str, str]) -> Node:
    """A struct's schema with a description for each field, in place of the struct's docstring.

    A description may stand beside a reference in this draft.
    """
    fields = {name: {"description": words[name], **field} for name, field in node["properties"].items()}
    return {**{key: value for key, value in node.items() if key != "description"}, "properties": fields}


def _limit(field: Node, least: int) -> None:
    """Give a number, or each number of a list, its least value."""
    for node in field.get("prefixItems", [field]):
        node["minimum"] = least


def _fields(kind: type) -> str:
    node = cycle_schema()["$defs"][kind.__name__]
    return table(
        ("field", "holds", "meaning"),
        [(f"`{name}`", _holds(field), field["description"]) for name, field in node["properties"].items()],
    )


def _holds(field: Node) -> str:
    """A field's schema in words: ``list of plan``, ``number, or null``."""
    match field:
        case {"$ref": str(name)}:
            return _spaced(name.rpartition("/")[2])
        case {"enum": list(names)}:
            return f"one of {', '.join(names)}"
        case {"const": value}:
            return str(value)
        case {"anyOf": list(kinds)}:
            return ", or ".join(sorted(map(_holds, kinds), key="null".__eq__))
        case {"prefixItems": list(items)}:
            return f"list of {len(items)} numbers"
        case {"type": "array", "items": dict(items)}:
            return f"list of {_holds(items)}"
        case {"format": str(name)}:
            return name.replace("-", " and ")
    return str(field["type"])


def _spaced(name: str) -> str:
    """``GoalScore`` as ``goal score``."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).lower()


if __name__ == "__main__":
    write(Path(sys.argv[1]))
