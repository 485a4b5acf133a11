"""From bytes to values with places; what is no move file is one line, never anything else."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from tests.moves.move_files import PULL

from leanmark.moves.check.files import checked
from leanmark.moves.files import library_paths
from leanmark.moves.problems import MoveFileError
from leanmark.moves.source import DEEPEST, LARGEST_FILE_BYTES, parse, read_source

BROKEN = [
    (b"", "f.yaml: the file holds nothing"),
    (b"# only a comment\n", "f.yaml: the file holds nothing"),
    (b"move: a\n\tcue: b\n", "f.yaml:2:1: a tab at the start of the line"),
    (b"move: a\nnote: one: two\n", "f.yaml:2:10: a colon where no field can start"),
    (b"move: a\n  family: b\n", "f.yaml:2:9: a colon where no field can start"),
    (b"move: a\ncues: [one, two\nrungs: 1\n", "f.yaml:3:6: a list or mapping in brackets goes on in the"),
    (b'move: "a\n', "f.yaml:2:1: a quoted text is not closed"),
    (b"move: a\n---\nmove: b\n", "f.yaml:2:1: there is a second document"),
    (b"move: *a\n", "f.yaml:1:7: an alias (*) without its anchor"),
    (b"- a\nmove: b\n", "f.yaml:2:1: this line fits no list"),
    (b"move: @a\n", "f.yaml:1:7: a tab or a sign that no value starts with"),
    (b"[" * 5000, "f.yaml:1:1001: brackets or lists are nested too deep"),
    (b"\xff\xfem\x00", "f.yaml:1:1: the file is UTF-16 or no text at all"),
    (b"\x89PNG\r\n\x1a\n\x00\x00", "f.yaml:1:1: the file is UTF-16 or no text at all"),
    (b"move: a\nnote: Br\xfccke\n", "f.yaml:2:1: byte 17 of the file is FC, which is not UTF-8"),
    (b"move: a\nnote: b\x07\n", "f.yaml:2:1: the sign U+0007 does not print"),
    (b"a: " + b"x" * LARGEST_FILE_BYTES, "f.yaml: the file has 200 kB, more than 200 kB"),
]


@pytest.mark.parametrize(("data", "start"), BROKEN)
def test_what_is_no_move_file_is_said_in_one_line(data: bytes, start: str) -> None:
    with pytest.raises(MoveFileError) as error:
        parse(data, "f.yaml")
    (problem,) = error.value.problems
    assert str(problem).startswith(start)
    assert str(problem).isprintable()
    assert problem.remedy


LEFT_OUT = [
    (b"a: 1\nb: 2\na: 3\n", "f.yaml:3:1: 'a' is given twice, first in line 1"),
    (b"a: &x [1]\nb: *x\n", "f.yaml:1:4: an alias (*) repeats this entry"),
    (b"a: &x [*x]\n", "f.yaml:1:4: an alias (*) repeats this entry"),
    (b"a: !!python/object:os.system x\n", "f.yaml:1:4: a tag (tag:yaml.org,2002:python/object:os.syst…)"),
    (b"a: !!int x\n", "f.yaml:1:4: a tag"),
    (b"a: !!map x\n", "f.yaml:1:4: a tag"),
    (b"? [a]\n: b\n", "f.yaml:1:3: a list or mapping stands for a field's name"),
    (b"a: " + b"[" * 20 + b"]" * 20, f"f.yaml:1:{4 + DEEPEST}: lists and mappings are nested too deep"),
]


@pytest.mark.parametrize(("data", "start"), LEFT_OUT)
def test_what_a_move_file_must_not_use_is_said_with_its_place(data: bytes, start: str) -> None:
    assert str(parse(data, "f.yaml").problems[0]).startswith(start)


def test_aliases_cannot_blow_a_file_up() -> None:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    rows += [f"a{k}: &a{k} [{', '.join([f'*a{k - 1}'] * 9)}]" for k in range(1, 40)]
    source = parse("\n".join(rows).encode(), "f.yaml")
    assert len(source.problems) == 9 * 39
    assert str(source.value).count("x") == 9


def test_plain_values_are_those_of_current_yaml() -> None:
    text = b"a: 1\nb: -2.5\nc: true\nd: null\ne: 'no'\nf: no\ng: 12:30\nh: 2026-01-31\ni: 1e3\nj: .inf\n"
    text += b"k: 99999999999999999999999\nl: .5\nm: 0x1f\nn: 007\no: |\n  two\n  lines\n"
    value = parse(text, "f.yaml").value
    assert value == {
        "a": 1, "b": -2.5, "c": True, "d": None, "e": "no", "f": "no", "g": "12:30", "h": "2026-01-31",
        "i": 1000.0, "j": float("inf"), "k": 1e23, "l": 0.5, "m": "0x1f", "n": 7, "o": "two\nlines\n",
    }  # fmt: skip


@pytest.mark.parametrize("path", library_paths(), ids=lambda path: path.stem)
def test_library_files_read_as_by_the_usual_reader(path: Path) -> None:
    source = read_source(path)
    assert not source.problems
    assert source.value == yaml.safe_load(path.read_text("utf-8"))


def test_every_entry_has_its_place() -> None:
    source = parse(PULL.encode(), "f.yaml")
    lines = PULL.splitlines()
    for path, text in [
        (("kit",), "kit: handles"),
        (("mark", "start-m"), "start-m: -1.3"),
        (("contacts", 0, "patch"), "patch: sole"),
        (("phases", "end", "elbow", "flexion"), "flexion: 5"),
        (("rungs", 1, "end", "shoulder"), "shoulder: {elevation: 62}"),
    ]:
        line, column = source.place(path)
        assert lines[line - 1][column - 1 :].startswith(text)


def test_an_entry_that_is_not_there_has_the_place_of_the_one_around_it() -> None:
    source = parse(PULL.encode(), "f.yaml")
    assert source.place(("rungs", 1, "gates", 3, "reps")) == source.place(("rungs", 1))
    assert source.place(("rungs", 9)) == source.place(("rungs",))
    assert source.place(("nothing",)) == source.place(()) == (2, 1)


@pytest.mark.parametrize(
    ("name", "said"),
    [(".", "this is a folder"), ("gone.yaml", "there is no such file"), ("a\x00b", "cannot be read|no such")],
)
def test_places_that_are_no_file(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(MoveFileError, match=said):
        read_source(tmp_path / name)


def read_and_check(data: bytes) -> None:
    """Anything but a MoveFileError ends the test."""
    try:
        source = parse(data, "f.yaml")
    except MoveFileError as error:
        problems = error.problems
    else:
        problems = tuple(checked(source).check.problems)
    assert all(str(problem).isprintable() for problem in problems)


@given(st.binary(max_size=300))
def test_any_bytes_are_answered(data: bytes) -> None:
    read_and_check(data)


@given(st.text(alphabet="move: -[]{}'\"#&*!|>%@`,?\n\t~.0e9af\u2028é", max_size=120))
def test_any_text_of_yaml_signs_is_answered(text: str) -> None:
    read_and_check(text.encode())


@given(at=st.integers(0, len(PULL)), new=st.text(max_size=8), cut=st.integers(0, 40))
def test_a_move_file_changed_anywhere_is_answered(at: int, new: str, cut: int) -> None:
    read_and_check((PULL[:at] + new + PULL[at + cut :]).encode("utf-8", errors="surrogatepass"))
