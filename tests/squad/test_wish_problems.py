"""Every kind of wrong wish and the one line that it gives: single values, clashes, names of the library."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.squad.files import EDDA, TOP, problem_of, problems_of
from tests.squad.test_source import read_or_refuse

from leanmark.squad.check import check_wishes
from leanmark.squad.problems import SquadFileError
from leanmark.squad.read import squad_from_bytes

CYCLE = '[cycle]\nstarts = 2026-11-30\nweeks = 8\ndays = ["mon", "wed", "fri"]\n'
"""Lines 4 to 7 after TOP."""

WRONG_CYCLES = [
    (("= 8", "= 0"), "6: cycle: weeks = 0 is outside 1–16; give whole weeks"),
    (("= 8", "= 17"), "6: cycle: weeks = 17 is outside 1–16; give whole weeks"),
    (("= 8", "= 8.5"), "6: cycle: weeks = 8.5 is not a whole number; give whole weeks"),
    (("= 8", "= 8\nminutes = 0"), "7: cycle: minutes = 0 is not above 0 and up to 180; say how many minutes"),
    (("= 8", "= 8\nminutes = -0.0"), "7: cycle: minutes = -0.0 is not above 0 and up to 180; say how many"),
    (("= 8", "= 8\nminutes = 181"), "7: cycle: minutes = 181 is not above 0 and up to 180; say how many"),
    (("= 8", "= 8\nminutes = nan"), "7: cycle: minutes = nan is not above 0 and up to 180; say how many"),
    (
        ("2026-11-30", '"2026-11-30"'),
        '5: cycle: starts = "2026-11-30" is not a date; give a date without quotes, as in starts =',
    ),
    (
        ("2026-11-30", "2026-11-30T18:00:00"),
        "5: cycle: starts = 2026-11-30T18:00:00 is not a date; give a date without quotes",
    ),
    (("2026-11-30", "2027-02-29"), "5: there is no such date or time; correct it"),
    (
        ("2026-11-30", "30.11.2026"),
        "5: 30.11.2026 is no date or time as TOML writes them; write a date as 2026-11-30 and a time as "
        "18:00:00",
    ),
    (("2026-11-30", "2026-11-31"), "5: there is no such date or time; correct it"),
    (("2026-11-30", "2026-1-5"), "5: 2026-1-5 is no date or time as TOML writes them; write a date as"),
    (
        ("2026-11-30", "9999-12-31"),
        "5: cycle: starts = 9999-12-31 is outside 1970-01-01 to 2199-12-31; correct the year",
    ),
    (
        ("2026-11-30", "0001-01-01"),
        "5: cycle: starts = 0001-01-01 is outside 1970-01-01 to 2199-12-31; correct the year",
    ),
    (("starts = 2026-11-30\n", ""), "4: cycle: starts is missing; give a date without quotes"),
    (("starts", "start"), '5: cycle: "start" is not a field here; write starts'),
    (("= 8", "= 8\ntime = 18:00"), "7: 18:00 is no date or time as TOML writes them; write a date as"),
    (("= 8", "= 8\ntime = 24:00:00"), "7: 24:00:00 is no date or time as TOML writes them; write a date as"),
    (("= 8", "= 8\ntime = 18"), "7: cycle: time = 18 is not a time of day; give hours, minutes and seconds"),
    (('"mon"', '"Monday"'), '7: cycle: days entry 1 = "Monday" is not "mon", "tue", "wed", "thu", '),
    (('"mon"', '"wen"'), '"fri", "sat" or "sun"; write "wed"'),
    (('"mon"', '"fri"'), '7: cycle: days entry 3 = "fri" repeats entry 1; delete one of them'),
    (('["mon", "wed", "fri"]', "[]"), "7: cycle: days is empty; list the days, as in"),
    (('["mon", "wed", "fri"]', '"mon"'), '7: cycle: days is "mon", not a list; write it in square brackets'),
    (
        ("= 8", "= 8\nsessions = 4"),
        "7: cycle: sessions = 4 is more than the 3 days of training; give more days, or fewer sessions",
    ),
    (
        ("= 8", '= 8\nzone = "europe/oslo"'),
        '7: cycle: zone = "europe/oslo" is not a time zone; write "Europe/Oslo"',
    ),
    (
        ("= 8", '= 8\nzone = "Buenos Aires"'),
        '7: cycle: zone = "Buenos Aires" is not a time zone; write "America/',
    ),
    (("= 8", '= 8\nzone = "../../etc/passwd"'), '7: cycle: zone = "../../etc/passwd" is not a time zone;'),
    (("= 8", '= 8\nzone = "\\u0000"'), '7: cycle: zone = "\\u0000" holds the character U+0000'),
    (("= 8", '= 8\ngoal = "strenght"'), '7: cycle: goal = "strenght" is not "general strength", '),
    (
        ("= 8", '= 8\nwave = "undulatin"'),
        '7: cycle: wave = "undulatin" is not "linear", "step with deload" or "undulating"; '
        'write wave = "undulating"',
    ),
    (
        ("= 8", '= 8\ndays_off = [2026-12-24, "25 December"]'),
        '7: cycle: days_off entry 2 = "25 December" is not a date; give a date without quotes, as in',
    ),
    (("= 8", "= 8\ndays_off = [2026-12-24, 2026-12-24]"), "days_off entry 2 = 2026-12-24 repeats entry 1;"),
    (("= 8", "= 8\nseed = -1"), "7: cycle: seed = -1 is outside 0–2147483647; give a whole number"),
    (("[cycle]", "[[cycle]]"), "4: cycle is a list of 1, not a table; write it as [cycle]"),
]


@pytest.mark.parametrize(("change", "line"), WRONG_CYCLES)
def test_wrong_cycle(change: tuple[str, str], line: str) -> None:
    assert change[0] in CYCLE
    assert line in problem_of(TOP + CYCLE.replace(*change) + EDDA)


WRONG_WISHES = [
    ("minutes = 0", "minutes = 0 is not above 0 and up to 180; say how many minutes a session may take"),
    (
        'level = "strongest"',
        'level = "strongest" is not "new", "used to straps", "trained" or "strong"; write',
    ),
    ('levels = { hinge = "weak" }', 'levels.hinge = "weak" is not "new", "used to straps", '),
    ('levels = "strong"', 'levels is "strong", not a table; write it as [trainee.levels]'),
    ("sessions = 4", "sessions = 4 is more than the 3 days of training; give more days, or fewer sessions"),
    ('days = ["mon"]\nsessions = 2', "sessions = 2 is more than the 1 day of training; give more days"),
    (
        'goal = "sport emphasis"',
        'goal = "sport emphasis" says nothing without emphasis; list the families to train more, as emphasis',
    ),
    ('gates = [{ move = "row" }]', "gates entry 1.rung is missing; name a rung of the move"),
    (
        'gates = [{ move = "row", rung = "leaning" }]',
        "gates entry 1 has neither hold_s nor reps; give one of the two",
    ),
    (
        'gates = [{ move = "row", rung = "leaning", reps = 5, hold_s = 9 }]',
        "gates entry 1 has both hold_s and reps; give one of the two",
    ),
    ('gates = [{ move = "row", rung = "leaning", reps = 0 }]', "gates entry 1.reps = 0 is outside 1–100"),
    ('pain = ["knee"]', 'pain entry 1 is "knee", not a table; write it as [[trainee.pain]]'),
    ("pain = { place = 'knee' }", "pain is a table, not a list; write [[trainee.pain]]"),
    ('likes = ["row", "row"]', 'likes entry 2 = "row" repeats entry 1; delete one of them'),
    ('likes = "row"', 'likes is "row", not a list; write it in square brackets'),
    ('injuries = ["knee"]', '"injuries" is not a field here; write pain'),
]


@pytest.mark.parametrize(("own", "says"), WRONG_WISHES)
def test_wrong_wish(own: str, says: str) -> None:
    line = 12 + own.count("\n")
    problem = problem_of(TOP + CYCLE + EDDA + own + "\n")
    assert says in problem
    assert problem.startswith(f'squad.toml:{line}: trainee 1 "Edda": ')


def test_a_name_in_two_lists_that_clash_is_told_with_both_lines() -> None:
    own = """avoid = ["saw", "hinge"]
