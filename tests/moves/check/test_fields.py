"""Every field of a move file that is wrong is said with its place, what is allowed and what to do."""

from __future__ import annotations

import copy
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from tests.moves.move_files import PAUSED, PULL, changed, check_text, line_of, said

from leanmark.moves.check.field_words import FIELD_WORDS
from leanmark.moves.check.fields import fields_of
from leanmark.moves.check.files import read_checked
from leanmark.moves.check.shared import shared_paths
from leanmark.moves.files import library_paths
from leanmark.moves.names import ACTIONS_OF, LIMITS, NAMES, POSE_FIELDS

CHANGES = [
    # old, new, where the problem starts in the new line, what is said
    ("kit: handles", "kitt: handles", "kitt", "'kitt' is not a field here; did you mean 'kit'?"),
    ("kit: handles", "kit: rope", "kit", "kit = 'rope' is not one of its words; allowed: cradles, handles"),
    ("kit: handles", "kit: [handles]", "kit", "kit = a list of 1 is not one of its words"),
    ("kit: handles", "kit:", "kit", "kit = nothing is not one of its words"),
    ("plane: sagittal", "plane: sagital", "plane", "did you mean 'sagittal'?; allowed: frontal"),
    ("family: horizontal pull", "family: pulling", "family", "family = 'pulling' is not a move family"),
    ("faces: the anchor", "faces: 12", "faces", "faces = 12 is not a text; put it in quotes"),
    ("faces: the anchor", "faces: true", "faces", "faces = true is not a text; put it in quotes"),
    ("faces: the anchor", "faces: ''", "faces", "faces = '' is not a text of 1 to 400 characters; write it"),
    ("faces: the anchor", "faces: ' '", "faces", "is not a text of 1 to 400 characters"),
    ("faces: the anchor", f"faces: {'x' * 401}", "faces", "characters; shorten it"),
    ("faces: the anchor", 'faces: "a\\u202Eb"', "faces", "faces = 'a\\u202Eb' is not a text of one line"),
    ("  - press the hands down, not in", "  - now: press", "now", "a mapping is not a text; put text"),
    ("  - press the hands down, not in\n", "", "cues", "cues has 1 entry, not 2 to 4; add some"),
    ("cues:", "cues: [a, b, c, d, e]\nold:", "cues", "cues has 5 entries, not 2 to 4; leave some out"),
    ("shoulder extension: [lat", "sholder extension: [lat", "sholder", "did you mean 'shoulder extension'?"),
    ("[latissimus dorsi, teres major]", "[]\nhelp: x", "help", "'help' is not a field here; did you mean"),
    ("teres major", "teres mayor", "teres mayor", "'teres mayor' is not a muscle for shoulder"),
    ("teres major", "biceps femoris", "biceps femoris", "is not a muscle for shoulder extension"),
    ("elbow extension: [", "shoulder blade slide: [", "shoulder", "is not a joint action for helps"),
    ("patch: sole", "patch: soles", "patch", "patch = 'soles' is not a contact patch; did you mean 'sole'?"),
    ("{patch: sole, width", "{width", "{width", "contacts entry 1.patch is missing; add patch, a text"),
    ("width: 1.2", "width: wide", "width", "width = 'wide' is not a number; write it with digits"),
    ("width: 1.2", "width: 99", "width", "width = 99 is not a number from −10 to 10; correct it"),
    ("width: 1.2", "width: .nan", "width", "width = nan is not a number from −10 to 10"),
    ("width: 1.2", "width: true", "width", "width = true is not a number"),
    ("width: 1.2", "height-m: -0.1", "height-m", "height-m = -0.1 is not a number from 0 to 1.5; give"),
    ("width: 1.2", "found: 'yes'", "found", "found = 'yes' is not true or false; write one of the two"),
    ("width: 1.2", "sides: [middle]", "middle", "sides entry 1 = 'middle' is not one of its words"),
    ("width: 1.2", "under: nose", "under", "under = 'nose' is not a body point without its side"),
    ("  - {patch: sole, width: 1.2}", "  - sole", "sole", "contacts entry 1 = 'sole' is not a mapping"),
    ("point: grip", "point: gripp", "point", "point = 'gripp' is not a body point without its side; did you"),
    ("point: grip", "point: grip, in-line: chin", "in-line", "in-line = 'chin' is not a body point without"),
    ("strap: mid-thigh", "strap: mid thigh", "strap", "is not a strap setting of a standard rig; did"),
    ("hip: locked", "hipp: locked", "hipp", "'hipp' is not a joint; did you mean 'hip'?"),
    ("hip: locked", "hip: tight", "hip", "firm.hip = 'tight' is not one of its words; allowed: firm, free"),
    ("elbow: {flexion: 5}", "elbow: {bend: 5}", "bend", "'bend' is not an angle here; allowed: flexion"),
    ("elbow: {flexion: 5}", "elbow: 5", "elbow", "phases.start.elbow = 5 is not a mapping"),
    ("elbow: {flexion: 5}", "elbow: {flexion: 156}", "flexion", "= 156 is not a number from −5 to 155"),
    ("root: {pitch: -25}", "like: [on the hand]", "on the hand", "is not a named pose; did you mean"),
    ("start-m: -1.3", "start-m: -2", "start-m", "start-m = -2 is not allowed (allowed: -1.8 to 0, its"),
    ("start-m: -1.3", "start-m: 1e999", "start-m", "start-m = inf is not a number from −8 to 8; give it"),
    ("loads-percent: [25, 30, 35]", "tempo-s: [0.1, 0, 1, 0]", "0.1", "tempo-s entry 1 = 0.1 is not 0.2"),
    ("loads-percent: [25, 30, 35]", "tempo-s: [1, 0, 1]", "tempo-s", "tempo-s has 3 entries, not 4"),
    ("loads-percent: [25, 30, 35]", "loads-percent: [0]", "0", "loads-percent entry 1 = 0 is not a number"),
    ("harder-by: range", "harder-by: luck", "harder-by", "rung 2 'to the hips': harder-by = 'luck' is not"),
    ("  - rung: to the hips", "  - name: to the hips", "name", "rung 2: 'name' is not a field here"),
    ("rung: to the hips", "rung: to the chest", "rung", "'to the chest' is also the name of rung 1; give it"),
    ("    harder-by: range", "    like: up", "like", "like = 'up' is not a rung further up the same file"),
    ("family: horizontal pull", "family: horizontal pull\nlike: rwo", "like", "did you mean 'row'?"),
    ("family: horizontal pull", "family: horizontal pull\nlike: [row]", "like", "like = a list of 1 is"),
    ("family: horizontal pull", "family: horizontal pull\n<<: {a: 1}", "<<", "'<<' is not a field here"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "piece", "words"), CHANGES)
