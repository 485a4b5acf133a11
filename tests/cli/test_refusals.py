"""Input that cannot be used: one line with option, value, what is allowed and what to do; exit code 2."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.cli.ask import DEMO, HER, ask, files_in, refused
from tests.cli.squads import write_squad

WRONG_PEOPLE = [
    (("--stature", "178", "--mass", "75"), "--stature = '178' ", "1 to 2.5 m", "write '178 cm'"),
    (
        ("--stature", "70", "--mass", "75"),
        "--stature = '70' ",
        "1 to 2.5 m",
        "inches: write '70 in'",
    ),
    (("--stature", "178 m", "--mass", "75"), "--stature = '178 m' ", "1 to 2.5 m", "for example '1.78 m'"),
    (("--stature", "1,78 m", "--mass", "75"), "--stature = '1,78 m' ", "1 to 2.5 m", "decimals with a point"),
    (("--stature", "tall", "--mass", "75"), "--stature = 'tall' ", "1 to 2.5 m", "for example '1.78 m'"),
    (("--stature", "", "--mass", "75"), "--stature = '' ", "1 to 2.5 m", "write a number"),
    (("--stature", "5 ft x", "--mass", "75"), "--stature = '5 ft x' ", "1 to 2.5 m", "'5 ft 10 in'"),
    (("--stature", "178 cm", "--mass", "0"), "--mass = '0' ", "20 to 300 kg", "'75 kg'"),
    (("--stature", "178 cm", "--mass", "-75 kg"), "--mass = '-75 kg' ", "20 to 300 kg", "'75 kg'"),
    (("--stature", "178 cm", "--mass", "nan"), "--mass = 'nan' ", "20 to 300 kg", "'75 kg'"),
    (("--stature", "178 cm", "--mass", "inf"), "--mass = 'inf' ", "20 to 300 kg", "'75 kg'"),
    (("--stature", "178 cm", "--mass", "1e999"), "--mass = '1e999' ", "20 to 300 kg", "'75 kg'"),
    (("--stature", "178 cm", "--mass", "400"), "--mass = '400' ", "20 to 300 kg", "pounds: write '400 lb'"),
    (("--stature", "178 cm"), "--mass = None", "a stature and a mass", "--squad"),
    (("--mass", "75 kg"), "--stature = None", "a stature and a mass", "--squad"),
    (("--stature", "178 cm", "--mass", "75", "--sex", "f"), "--sex = 'f'", "female or male", "leave it out"),
]


@pytest.mark.parametrize(("words", "given", "allowed", "remedy"), WRONG_PEOPLE)
def test_people_that_cannot_be(words: tuple[str, ...], given: str, allowed: str, remedy: str) -> None:
    line = refused("load", "row", *words)
    assert line.startswith(given)
    assert f"(allowed: {allowed})" in line
    assert remedy in line


WRONG_POSITIONS = [
    (("--strap", "3 m"), "--strap = 3 ", "0.8 to 2.25", "a length that the straps of this rig have"),
    (("--strap", "9 m"), "--strap = '9 m' ", "0.2 to 5.8 m", "'1.5 m'"),
    (("--anchor", "240"), "--anchor = '240' ", "1.5 to 6 m", "write '240 cm'"),
    (("--anchor", "1 m"), "--anchor = '1 m' ", "1.5 to 6 m", "'2.4 m'"),
    (("--setting", "knee"), "--setting = 'knee' ", "long, mid-shin, ", "measure it"),
    (("--floor", "ice"), "--floor = 'ice' ", '"dry gym floor"', "name one of these"),
    (("--straps", "loop"), "--straps = 'loop' ", "independent or slipping loop", "choose one of the two"),
    (("--mark", "1e308 m"), "--mark = '1e308 m' ", "-8 to 8 m", "'-40 cm'"),
    (("--mark", "nan"), "--mark = 'nan' ", "-8 to 8 m", "'-40 cm'"),
    (("--mark", "-60"), "--mark = '-60' ", "-8 to 8 m", "write '-60 cm'"),
    (("--tempo", "x"), "--tempo = 'x' ", "0.2 to 20 s", "2-1-1-0"),
    (("--tempo", "2-1-1"), "--tempo = '2-1-1' ", "four times", "2-1-1-0"),
    (("--tempo", "0-0-0-0"), "--tempo = '0-0-0-0' ", "0.2 to 20 s", "2-1-1-0"),
    (("--tempo", "1e-300-1-1-0"), "--tempo = '1e-300-1-1-0' ", "0.2 to 20 s", "2-1-1-0"),
    (("--tempo", "nan-1-nan-0"), "--tempo = 'nan-1-nan-0' ", "0.2 to 20 s", "2-1-1-0"),
    (("--tempo", "2-1-1-9999"), "--tempo = '2-1-1-9999' ", "0.2 to 20 s", "2-1-1-0"),
    (("--add", "10 kg"), "--add = '10 kg' ", "a mass, 'on', a segment", "'10 kg on upper trunk'"),
    (("--add", "-1 kg on head"), "--add = '-1 kg' ", "0.05 to 60 kg", "'10 kg'"),
    (("--add", "1 kg on nose"), "--add = 'nose' ", "upper trunk", "name the segment"),
    (
        ("--push", "50 n sideways at chest"),
        "--push = '50 n sideways at chest' ",
        "forward, back",
        "'50 n forward",
    ),
    (("--push", "1e9 n up at chest"), "--push = '1e9 n' ", "0 to 2000 N", "'50 n'"),
    (
        ("--push", "5 n up at cest"),
        "--push = '5 n up at cest' ",
        "a point of the body",
        "did you mean 'chest'?",
    ),
    (("--flight", "10 cm"), "--flight = '10 cm' ", "a rung with a ballistic stage", "of row has none"),
    (("--people", "0"), "--people = '0' ", "1 to 8", "--people 2"),
    (("--people", "two"), "--people = 'two' ", "1 to 8", "--people 2"),
    (("--units", "imperial"), "--units = 'imperial' ", "metric or us", "choose one of the two"),
    (("--rung", "9"), "rung of row = '9' ", "1 near upright", "the library has"),
    (("--trainee", "Asta"), "--trainee = 'Asta' ", "a name of a squad file", "--squad"),
]


@pytest.mark.parametrize(("words", "given", "allowed", "remedy"), WRONG_POSITIONS)
def test_positions_that_cannot_be(words: tuple[str, ...], given: str, allowed: str, remedy: str) -> None:
    line = refused("load", "row", *HER, *words)
    assert line.startswith(given)
    assert allowed in line
    assert remedy in line


@pytest.mark.parametrize("load", ["0", "-30", "nan", "inf", "much", "1e9", "30 kg"])
def test_loads_that_cannot_be(load: str) -> None:
    line = refused("mark", "row", "--load", load, *HER)
    assert line == f"--load = '{load}' is not allowed (allowed: 0.1 to 200 %); write for example --load 35"


@pytest.mark.parametrize(
    ("words", "given"),
    [
        (("--reading", "33 kgf"), "--reading = '33 kgf' is not allowed (allowed: a mark, '=', a force)"),
        (("--reading", "-60 cm = 0 kgf"), "--reading = '0 kgf' is not allowed (allowed: 1 to 5000 N)"),
        (("--reading", "-60 cm = -3 kgf"), "--reading = '-3 kgf' is not allowed (allowed: 1 to 5000 N)"),
        (("--reading", "far = 33 kgf"), "--reading = 'far' is not allowed (allowed: -8 to 8 m)"),
        (("--reading", "2 m = 33 kgf"), "reading 1 = "),
        (("--reading", "-60 cm = 33 kgf", "--scale-error", "0"), "--scale-error = '0' is not allowed"),
    ],
)
def test_readings_that_cannot_be(words: tuple[str, ...], given: str) -> None:
    assert refused("calibrate", "row", *HER, *words).startswith(given)


def test_a_scale_on_a_move_without_straps() -> None:
    line = refused("calibrate", "push-up", *HER, "--reading", "0 = 300 n")
    assert line.startswith("move = 'push-up' is not allowed (allowed: a move on straps)")


@pytest.mark.parametrize("name", ["rwo", "", "../../etc/passwd", "row\x00", "\x1b[31mrow", "r" * 50_000])
def test_moves_that_are_not_in_the_library(name: str) -> None:
    line = refused("load", name, *HER)
    assert line.startswith("move = '")
    assert "a move of the library" in line
    assert len(line) < 600


@pytest.mark.parametrize("hostile", ["\x1b]0;title\x07", "a\nb", "\u202eevil", "%s%s%n", "x" * 100_000])
@pytest.mark.parametrize("option", "--stature --mark --setting --floor --rung --sex --add --push".split())
def test_hostile_text_is_shown_harmless_and_short(option: str, hostile: str) -> None:
    line = refused("load", "row", *HER, option, hostile)
    assert len(line) < 700


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("lead",), "No such command 'lead'"),
        (("load",), "Missing argument"),
        (("mark", "row", *HER), "Missing option '--load'"),
        (("load", "row", "--hight", "2 m"), "No such option"),
        (("load", "row", "--stature"), "requires an argument"),
        (("load", "row", "press", *HER), "unexpected extra argument"),
    ],
)
def test_wrong_usage_is_one_line_too(words: tuple[str, ...], said: str) -> None:
    line = refused(*words)
    assert said in line
    assert " --help'" in line


FILES = [
    (b"", "holds no fields"),
    (b"\xff\xfes\x00q\x00", "UTF-16; save the file as UTF-8"),
    (b'squad = "Br\xfcder"\n', "which is not UTF-8"),
    (b"\x89PNG\r\n\x1a\n\x00\x00", "no text at all"),
    (b"squad = \n", "Boat.toml:1"),
    (b'[[trainee]]\nname = "A"\n' * 2, "Boat.toml"),
]


@pytest.mark.parametrize(("content", "said"), FILES)
@pytest.mark.parametrize("command", [("cards",), ("load", "row", "--squad")])
def test_files_that_are_no_squad_file(
    tmp_path: Path, command: tuple[str, ...], content: bytes, said: str
) -> None:
    path = tmp_path / "Boat.toml"
    path.write_bytes(content)
    answer = ask(*command, path)
    assert answer.code == 2
    assert answer.out == ""
    assert said in answer.err
    assert all(line.isprintable() for line in answer.err.splitlines())
    assert files_in(tmp_path) == ["Boat.toml"]


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("gone.toml", "there is no such file"),
        (".", "this is a folder"),
        ("squad.toml/x", "there is no such file"),
    ],
)
def test_squad_files_that_are_not_there(tmp_path: Path, place: str, said: str) -> None:
    write_squad(tmp_path)
    for command in (("cards",), ("load", "row", "--squad")):
        assert said in refused(*command, tmp_path / place)


def test_a_squad_of_a_hundred_thousand_is_refused_at_once(tmp_path: Path) -> None:
    path = tmp_path / "all.toml"
    row = '[[trainee]]\nname = "T{}"\nstature_m = 1.7\nmass_kg = 70\n'
    path.write_text(
        'squad = "all"\n[rig]\nanchor_height_m = 2.4\n' + "".join(map(row.format, range(100_000)))
    )
    assert "split it into several files" in refused("cards", path, "--out", tmp_path / "out")
    assert files_in(tmp_path) == ["all.toml"]


def test_a_name_that_the_file_lacks_is_answered_with_the_nearest() -> None:
    line = refused("load", "row", "--squad", DEMO, "--trainee", "tuva lindvag")
    assert line.endswith("did you mean 'Tuva Lindvåg'?")


PLACES = [
    (("load", "row", *HER, "--figure", "gone/row.svg"), "--figure = 'gone/row.svg'", "make the folder first"),
    (("load", "row", *HER, "--figure", "."), "--figure = '.'", "add a file's name"),
    (("load", "row", *HER, "--figure", "file/row.svg"), "--figure = 'file/row.svg'", "make the folder first"),
    (("chart", "row", *HER, "--out", "file"), "--out = 'file'", "name another place"),
    (("chart", "row", *HER, "--out", "file/charts"), "--out = 'file/charts'", "name another place"),
    (("cards", "squad.toml", "--out", "file"), "--out = 'file'", "name another place"),
    (("cards", "squad.toml", "--paper", "a3"), "--paper = 'a3'", "choose one of them"),
    (("cards", "squad.toml", "--date", "x" * 41), "--date = 'x", "2026-01-31"),
    (("cards", "squad.toml", "--date", "a\nb"), "--date = 'a\\u000Ab'", "2026-01-31"),
]


@pytest.mark.parametrize(("words", "given", "remedy"), PLACES)
def test_places_and_looks_that_cannot_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], given: str, remedy: str
) -> None:
    monkeypatch.chdir(tmp_path)
    write_squad(tmp_path)
    (tmp_path / "file").write_text("kept")
    line = refused(*words)
    assert line.startswith(given)
    assert remedy in line
    assert files_in(tmp_path) == ["file", "squad.toml"]
    assert (tmp_path / "file").read_text() == "kept"


def test_a_folder_that_may_not_be_written_in_is_refused_before_anything_is_computed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.access", lambda path, mode: not mode & os.W_OK)
    for words in (
        ("load", "row", *HER, "--figure", tmp_path / "row.svg"),
        ("chart", "row", *HER, "--out", tmp_path),
        ("cards", write_squad(tmp_path), "--out", tmp_path / "out"),
    ):
        assert "that you may write in" in refused(*words)
    assert files_in(tmp_path) == ["squad.toml"]
