"""The generated parts of ``docs/squad-file.md`` and ``docs/rig.md``, and the published schema.

``python -m leanmark.squad.reference docs`` writes them anew; a test says when they are behind the code.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

import msgspec
from msgspec import UNSET, inspect

from leanmark.page_parts import filled, table
from leanmark.rig.anchor_check import PACE_FACTORS, WORK_AT_HEIGHT
from leanmark.rig.floors import FLOORS
from leanmark.rig.settings import DEFAULT_SETTINGS
from leanmark.squad.cycle_table import CycleTable
from leanmark.squad.person_table import CalibrationTable, LengthsTable, PersonTable
from leanmark.squad.problems import any_of, show, show_above, show_range
from leanmark.squad.reader import declared_fields, words_of
from leanmark.squad.rig_table import RigTable
from leanmark.squad.schema import SCHEMA_FILE, schema_text
from leanmark.squad.tables import CardsTable, SquadTable
from leanmark.squad.trainee_table import GateTable, PainTable, TraineeTable
from leanmark.squad.values import in_order
from leanmark.units import UNITS, si_unit_of, spellings

PAGES: Final[tuple[str, ...]] = ("squad-file.md", "rig.md")
_SIMPLE: Final[dict[type[inspect.Type], str]] = {
    inspect.DateType: "date, as in 2026-11-30",
    inspect.TimeType: "time, as in 18:00:00",
}


def blocks() -> dict[str, str]:
    """Every generated part by the name that its mark in a page gives."""
    return {
        "squad fields": _fields(SquadTable),
        "rig fields": _fields(RigTable),
        "cards fields": _fields(CardsTable),
        "cycle fields": _fields(CycleTable),
        "trainee fields": _fields(PersonTable),
        "wish fields": _fields(TraineeTable, without=PersonTable),
        "gates fields": _fields(GateTable),
        "pain fields": _fields(PainTable),
        "lengths fields": _fields(LengthsTable, "m"),
        "calibration fields": _fields(CalibrationTable),
        "units": table(
            ("ending", "unit", "in SI units, exact", "source"),
            [
                (f"`_{unit.suffix}`", unit.word, f"{unit.factor} {UNITS[unit.si_suffix].symbol}", unit.source)
                for unit in UNITS.values()
            ],
        ),
        "settings": table(
            ("setting", "grip above the floor (m)", "used for", "source"),
            [(row.name, f"{row.grip_height_m:.2f}", row.used_for, row.source) for row in DEFAULT_SETTINGS],
        ),
        "floors": table(
            ("floor", "friction", "stands for", "source"),
            [(row.name, f"{row.friction:.2f}", row.stands_for, row.source) for row in FLOORS.values()],
        ),
        "pace": table(
            ("forces computed", "safety factor", "ground"),
            [(pace, f"{row.factor:g}", row.ground) for pace, row in PACE_FACTORS.items()],
        ),
        "work at height": table(
            ("force (N)", "what it is", "source"),
            [(f"{row.force_n:g}", row.stands_for, row.source) for row in WORK_AT_HEIGHT.values()],
        ),
    }


def fill(page: str) -> str:
    """A page with each marked part replaced by what the code says.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return filled(page, blocks())


def write(docs: Path) -> None:
    """Write the schema and the generated parts of the pages in the folder ``docs``."""
    (docs / SCHEMA_FILE).write_text(schema_text(), encoding="utf-8")
    for name in PAGES:
        page = docs / name
        page.write_text(fill(page.read_text(encoding="utf-8")), encoding="utf-8")


def _fields(
    kind: type[msgspec.Struct], unit: str = "", *, without: type[msgspec.Struct] | None = None
) -> str:
    heads = ("field", "also as", "allowed", "when left out", "meaning")
    told = {field.name for field in declared_fields(without)} if without else set()
    rows = [_field_row(field, unit) for field in declared_fields(kind) if field.name not in told]
    return table(heads, rows)


def _field_row(field: inspect.Field, unit: str) -> tuple[str, ...]:
    others = ", ".join(f"`{name}`" for name in list(spellings(field.name))[1:]) or "–"
    own_unit = si_unit_of(field.name)
    allowed = _allowed(field.type, own_unit.symbol if own_unit else unit)
    described = field.type.extra_json_schema if isinstance(field.type, inspect.Metadata) else None
    return (f"`{field.name}`", others, allowed, _left_out(field), (described or {}).get("description", ""))


def _left_out(field: inspect.Field) -> str:
    derived = words_of(field.type)["default"]
    if derived:
        return derived
    if field.required:
        return "required"
    has_value = field.default is not msgspec.NODEFAULT and field.default not in (UNSET, "")
    return show(field.default) if has_value else "none"


def _allowed(node: inspect.Type, unit: str, order: str = "") -> str:
    match node:
        case inspect.Metadata():
            return _allowed(node.type, unit, words_of(node)["order"])
        case inspect.FloatType() | inspect.IntType():
            return f"{_range(node)} {unit}".rstrip()
        case inspect.StrType():
            return f"text of {_count(node)} characters"
        case inspect.LiteralType():
            return any_of(map(show, in_order(node, order)))
        case inspect.ListType(item_type=inspect.StructType()):
            return f"{_count(node)} tables"
        case inspect.ListType():
            return f"list of {_count(node)}, each {_allowed(node.item_type, '')}"
        case inspect.DictType():
            return f"table of {_count(node)}, each {_allowed(node.value_type, unit)}"
    return _SIMPLE.get(type(node), "table")


def _range(node: inspect.FloatType | inspect.IntType) -> str:
    high = float(node.le or 0)
    return show_range(float(node.ge or 0), high) if node.gt is None else show_above(node.gt, high)


def _count(node: inspect.StrType | inspect.ListType | inspect.DictType) -> str:
    return f"{node.min_length or 0}–{node.max_length}"


if __name__ == "__main__":
    write(Path(sys.argv[1]))