dislikes = [
  "pike",
  "row",
]
likes = ["Pike"]
must = ["saw",
  "row"]
emphasis = ["hinge"]
"""
    where = 'trainee 1 "Edda": '
    assert problems_of(TOP + EDDA + own) == [
        f'squad.toml:13: {where}likes entry 1 = "Pike" is in dislikes too, on line 10; keep one of them',
        f'squad.toml:14: {where}must entry 1 = "saw" is in avoid too, on line 8; keep one of them',
        f'squad.toml:15: {where}must entry 2 = "row" is in dislikes too, on line 11; keep one of them',
        f'squad.toml:16: {where}emphasis entry 1 = "hinge" is in avoid too, on line 8; keep one of them',
    ]


def test_a_start_in_the_past_is_no_error_of_the_file() -> None:
    squad_from_bytes((TOP + CYCLE.replace("2026-11-30", "1999-02-28") + EDDA).encode())


def test_wrong_kit() -> None:
    assert problem_of(TOP + 'kit = ["handels"]\n' + EDDA) == (
        'squad.toml:4: rig: kit entry 1 = "handels" is not "handles", "cradles", "single handle", '
        '"under the arms", "box" or "partner"; write "handles"'
    )


def test_names_that_the_library_does_not_have() -> None:
    own = """likes = ["rwo"]
