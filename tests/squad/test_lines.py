"""The line index: every construct of TOML that a squad file may use."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leanmark.squad.lines import LineIndex
from leanmark.squad.paths import ValuePath

TEXT = '''\
# a comment with [brackets] and = signs
squad = "Winter # not a comment"
"quoted key" = 1
rig.name = "dotted"
notes = """
first [[trainee]]
stature_m = 9
five quotes: \\"""""
after = true
[rig.settings_m]   # a comment
long = 2.15
'mid-shin' = 1.9
"up\\u0070er" = 1.2
[[trainee]]
name = 'Edda'
when = 1979-05-27 07:32:00
[trainee.lengths_m]
thigh = 0.43
[[trainee]]
lengths_m = { thigh = 0.4, foot = 0.25, nested = { a.b = [1, 2] } }
loads = [
  25, # first
  [35, 45],
  { x = 1 },
]
last = \'\'\'
one\'\'two
\'\'\'
end = -1.5e+3
'''

EXPECTED = {
    ("squad",): 2,
    ("quoted key",): 3,
    ("rig",): 4,
    ("rig", "name"): 4,
    ("notes",): 5,
    ("after",): 9,
    ("rig", "settings_m"): 10,
    ("rig", "settings_m", "long"): 11,
    ("rig", "settings_m", "mid-shin"): 12,
    ("rig", "settings_m", "upper"): 13,
    ("trainee",): 14,
    ("trainee", 0): 14,
    ("trainee", 0, "name"): 15,
    ("trainee", 0, "when"): 16,
    ("trainee", 0, "lengths_m"): 17,
    ("trainee", 0, "lengths_m", "thigh"): 18,
    ("trainee", 1): 19,
    ("trainee", 1, "lengths_m"): 20,
    ("trainee", 1, "lengths_m", "foot"): 20,
    ("trainee", 1, "lengths_m", "nested", "a", "b", 1): 20,
    ("trainee", 1, "loads"): 21,
    ("trainee", 1, "loads", 0): 22,
    ("trainee", 1, "loads", 1): 23,
    ("trainee", 1, "loads", 1, 1): 23,
    ("trainee", 1, "loads", 2, "x"): 24,
    ("trainee", 1, "last"): 26,
    ("trainee", 1, "end"): 29,
}


def paths_of(value: object, path: ValuePath = ()) -> Iterator[ValuePath]:
    """Every path of a parsed TOML document."""
    children = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    for key, child in children:
        yield (*path, key)
        yield from paths_of(child, (*path, key))


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_every_construct(line_end: str) -> None:
    text = TEXT.replace("\n", line_end)
    tomllib.loads(text)
    index = LineIndex(text)
    assert {path: index.line(path) for path in EXPECTED} == EXPECTED


def test_a_tables_own_header_counts_more_than_a_table_inside_it() -> None:
    index = LineIndex("[rig.settings_m]\nlong = 2\n[rig]\nname = 'beam'\n")
    assert index.line(("rig",)) == 3
    assert index.line(("rig", "settings_m")) == 1


def test_a_missing_path_falls_back_to_the_table_around_it() -> None:
    index = LineIndex(TEXT)
    assert index.line(("trainee", 0, "mass_kg")) == 14
    assert index.line(("trainee", 1, "lengths_m", "hand")) == 20
    assert index.line(("cards",)) is None
    assert index.line(()) is None


keys = st.text(alphabet="abc.\"'=[]# é\\", min_size=1, max_size=5)
scalars = st.one_of(
    st.integers(-99, 99),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.text(max_size=12),
)


def as_toml(value: object, inline_break: str) -> str:
    """A value written as TOML; lists break over lines with ``inline_break``."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        escaped = "".join(
            f"\\U{ord(char):08X}" if char < " " or char in '"\\\x7f' else char for char in value
        )
        return f'"{escaped}"'
    if isinstance(value, list):
        return f"[{inline_break}" + f",{inline_break}".join(as_toml(v, inline_break) for v in value) + "]"
    if isinstance(value, dict):
        pairs = (f"{as_toml(k, '')} = {as_toml(v, inline_break)}" for k, v in value.items())
        return "{" + ", ".join(pairs) + "}"
    return repr(value)


values = st.recursive(
    scalars,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(keys, inner, max_size=3)),
    max_leaves=8,
)


@settings(max_examples=200)
@given(
    rows=st.lists(st.dictionaries(keys, values, max_size=4), max_size=4),
    inline_break=st.sampled_from(["", "\n", " # note ]\n"]),
)
def test_written_documents_give_the_line_of_each_key(
    rows: list[dict[str, object]], inline_break: str
) -> None:
    lines, expected = [], {}
    for position, row in enumerate(rows):
        lines.append("[[row]]")
        expected["row", position] = len(lines)
        for key, value in row.items():
            lines.extend(f"{as_toml(key, '')} = {as_toml(value, inline_break)}".split("\n"))
            expected["row", position, key] = len(lines) - as_toml(value, inline_break).count("\n")
    text = "\n".join(lines)
    index = LineIndex(text)
    assert {path: index.line(path) for path in expected} == expected
    for path in paths_of(tomllib.loads(text)):
        if len(path) <= 6:
            assert path in index._lines


@settings(max_examples=300)
@given(text=st.text(alphabet="ab=.[]{},#\"'\\\n\t é", max_size=60))
def test_any_text_is_walked_without_an_error(text: str) -> None:
    index = LineIndex(text)
    found = index.line(("a", "b"))
    assert found is None or 1 <= found <= text.count("\n") + 1
    try:
        paths = list(paths_of(tomllib.loads(text)))
    except tomllib.TOMLDecodeError:
        return
    assert all(path in index._lines for path in paths if len(path) <= 6)


def test_deep_nesting_is_stepped_over() -> None:
    text = f"deep = {'[' * 60}{']' * 60}\nnext = 1"
    assert LineIndex(text).line(("next",)) == 2