def test_one_slip_is_said_with_its_line_and_column(old: str, new: str, piece: str, words: str) -> None:
    text = changed(old, new)
    found = [problem for problem in said(text) if words in problem]
    assert found, said(text)
    file, line, column, _ = found[0].split(":", 3)
    assert file == "pull.yaml"
    row = text.splitlines()[int(line) - 1]
    assert row[int(column) - 1 :].startswith(piece), row
    assert all(problem.isprintable() for problem in said(text))


def test_a_file_in_order_has_nothing_said_of_it() -> None:
    for text in (PULL, PAUSED):
        found = check_text(text)
        assert found.check.problems == []
        assert found.move is not None


def test_all_problems_of_a_file_are_said_at_once() -> None:
    text = changed("patch: sole", "patch: soles")
    text = changed("kit: handles", "kit: rope", text)
    text = changed("harder-by: range", "harder-by: luck", text)
    assert [problem.split(":")[1] for problem in sorted(said(text))] == [
        str(line_of(piece, text)) for piece in ("kit: rope", "patch: soles", "harder-by: luck")
    ]


GATES = [
    ("{rung: a, source: b}", "gates entry 1 = 'a' is not allowed (allowed: either hold-s or reps)"),
    ("{rung: a, source: b, hold-s: 3, reps: 2}", "allowed: either hold-s or reps"),
    ("{rung: a, hold-s: 3}", "gates entry 1.source is missing; add source, a text"),
    ("{rung: a, source: b, hold-s: 0}", "hold-s = 0 is not a number from above 0 to 600"),
    ("{rung: a, source: b, reps: 0}", "reps = 0 is not a whole number from 1 to 100"),
    ("{rung: a, source: b, reps: 2.5}", "reps = 2.5 is not a whole number"),
]