dislikes = ["cartwheel"]
must = ["row", "front plan"]
emphasis = ["hinges"]
avoid = ["neeling", "shoulder abduction", "elbow", "hinge", "saw", "juggling"]
levels = { "vertical pul" = "new" }
[[trainee.gates]]
move = "front plank"
rung = "on the flor"
hold_s = 60
[[trainee.gates]]
move = "front blank"
rung = "anything"
reps = 8
[[trainee.pain]]
place = "lower back"
[[trainee.pain]]
place = "left elbow"
"""
    squad = squad_from_bytes((TOP + EDDA + own).encode(), "club.toml")
    with pytest.raises(SquadFileError) as caught:
        check_wishes(squad)
    where = 'trainee 1 "Edda": '
    assert str(caught.value).split("\n") == [
        f'club.toml:8: {where}likes entry 1 = "rwo" is not a move of the library; write "row"',
        f'club.toml:9: {where}dislikes entry 1 = "cartwheel" is not a move of the library; '
        "name a move of the library, or delete it",
        f'club.toml:10: {where}must entry 2 = "front plan" is not a move of the library; write "front plank"',
        f'club.toml:11: {where}emphasis entry 1 = "hinges" is not a family of the library; write "hinge"',
        f'club.toml:12: {where}avoid entry 1 = "neeling" is not a restriction, a joint, a joint action, '
        'a family or a move; write "kneeling"',
        f'club.toml:12: {where}avoid entry 6 = "juggling" is not a restriction, a joint, a joint action, '
        'a family or a move; write "jumping"',
        f'club.toml:13: {where}levels has "vertical pul", which is not a family of the library; '
        'write "vertical pull"',
        f'club.toml:16: {where}gates entry 1.rung = "on the flor" is not a rung of front plank; '
        'write "on the floor"',
        f'club.toml:19: {where}gates entry 2.move = "front blank" is not a move of the library; '
        'write "front plank"',
        f'club.toml:23: {where}pain entry 1.place = "lower back" is not a joint, with or without its side; '
        'write "low back"',
    ]


WORDS = (
    'starts weeks days days_off time zone minutes sessions seed 2026-11-30 2027-02-29 18:00:00 18:00 "mon" '
    'levels gates pain place must avoid likes "row" [ ] { } , = -1 0 9999-12-31 2026-11-30T00:00:00Z nan'
).split()
PIECES = st.sampled_from([*WORDS, " = ", "\n", "[cycle]\n", "[[trainee.gates]]\n", "[[trainee.pain]]\n"])


@given(parts=st.lists(PIECES, max_size=40))
def test_any_text_of_the_words_of_wishes(parts: list[str]) -> None:
    read_or_refuse((TOP + EDDA + "".join(parts)).encode())


FIELDS = "starts weeks days time zone minutes goal wave days_off seed sessions".split()
VALUES = [*WORDS, "[]", "{}", "[[]]", '["mon", 1]', "[2026-11-30, 0]", '""', '"\u202e"', "1e400"]


@given(values=st.dictionaries(st.sampled_from(FIELDS), st.sampled_from(VALUES), max_size=5))
def test_any_value_of_any_field_of_a_cycle_and_of_a_trainee(values: dict[str, str]) -> None:
    fields = "".join(f"{field} = {value}\n" for field, value in values.items())
    read_or_refuse(f"{TOP}[cycle]\n{fields}{EDDA}{fields}".encode())
