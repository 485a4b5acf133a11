"""The nomenclature page lists the words the project speaks in, and the code keeps to its units."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.docs.pages import ROOT, table_rows

from leanmark.body.segments import JOINTS, SEGMENTS
from leanmark.units import UNITS

PAGE = ROOT / "docs" / "nomenclature.md"
TEXT = PAGE.read_text(encoding="utf-8")
WORDS_PART, UNITS_PART = TEXT.split("## Units")

TRADE_WORDS = (
    "coach trainee squad card move ladder rung gate cue fault set rep tempo rest effort cycle session block "
    "deload capacity call anchor handle load lean stature segment pose position interval"
).split()
TRADE_PHRASES = (
    "move family",
    "speed stage",
    "load wave",
    "suspension straps",
    "foot cradle",
    "plumb point",
    "floor mark",
    "strap length",
    "strap setting",
    "share of body weight",
    "strap tension",
    "floor force",
    "joint moment",
    "slack margin",
    "grip margin",
)
# Last parts of a name that claim to be a unit, in every spelling that could creep in ("foot" and "second"
# are left out: a foot is mostly a limb here, and a second mostly an ordinal).
UNIT_CLAIMS = frozenset(
    "m cm mm km metre metres meter meters inch ft kg kilo kilos g gram grams lb lbs n kn newton newtons kgf "
    "lbf nm rad radian radians deg degree degrees s sec secs seconds ms msec minutes hours years yrs pct "
    "percent percentage px pixels".split()
)


def sideless(name: str) -> str:
    return name.removeprefix("left_").removeprefix("right_")


def listed_names() -> list[str]:
    return [name.strip() for _, cells in table_rows(WORDS_PART) for name in cells[0].split(",")]


def listed_units() -> dict[str, str]:
    return {cells[0]: cells[1] for _, cells in table_rows(UNITS_PART)}


def test_no_name_is_given_twice() -> None:
    names = listed_names()
    assert sorted(set(names)) == sorted(names)


def test_every_row_has_meaning_unit_and_source() -> None:
    short = [
        f"line {number}: {cells}" for number, cells in table_rows(TEXT) if len(cells) != 4 or "" in cells
    ]
    assert not short, short


@pytest.mark.parametrize("word", [*TRADE_WORDS, *TRADE_PHRASES])
def test_domain_words_are_listed(word: str) -> None:
    assert word in listed_names(), f"docs/nomenclature.md should say what {word!r} means"


@pytest.mark.parametrize("part", sorted({*map(sideless, SEGMENTS), *map(sideless, JOINTS)}))
def test_segments_and_joints_are_listed(part: str) -> None:
    assert part in listed_names(), f"docs/nomenclature.md should list {part!r}"


@pytest.mark.parametrize("suffix", UNITS)
def test_units_carry_the_word_of_the_unit_table(suffix: str) -> None:
    assert listed_units().get(suffix) == UNITS[suffix].word


def test_page_names_in_code_type_exist_in_the_code() -> None:
    quoted = set(re.findall(r"`([a-z0-9]+(?:_[a-z0-9]+)+)`", WORDS_PART))
    known = {name for file in _sources() for name, _ in _names(file)}
    assert not quoted - known, f"named on the page, not in the code: {sorted(quoted - known)}"


def test_names_in_the_code_spell_units_as_the_page_does() -> None:
    allowed = set(listed_units())
    strange = [
        f"{file.relative_to(ROOT)}:{line} {name}"
        for file in _sources()
        for name, line in _names(file)
        if "_" in name.strip("_") and name.rpartition("_")[2].lower() in UNIT_CLAIMS - allowed
    ]
    assert not strange, f"unit spellings that docs/nomenclature.md does not list: {strange}"


def _sources() -> list[Path]:
    return sorted((ROOT / "src").glob("**/*.py"))


def _names(file: Path) -> Iterator[tuple[str, int]]:
    """Names of the fields, arguments, variables and attributes in a source file."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.arg):
            yield node.arg, node.lineno
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            yield node.id, node.lineno
        elif isinstance(node, ast.Attribute):
            yield node.attr, node.lineno
