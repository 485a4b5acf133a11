"""Every kind of wrong squad file and the one line that it gives."""

from __future__ import annotations

import pytest
from tests.squad.files import EDDA, TOP, problem_of, problems_of

# The line that a change of one value gives; TOP has lines 1 to 3 and EDDA lines 4 to 7.
WRONG_TRAINEES = [
    (
        ("stature_m = 1.7", "stature_m = 178"),
        '6: trainee 1 "Edda": stature_m = 178 is outside 1.0–2.5; '
        "it looks like centimetres: write stature_cm = 178",
    ),
    (
        ("stature_m = 1.7", "stature_m = 70"),
        '6: trainee 1 "Edda": stature_m = 70 is outside 1.0–2.5; it looks like inches: write stature_in = 70',
    ),
    (
        ("stature_m = 1.7", "stature_cm = 1.7"),
        '6: trainee 1 "Edda": stature_cm = 1.7 is outside 100–250; '
        "it looks like metres: write stature_m = 1.7",
    ),
    (
        ("stature_m = 1.7", "stature_m = 1.7\nstature_cm = 170"),
        '7: trainee 1 "Edda": stature_m and stature_cm are both given; keep one of them',
    ),
    (
        ("stature_m = 1.7\n", ""),
        '4: trainee 1 "Edda": stature_m is missing; '
        "give the standing height, as stature_m, stature_cm or stature_in",
    ),
    (
        ("stature_m", "stature"),
        '6: trainee 1 "Edda": "stature" is not a field here; write stature_m, stature_cm or stature_in',
    ),
    (("stature_m", "height_cm"), '6: trainee 1 "Edda": "height_cm" is not a field here; write stature_cm'),
    (("mass_kg", "Weight_lb"), '7: trainee 1 "Edda": "Weight_lb" is not a field here; write mass_lb'),
    (("mass_kg", "masss_kg"), '7: trainee 1 "Edda": "masss_kg" is not a field here; write mass_kg'),
    (
        ("= 60", "= 60\nzeal = 1"),
        '8: trainee 1 "Edda": "zeal" is not a field here; delete it, or use one of ',
    ),
    (("= 60", "= 0"), '7: trainee 1 "Edda": mass_kg = 0 is outside 20–300; give the body mass'),
    (("= 60", "= -60"), '7: trainee 1 "Edda": mass_kg = -60 is outside 20–300; give the body mass'),
    (("= 60", "= nan"), '7: trainee 1 "Edda": mass_kg = nan is outside 20–300; give the body mass'),
    (("= 60", "= inf"), '7: trainee 1 "Edda": mass_kg = inf is outside 20–300; give the body mass'),
    (
        ("= 60", f"= 0x{'F' * 6000}"),
        '7: trainee 1 "Edda": mass_kg = a number too long to show is outside 20–300',
    ),
    (("= 60", '= "60 kg"'), '7: trainee 1 "Edda": mass_kg = "60 kg" is not a number; write a plain number'),
    (("= 60", "= true"), '7: trainee 1 "Edda": mass_kg = true is not a number; write a plain number'),
    (
        ("= 60", '= 60\nsex = "F"'),
        '8: trainee 1 "Edda": sex = "F" is not "female" or "male"; write sex = "female"',
    ),
    (
        ("= 60", '= 60\nsex = "?"'),
        '8: trainee 1 "Edda": sex = "?" is not "female" or "male"; choose one, or leave',
    ),
    (
        ("= 60", "= 60\n[trainee.lengths_m]\nthigh = 43"),
        '9: trainee 1 "Edda": lengths_m.thigh = 43 is outside 0.16–0.80; '
        "it looks like centimetres: write it under lengths_cm",
    ),
    (
        ("= 60", "= 60\nlengths_cm = { thigh = 70 }"),
        '8: trainee 1 "Edda": lengths_cm.thigh = 70 (0.7 m) is not allowed '
        "(allowed: 0.272–0.544 for a stature of 1.7 m); ",
    ),
    (('"Edda"', '"  "'), '5: trainee 1 "  ": name is empty; give a name'),
    (('"Edda"', "7"), "5: trainee 1: name = 7 is not text; put it in double quotes"),
    (
        ('"Edda"', f'"{"x" * 5000}"'),
        '5: trainee 1 "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…": name has 5000 characters',
    ),
    (
        ('"Edda"', '"Ed\\u0007da"'),
        '5: trainee 1 "Ed\\u0007da": name = "Ed\\u0007da" holds the character U+0007; delete that character',
    ),
    (
        ('"Edda"', '"Ed\\u202eda"'),
        '5: trainee 1 "Ed\\u202Eda": name = "Ed\\u202Eda" holds the character U+202E',
    ),
]


@pytest.mark.parametrize(("change", "line"), WRONG_TRAINEES)
def test_wrong_trainee(change: tuple[str, str], line: str) -> None:
    assert change[0] in EDDA
    assert problem_of(TOP + EDDA.replace(*change)).startswith(f"squad.toml:{line}")


