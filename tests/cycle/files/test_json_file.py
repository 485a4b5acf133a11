"""A cycle as JSON: what is read back equals what was written, and anything else is refused in one line."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given
from msgspec.structs import replace
from tests.cycle.sample_cycle import cycles, sample_cycle

from leanmark.cycle.files.json_file import cycle_from_bytes, cycle_json, read_cycle, write_cycle
from leanmark.cycle.files.problems import CycleFileError
from leanmark.cycle.form import CYCLE_FORM, Cycle, Pin, Session
from leanmark.errors import FieldError

GOOD = cycle_json(sample_cycle())


def with_session(**changes: object) -> Cycle:
    """The sample with the first session changed."""
    cycle = sample_cycle()
    first, *others = cycle.plans
    sessions = (replace(first.sessions[0], **changes), *first.sessions[1:])
    return replace(cycle, plans=(replace(first, sessions=sessions), *others))


def refused(data: bytes) -> str:
    with pytest.raises(CycleFileError) as caught:
        cycle_from_bytes(data, "winter.json")
    said = str(caught.value)
    assert said.isprintable(), "one line"
    return said


@given(cycles())
def test_any_cycle_reads_back_equal(cycle: Cycle) -> None:
    again = cycle_from_bytes(cycle_json(cycle))
    assert again == cycle
    assert cycle_json(again) == cycle_json(cycle)
    offsets = [session.starts.utcoffset() for plan in cycle.plans for session in plan.sessions]
    assert [one.starts.utcoffset() for plan in again.plans for one in plan.sessions] == offsets


def test_a_file_reads_back_equal_and_holds_letters_as_they_are(tmp_path: Path) -> None:
    path = write_cycle(sample_cycle(), tmp_path / "winter.json")
    assert read_cycle(path) == sample_cycle()
    assert "Tuva Lindvåg".encode() in path.read_bytes()
    assert path.read_bytes() == GOOD


def test_a_byte_order_mark_does_no_harm() -> None:
    assert cycle_from_bytes(b"\xef\xbb\xbf" + GOOD) == sample_cycle()


def test_every_cut_of_a_file_is_refused() -> None:
    for end in range(0, len(GOOD) - 3, 997):
        assert "winter.json" in refused(GOOD[:end])
    assert "winter.json:5: the file ends before the cycle does" in refused(GOOD[:500])


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"hello", "winter.json:1: not JSON: invalid character"),
        (b"{}", "this is JSON, but not of a cycle"),
        (b"[1]", "expected 'object', got 'array'"),
        (b'{"form": 1}', "not of a cycle"),
        (b'{"move": "row", "mark_m": 1}', "not of a cycle"),
        (b'{"form":' + b"[" * 100_000, "nested too deep"),
        (GOOD + b"}", "not JSON: trailing characters"),
        (GOOD.replace("å".encode(), b"\xe5", 1), "is not UTF-8"),
        (b"PK\x03\x04\x00\x00", "not JSON"),
    ],
)
def test_foreign_files_are_refused(data: bytes, words: str) -> None:
    assert words in refused(data)


@pytest.mark.parametrize("form", [b"2", b"0", b"-1", b'"1"', b"true", b"1.5", b"null", b"[]"])
def test_unknown_forms_are_refused(form: bytes) -> None:
    said = refused(GOOD.replace(b'"form": 1', b'"form": ' + form))
    assert "form" in said


def test_a_newer_form_says_what_to_do() -> None:
    said = refused(GOOD.replace(b'"form": 1', b'"form": 2'))
    assert said == (
        f"winter.json: the cycle has form 2, and this Leanmark reads form {CYCLE_FORM}; "
        "read it with a newer Leanmark, or build the cycle anew"
    )


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"week": 1', '"week": "x"', "plans entry 1, sessions entry 1: week: expected 'int', got 'str'"),
        ('"week": 1', '"week": 3', "plans entry 1, sessions entry 1: week = 3 is not allowed"),
        ('"deload"', '"delaod"', "plans entry 1, sessions entry 1: object contains unknown field 'delaod'"),
        ('"sets": 3', '"sets": 0', "sessions entry 1, lines entry 1: sets = 0 is not allowed"),
        ('"reps": 8', '"reps": -8', "lines entry 1, parts entry 1: reps = -8 is not allowed"),
        ('"stage": "fast"', '"stage": "quick"', "parts entry 2: stage: invalid enum value 'quick'"),
        ('"wave": 0.0', '"wave": null', "sessions entry 1: wave: expected 'float', got 'null'"),
        ("18:00:00+01:00", "18:00:00", "starts = '2027-01-11T18:00:00' is not allowed"),
        ("2027-01-11T18", "2027-02-30T18", "sessions entry 1: starts: invalid"),
        ('"zone": "Europe/Oslo"', '"zone": "Europe/Olso"', "zone = 'Europe/Olso' is not allowed"),
        ('"zone": "Europe/Oslo"', '"zone": "../../etc/passwd"', "zone = '../../etc/passwd' is not allowed"),
        (
            '"trainee": "Jonas Holmvik"',
            '"trainee": "Tuva Lindvåg"',
            "plans entry 2: trainee = 'Tuva Lindvåg'",
        ),
        ('"number": 2', '"number": 1', "plans entry 1: number = '1' is not allowed"),
        (
            '"jonas-session-2",',
            '"tuva-session-1",',
            "plans entry 2, sessions entry 2: uid = 'tuva-session-1'",
        ),
        ('"weeks": 2', '"weeks": NaN', "winter.json:8: not JSON"),
        ('"weeks": 2', '"weeks": 1e999', "weeks"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(old: str, new: str, words: str) -> None:
    assert old.encode() in GOOD
    assert words in refused(GOOD.replace(old.encode(), new.encode(), 1))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"starts": dt.datetime(2027, 1, 11, 18, 0)}, "starts"),  # noqa: DTZ001 the mistake to be refused
        ({"week": 3}, "week = 3"),
        ({"wave": float("nan")}, "wave"),
        ({"wave": float("inf")}, "wave"),
        ({"number": 0}, "number = 0"),
        ({"uid": "\ud800"}, "cycle"),
    ],
)
def test_a_cycle_that_would_not_read_back_is_not_written(
    changes: dict[str, object], words: str, tmp_path: Path
) -> None:
    with pytest.raises(FieldError, match=words):
        write_cycle(with_session(**changes), tmp_path / "winter.json")
    assert list(tmp_path.iterdir()) == []


def test_a_mark_that_is_no_number_is_not_written_as_none() -> None:
    pin = Pin("Tuva Lindvåg", 1, "dose", "row", mark_m=float("nan"))
    with pytest.raises(FieldError, match="values that read back as the same"):
        cycle_json(replace(sample_cycle(), pins=(pin,)))


def test_a_seed_of_any_size_reads_back() -> None:
    cycle = replace(sample_cycle(), seed=2**64)
    assert cycle_from_bytes(cycle_json(cycle)) == cycle


def test_missing_files_and_folders_are_said_in_one_line(tmp_path: Path) -> None:
    with pytest.raises(CycleFileError, match="there is no such file; check the path of a cycle file"):
        read_cycle(tmp_path / "gone.json")
    with pytest.raises(CycleFileError, match="this is a folder"):
        read_cycle(tmp_path)
    (tmp_path / "empty.json").write_bytes(b" \n")
    with pytest.raises(CycleFileError, match="the file is empty"):
        read_cycle(tmp_path / "empty.json")


def test_the_session_helper_changes_one_session_only() -> None:
    changed = with_session(deload=True)
    assert isinstance(changed.plans[0].sessions[0], Session)
    assert changed.plans[1] == sample_cycle().plans[1]
