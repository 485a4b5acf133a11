"""What a move file inherits: where its problems are told, what is missing, gates, files with one name."""

from __future__ import annotations

import copy
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.moves.check.test_fields import places
from tests.moves.move_files import OWN_MOVES, PAUSED, PULL, changed, check_text, line_of, said

from leanmark.moves import files
from leanmark.moves.check.files import Report, check_files, checked
from leanmark.moves.library import load_move
from leanmark.moves.names import LIMITS, angles_of
from leanmark.moves.schema import Contact, Mark, Move
from leanmark.moves.source import parse

PLAIN: dict[str, Any] = yaml.safe_load(PULL)


def entry_at(value: Any, way: tuple[Any, ...]) -> Any:  # noqa: ANN401
    """The entry that a way leads to."""
    for part in way:
        value = value[part]
    return value


def limits_of(way: tuple[Any, ...]) -> tuple[float, float]:
    """The lowest and highest number allowed at a place of the file."""
    if "phases" in way or "end" in way:
        low, high = angles_of(way[-2])[way[-1]]
        return low, high
    name = next(part for part in reversed(way) if isinstance(part, str))
    return {
        "width": LIMITS[Contact, "width"],
        "loads-percent": LIMITS[Move, "loads_percent"],
    }.get(name, LIMITS[Mark, "start_m"])


def nothing(_: float) -> None:
    """No progress to tell."""


def library_rungs(name: str) -> tuple[str, ...] | None:
    return tuple(rung.rung for rung in load_move(name).rungs) if name == "row" else None


def check_text_in_full(folder: Path, text: str) -> Report:
    (folder / "pull.yaml").write_text(text, "utf-8")
    return check_files([folder / "pull.yaml"], library_rungs, nothing)


@pytest.mark.parametrize("field", ["setup", "works", "strap", "contacts", "phases", "lever", "faults"])
def test_what_nobody_gives_is_missing(field: str) -> None:
    """The field's lines are taken out: from its own to the next that starts without a space."""
    lines = PULL.splitlines()
    first = next(k for k, line in enumerate(lines) if line.startswith(f"{field}:"))
    last = next(k for k in range(first + 1, len(lines)) if lines[k][0] not in " -")
    (problem,) = said("\n".join([*lines[:first], *lines[last:]]))
    assert problem.startswith(
        f"pull.yaml:2:1: {field} is missing: neither the file nor what it inherits gives"
    )
    assert f"; add {field}, " in problem


def test_the_family_gives_what_it_gives() -> None:
    move = check_text(PULL).move
    assert move is not None
    assert move.breathing == files.families()["horizontal pull"]["breathing"]
    assert [*move.stop] == files.families()["horizontal pull"]["stop"]


def test_a_rungs_mark_stands_for_itself() -> None:
    text = changed("    harder-by: range", "    harder-by: range\n    mark: {start-m: -1.2}")
    line = line_of("mark: {start-m: -1.2}", text)
    assert [problem.split(": ")[:2] for problem in said(text)] == [
        [f"pull.yaml:{line}:5", "rung 2 'to the hips'"]
    ] * 3
    assert [problem.split(": ")[2] for problem in said(text)] == [
        f"mark.{name} is missing" for name in ("of", "low-m", "high-m")
    ]


def test_a_problem_of_an_inherited_rung_is_told_at_the_like_line() -> None:
    text = PAUSED + "  - rung: deep lean\n    mark: {start-m: 4}\n"
    (problem,) = said(text)
    assert problem.startswith(
        f"pull.yaml:{line_of('mark: {start-m: 4}', text)}:5: rung 2 'deep lean': start-m = 4 is"
    )


def test_what_is_changed_of_a_move_keeps_the_rest() -> None:
    own, row = check_text(PAUSED).move, load_move("row")
    assert own is not None
    assert [rung.rung for rung in own.rungs] == [rung.rung for rung in row.rungs]
    assert own.rungs[1].note.endswith("two seconds at the ribs")
    assert own.rungs[0] == row.rungs[0]
    assert (own.phases, own.contacts, own.faults) == (row.phases, row.contacts, row.faults)
    assert own.cues == ("hands to the ribs, and stay", "count two before the arms go")


def test_a_new_rung_follows_the_inherited_ones() -> None:
    own = check_text(changed("rung: leaning", "rung: one more", PAUSED)).move
    assert own is not None
    assert [rung.rung for rung in own.rungs] == [*(rung.rung for rung in load_move("row").rungs), "one more"]


def test_set_ups_that_lead_back_to_themselves_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the library's own set-ups could: they stand in for each other here."""
    circle = {"facing the anchor": {"like": "row"}, "row": {"like": "facing the anchor"}}
    monkeypatch.setattr("leanmark.moves.check.likes.named", circle.__getitem__)
    (problem,) = checked(parse(PAUSED.encode(), "f.yaml")).check.problems
    assert str(problem).startswith(
        "f.yaml:2:1: like = 'row' is not free of a circle: it leads back to itself"
    )