WRONG_RIGS = [
    (
        "anchor_height_m = 96",
        "rig: anchor_height_m = 96 is outside 1.5–6.0; it looks like inches: write anchor_height_in = 96",
    ),
    ("anchor_height_m = 2.45\nrated_load_n = 12", "it looks like kilonewtons: write rated_load_kn = 12"),
    ("anchor_height_m = 2.45\nanchors = 4.0", "rig: anchors = 4.0 is not a whole number; count them"),
    (
        'anchor_height_m = 2.45\nstraps = "slip"',
        'is not "independent" or "slipping loop"; write straps = "slipping',
    ),
    (
        "anchor_height_m = 2.45\nsettings_m = { long = 2.6 }",
        "rig: settings_m.long = 2.6 is not allowed (allowed: at most 2.3 under an anchor at 2.45 m); "
        "a longer strap lays the handle on the floor: shorten it, or raise the anchor",
    ),
    (
        "anchor_height_m = 2.45\nsettings_in = { long = 100 }",
        "settings_in.long = 100 (2.54 m) is not allowed",
    ),
    (
        "anchor_height_m = 2.45\nsettings_m = 2",
        "rig: settings_m is 2, not a table; write it as [rig.settings_m]",
    ),
    (
        "anchor_height_m = 2.45\nstrap_longest_m = 0.5",
        "rig: strap_shortest_m = 0.8 (the default) is not allowed",
    ),
    (
        'anchor_height_m = 2.45\nfloor = "ice"',
        'rig: floor = "ice" is not allowed (allowed: "dry gym floor", ',
    ),
    ("anchor_height_m = 2.45\nfloor_friction = 0", "floor_friction = 0 is outside 0.05–1.20; leave it out"),
]


@pytest.mark.parametrize(("rig", "says"), WRONG_RIGS)
def test_wrong_rig(rig: str, says: str) -> None:
    line = 3 + rig.count("\n")
    problem = problem_of(TOP.replace("anchor_height_m = 2.45", rig) + EDDA)
    assert says in problem
    # the default strap range has no line of its own, so its table's line is named
    assert problem.startswith("squad.toml:2:" if "the default" in says else f"squad.toml:{line}:")


WRONG_SHAPES = [
    (TOP, "squad.toml: trainee is missing; add a [[trainee]] table with name, stature_m and mass_kg"),
    (
        TOP + EDDA.replace("[[trainee]]", "[trainee]"),
        "squad.toml:4: trainee is a table, not a list; write [[trainee]]",
    ),
    (
        TOP.replace("[rig]", "[[rig]]") + EDDA,
        "squad.toml:2: rig is a list of 1, not a table; write it as [rig]",
    ),
    ("schema = 2\n" + TOP + EDDA, "squad.toml:1: schema = 2 is not 1; write schema = 1, the only one so far"),
    (
        "trainee = [7]\n" + TOP,
        "squad.toml:1: trainee 1: trainee entry 1 is 7, not a table; write it as [[trainee]]",
    ),
    ("trainee = []\n" + TOP, "squad.toml:1: trainee is empty; add a [[trainee]] table"),
    ('unit = "us"\n' + TOP + EDDA, 'squad.toml:1: "unit" is not a field here; write units'),
    ('units = "US"\n' + TOP + EDDA, 'squad.toml:1: units = "US" is not "metric" or "us"; write units = "us"'),
]


@pytest.mark.parametrize(("text", "line"), WRONG_SHAPES)
def test_wrong_shape(text: str, line: str) -> None:
    assert problem_of(text).startswith(line)


def test_wrong_loads_and_moves_are_each_named_by_their_place() -> None:
    cards = '[cards]\nloads_percent = [0, 101,\n25, 25, "a"]\nmoves = ["row", "row", 5]\n'
    assert problems_of(TOP + cards + EDDA) == [
        "squad.toml:5: cards: loads_percent entry 1 = 0 is outside 1–100; "
        "give a share of body weight in per cent",
        "squad.toml:5: cards: loads_percent entry 2 = 101 is outside 1–100; "
        "give a share of body weight in per cent",
        'squad.toml:6: cards: loads_percent entry 5 = "a" is not a number; '
        "write a plain number, without quotes or unit",
        "squad.toml:6: cards: loads_percent entry 4 = 25 repeats entry 3; delete one of them",
        "squad.toml:7: cards: moves entry 3 = 5 is not text; put it in double quotes",
        'squad.toml:7: cards: moves entry 2 = "row" repeats entry 1; delete one of them',
    ]


def test_two_trainees_of_one_name() -> None:
    assert problem_of(TOP + EDDA + EDDA.replace("Edda", " EDDA ")) == (
        'squad.toml:9: trainee 2 " EDDA ": name = " EDDA " is also the name of trainee 1; '
        "add an initial, so that their cards can be told apart"
    )


def test_all_problems_are_found_at_once_in_the_order_of_the_lines() -> None:
    text = (
        TOP.replace("2.45", "245")
        + EDDA.replace("60", "0")
        + EDDA.replace("Edda", "Birk").replace("1.7", "17")
    )
    assert [line.split(":")[1] for line in problems_of(text)] == ["3", "7", "10"]


def test_a_file_full_of_problems_shows_twenty_and_counts_the_rest() -> None:
    people = "".join(EDDA.replace("Edda", f"Person {n}").replace("= 60", "= 0") for n in range(30))
    lines = problems_of(TOP + people)
    assert len(lines) == 21
    assert lines[-1] == "squad.toml: and 10 more like these; mend the ones above first"
