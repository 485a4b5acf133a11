"""``leanmark cycle show``: the overview, a trainee's sessions, or sessions line by line, on any screen."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask, refused

from leanmark.cli.cycle_overview import TESTS
from leanmark.cycle.files.json_file import read_cycle


def test_a_trainee_is_shown_session_by_session_with_notes(built: Path) -> None:
    said = ask("cycle", "show", built / "cycle.json", "--trainee", "asta")
    words = " ".join(said.out.split())
    plan = read_cycle(built / "cycle.json").plans[0]
    assert words.startswith("Asta Å, Spring: 2 sessions 1 week 1, Mon 2027-03-01, 18:00, ")
    for session in plan.sessions:
        assert all(f"{line.move}, {line.sets} × " in words for line in session.lines)
    assert all(" ".join(note.split()) in words for note in plan.notes)


def test_tests_that_open_rungs_are_left_for_the_trainees_own_page(built: Path) -> None:
    plans = read_cycle(built / "cycle.json").plans
    assert any(note.startswith(f"{TESTS}: ") for plan in plans for note in plan.notes)
    assert ask("cycle", "show", built / "cycle.json").out.count(TESTS) == 1


def test_a_session_line_by_line_holds_all_that_is_prescribed(built: Path) -> None:
    said = ask("cycle", "show", built / "cycle.json", "--trainee", "birk", "--session", "2")
    words = " ".join(said.out.split())
    session = read_cycle(built / "cycle.json").plans[1].sessions[1]
    assert words.startswith("Birk, session 2 of 2, week 1 of 1: Thursday 2027-03-04, 18:00 ")
    for number, line in enumerate(session.lines, start=1):
        assert f"{number} {line.move}, {line.rung} {line.sets} set" in words
        mark = f"{100 * line.mark_m:.0f} cm".replace("-", "−")
        assert not line.strap or f"{line.mark_of} at {mark}" in words
        assert f"rest {line.rest_s:.0f} s" in words
        assert f"demand {100 * line.demand:.0f} % of reference strength" in words
    assert "Pain, dizziness or numbness: stop" in words
    assert "diagnoses nothing" in words


@pytest.mark.parametrize("columns", [40, 72, 300])
@pytest.mark.parametrize("more", [(), ("--trainee", "birk"), ("--week", "1")])
def test_lines_fit_the_screen(
    built: Path, monkeypatch: pytest.MonkeyPatch, columns: int, more: tuple[str, ...]
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    said = ask("cycle", "show", built / "cycle.json", *more)
    assert said.code == 0
    assert max(map(len, said.out.splitlines())) <= min(columns, 100)


def test_data_are_the_plans_asked_for(built: Path) -> None:
    (plan,) = ask("cycle", "show", built / "cycle.json", "--trainee", "birk", "--session", "1", "--json").data
    assert plan["trainee"] == "Birk"
    assert [session["number"] for session in plan["sessions"]] == [1]
    assert len(ask("cycle", "show", built / "cycle.json", "--json").data) == 2


def test_lengths_come_in_the_units_asked_for(built: Path) -> None:
    said = ask("cycle", "show", built / "cycle.json", "--session", "1", "--units", "us")
    assert " in" in said.out
    assert " cm" not in said.out


@pytest.mark.parametrize(
    ("words", "given", "allowed"),
    [
        (("--session", "9"), "--session = 9 ", "sessions 1 to 2"),
        (("--session", "0"), "--session = 0 ", "sessions 1 to 2"),
        (("--week", "3"), "--week = 3 ", "weeks 1 to 1"),
        (("--week", "3", "--session", "1"), "--session = 1 ", "none"),
        (("--trainee", "brik"), "--trainee = 'brik' ", "did you mean 'Birk'?"),
        (("--units", "stones"), "--units = 'stones' ", "metric or us"),
    ],
)
def test_what_is_not_planned_is_refused(
    built: Path, words: tuple[str, ...], given: str, allowed: str
) -> None:
    line = refused("cycle", "show", built / "cycle.json", *words)
    assert line.startswith(given)
    assert allowed in line


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "the file is empty; give a cycle file, written by Leanmark"),
        (b"{}", "this is JSON, but not of a cycle"),
        (b'{"form": 99, "plans": []}', "this Leanmark reads form 1"),
        (b"PK\x03\x04", "not JSON"),
        (b"[1, 2", ""),
    ],
)
def test_files_that_are_no_cycle(tmp_path: Path, content: bytes, said: str) -> None:
    path = tmp_path / "other.json"
    path.write_bytes(content)
    for command in (("cycle", "show"), ("floor",)):
        line = refused(*command, path)
        assert "other.json" in line
        assert said in line


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    assert "there is no such file" in refused("cycle", "show", tmp_path / "gone.json")
