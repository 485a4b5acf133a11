"""``leanmark floor``: who is where when in a group session."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask, files_in, refused

from leanmark.cli.cycle_named import session_date
from leanmark.cli.floor import minutes_on_straps
from leanmark.cycle.edit import squad_of
from leanmark.cycle.files.json_file import read_cycle


def test_everybodys_sets_are_on_the_floor_plan(built: Path, tmp_path: Path) -> None:
    words = ("--date", "2027-03-01", "--pdf", tmp_path / "floor.pdf")
    said = ask("floor", built / "cycle.json", *words)
    assert (said.code, said.err) == (0, "")
    flat = " ".join(said.out.split())
    assert flat.startswith("Spring, Monday 2027-03-01, Beam: 2 trainees, 2 anchors ")
    for plan in read_cycle(built / "cycle.json").plans:
        assert all(f"{plan.trainee}: {line.move}" in flat for line in plan.sessions[0].lines)
    assert (tmp_path / "floor.pdf").read_bytes().startswith(b"%PDF-")
    assert max(map(len, said.out.splitlines())) <= 100


def test_a_narrow_screen(built: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    said = ask("floor", built / "cycle.json", "--date", "2027-03-04")
    assert max(map(len, said.out.splitlines())) <= 40


def test_data_hold_every_set(built: Path) -> None:
    data = ask("floor", built / "cycle.json", "--date", "2027-03-04", "--group", "late", "--json").data
    lines = read_cycle(built / "cycle.json").plans[1].sessions[1].lines
    assert data["ask"]["who"] == ["Birk"]
    assert len(data["turns"]) == sum(line.sets for line in lines)


def test_one_by_one_or_shared(built: Path) -> None:
    words = ("floor", built / "cycle.json", "--date", "2027-03-01", "--json", "--people-per-anchor")
    alone = ask(*words, "1").data
    assert alone["ask"]["people_per_anchor"] == 1
    assert all(use["most_at_once"] <= 1 for use in alone["anchors"])


def test_the_day_left_out_is_the_next_with_sessions_or_the_first(
    built: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import datetime as dt

    cycle = read_cycle(built / "cycle.json")
    for today, found in (
        ("2027-01-01", "2027-03-01"),
        ("2027-03-01", "2027-03-01"),
        ("2027-03-02", "2027-03-04"),
        ("2027-03-05", "2027-03-01"),
    ):
        monkeypatch.setattr("leanmark.cli.cycle_named.today", lambda day=today: dt.date.fromisoformat(day))
        assert str(session_date(cycle, None)) == found


def test_warm_up_and_cool_down_come_off_the_minutes(built: Path) -> None:
    # 60 minutes less the means of 5 to 8 and of 3 to 5 minutes, the rules' bounds in dose/rules.py
    squad = squad_of(read_cycle(built / "cycle.json"))
    assert minutes_on_straps(squad, ["Birk"]) == 60 - 6.5 - 4


WRONG = [
    (("--date", "2027-03-02"), "--date = '2027-03-02' ", "the nearest is 2027-03-01"),
    (("--date", "1 March"), "--date = '1 March' ", "--date 2026-11-30"),
    (("--group", "lat", "--trainee", "asta"), "--group = 'Late' ", "choose another day or group"),
    (("--group", "noon"), "--group = 'noon' ", "Early, Late"),
    (("--trainee", "x"), "--trainee = 'x' ", "Asta Å, Birk"),
    (("--people-per-anchor", "0"), "--people-per-anchor = 0 ", "1 to 20"),
    (("--paper", "a3"), "--paper = 'a3' ", "a4, letter, phone"),
    (("--pdf", "gone/floor.pdf"), "--pdf = 'gone/floor.pdf' ", "make the folder first"),
]


@pytest.mark.parametrize(("words", "given", "remedy"), WRONG)
def test_sessions_that_cannot_be(
    cycle_file: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], given: str, remedy: str
) -> None:
    monkeypatch.chdir(cycle_file.parent)
    line = refused("floor", "cycle.json", *words)
    assert line.startswith(given)
    assert remedy in line
    assert files_in(cycle_file.parent) == ["cycle.json"]