@pytest.mark.parametrize(("gate", "words"), GATES)
def test_gates_are_checked_entry_by_entry(gate: str, words: str) -> None:
    text = changed("    harder-by: range", f"    harder-by: range\n    gates:\n      - {gate}")
    assert [words in problem for problem in said(text)] == [True]


def test_a_list_without_end_is_cut_short() -> None:
    rungs = "".join(f"  - {{rung: r{k}, note: n}}\n" for k in range(41))
    text = PULL[: PULL.index("rungs:")] + "rungs:\n" + rungs
    place = f"pull.yaml:{line_of('rungs:', text)}:1"
    assert said(text) == [f"{place}: rungs has 41 entries, not 1 to 40; leave some out"]


@pytest.mark.parametrize("text", ["row", "[1, 2]", "12", "null", "- move: a"])
def test_a_file_that_is_no_mapping(text: str) -> None:
    (problem,) = said(text)
    assert problem.startswith("pull.yaml:1:1: the file = ")
    assert "is not a mapping" in problem


def test_the_name_stands_first() -> None:
    text = changed("kit: handles", "kit: handles\nmove: pull", changed("move: straight-arm pull\n", ""))
    assert "move is not the first field; put it in the first line of the file" in said(text)[0]


@pytest.mark.parametrize("path", [*library_paths(), *shared_paths()], ids=lambda path: path.stem)
def test_the_librarys_own_files_are_written_right(path: Any) -> None:  # noqa: ANN401
    """As written: what a move still lacks when all is laid out is for the check of the whole library."""
    problems = [str(problem) for problem in read_checked(path).check.problems]
    assert [problem for problem in problems if "neither the file" not in problem] == []


def test_every_field_has_its_words() -> None:
    for kind, words in FIELD_WORDS.items():
        assert {*words} == {*fields_of(kind)}


def test_tables_of_names_and_limits_speak_of_fields_that_there_are() -> None:
    for kind, name in (*NAMES, *ACTIONS_OF, *POSE_FIELDS, *LIMITS):
        assert name in kind.__struct_fields__


PLAIN: dict[str, Any] = yaml.safe_load(PULL)
JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=5),
    st.sampled_from(["row", "facing the anchor", "grip", "sole", "left_hip", "on the hands"]),
    st.lists(st.integers(), max_size=3),
    st.dictionaries(st.text(max_size=3), st.none(), max_size=2),
)


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:  # noqa: ANN401
    """The way to every entry."""
    keys = value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else []
    return [path, *(way for key in keys for way in places(value[key], (*path, key)))]


@given(st.sampled_from(places(PLAIN)[1:]), st.one_of(JUNK, st.just("remove")))
def test_any_entry_may_be_anything(way: tuple[Any, ...], junk: object) -> None:
    """Either the file is still in order, or something is said of it that can be printed."""
    content = copy.deepcopy(PLAIN)
    around = content
    for part in way[:-1]:
        around = around[part]
    if junk == "remove":
        del around[way[-1]]
    else:
        around[way[-1]] = junk
    text = yaml.safe_dump(content, sort_keys=False, allow_unicode=False)
    assert all(problem.isprintable() for problem in said(text))
    assert said(text) or check_text(text).move is not None