GATES = [
    ("{rung: to the chest, hold-s: 5, source: own figure}", ""),
    (
        "{rung: to the chin, hold-s: 5, source: own figure}",
        "gates entry 1.rung = 'to the chin' is not a rung",
    ),
    ("{move: row, rung: leaning, reps: 8, source: own figure}", ""),
    (
        "{move: row, rung: lening, reps: 8, source: own figure}",
        "is not a rung of row; did you mean 'le",
    ),
    (
        "{move: rwo, rung: leaning, reps: 8, source: own figure}",
        "gates entry 1.move = 'rwo' is not a move",
    ),
]


@pytest.mark.parametrize(("gate", "words"), GATES)
def test_gates_lead_to_rungs_that_are_there(tmp_path: Path, gate: str, words: str) -> None:
    text = changed("    harder-by: range", f"    harder-by: range\n    gates:\n      - {gate}")
    report = check_text_in_full(tmp_path, text)
    assert len(report.problems) == (1 if words else 0)
    for problem in report.problems:
        assert problem.line == line_of(f"- {gate}", text)
        assert words in str(problem)


def test_a_position_that_cannot_be_held_is_told_with_phase_people_and_remedy(tmp_path: Path) -> None:
    text = changed("strap: mid-thigh", "strap: short")
    report = check_text_in_full(tmp_path, text)
    assert report.problems
    for problem in report.problems:
        assert problem.where in ("rung 1 'to the chest'", "rung 2 'to the hips'")
        assert problem.line in (line_of("- rung: to the chest", text), line_of("- rung: to the hips", text))
        assert "percentile" in problem.problem
    assert any("strap too short: the body cannot reach this far" in p.problem for p in report.problems)
    assert any(p.problem.startswith("the end: ") for p in report.problems)


def test_a_joint_past_its_range_is_named_with_its_range(tmp_path: Path) -> None:
    """Straight arms pressed so low that short arms' hands meet the strap at a slant. The range is the table's
    (AAOS 1965, own figure for the wrist)."""
    text = changed("elevation: 62", "elevation: 30")
    found = [problem.problem for problem in check_text_in_full(tmp_path, text).problems]
    assert any("left wrist radial deviation would go past its range −45 to 30" in words for words in found)
    assert all("(5th-percentile woman)" in words for words in found)


def test_a_ladder_that_falls_is_said_at_the_rung(tmp_path: Path) -> None:
    text = changed(
        "harder-by: range\n    end:\n      shoulder: {elevation: 62}",
        "mark: {of: heels, start-m: -1.5, low-m: -1.8, high-m: 0}",
    )
    report = check_text_in_full(tmp_path, text)
    (problem,) = report.problems
    assert problem.line == line_of("- rung: to the hips", text)
    assert problem.problem.startswith("demand falls from ")


def test_muscles_that_the_engine_does_not_find_working_are_said(tmp_path: Path) -> None:
    text = changed("  trunk flexion: [rectus abdominis, external oblique]", "  trunk rotation: [multifidus]")
    found = [problem.problem for problem in check_text_in_full(tmp_path, text).problems]
    assert any(words.startswith("helps names trunk rotation, which takes 0.0% of") for words in found)


def test_two_files_with_one_move_are_told(tmp_path: Path) -> None:
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text(PAUSED, "utf-8")
    report = check_files([tmp_path / "a.yaml", tmp_path / "b.yaml"], library_rungs, nothing)
    (problem,) = report.problems
    assert problem.file.endswith("b.yaml")
    assert "move = 'paused row' is in" in problem.problem


def test_each_file_is_judged_whatever_the_others_are(tmp_path: Path) -> None:
    (tmp_path / "empty.yaml").write_text("")
    shares: list[float] = []
    paths = [tmp_path / "empty.yaml", tmp_path, *sorted(OWN_MOVES.glob("*.yaml"))]
    report = check_files(paths, library_rungs, shares.append)
    assert [problem.problem for problem in report.problems] == ["this is a folder", "the file holds nothing"]
    assert (report.files, len(report.moves), report.rungs) == (4, 2, 2 + len(load_move("row").rungs))
    assert shares[-1] == 1.0
    assert shares == sorted(shares)


NUMBERS = [way for way in places(PLAIN) if isinstance(entry_at(PLAIN, way), (int, float))]


@settings(max_examples=20)
@given(st.lists(st.tuples(st.sampled_from(NUMBERS), st.floats(0.0, 1.0)), min_size=1, max_size=4))
def test_any_numbers_that_may_be_written_are_solved_or_refused_in_words(
    changes: list[tuple[tuple[Any, ...], float]],
) -> None:
    """Each number anywhere within the limits that the schema for editors gives. Warnings are errors here."""
    content = copy.deepcopy(PLAIN)
    for way, share in changes:
        low, high = limits_of(way)
        entry_at(content, way[:-1])[way[-1]] = low + share * (high - low)
    text = yaml.safe_dump(content, sort_keys=False)
    with TemporaryDirectory() as folder:
        report = check_text_in_full(Path(folder), text)
    assert all(str(problem).isprintable() for problem in report.problems)
    assert report.moves or report.problems
