"""The overview fits a terminal, whatever the squad and the moves."""

from __future__ import annotations

from math import nan

from leanmark.cli.overview import MOST_ROWS, WIDTH, overview
from leanmark.mechanics.measure import Measure
from leanmark.sheets.answers import CardAnswer


def answer(move: str, mark_m: float | None, reason: str = "", load_of: Measure = "straps") -> CardAnswer:
    return CardAnswer(move, "leaning", load_of, 0.4, mark_m, (-1.0, -0.2), 0.4, 0.35, 0.45, reason)


def test_many_moves_break_into_blocks_of_the_terminals_width() -> None:
    moves = [f"rather long move number {k}" for k in range(20)]
    text = overview(["Asta", "Birk"], [[(answer(move, -0.5),)] * 2 for move in moves], "us")
    lines = text.splitlines()
    assert max(map(len, lines)) <= WIDTH
    assert sum(line.startswith("Asta") for line in lines) > 1
    assert text.count("−1 ft 7.5 in") == 2 * len(moves)


def test_the_middle_wanted_load_is_shown() -> None:
    three = tuple(answer("row", mark_m) for mark_m in (-1.0, -0.7, -0.4))
    text = overview(["Asta"], [[three]], "metric")
    assert "−70 cm" in text
    assert "−40 cm" not in text


def test_loads_of_strength_are_marked() -> None:
    planks = [[(answer("plank", 0.5, load_of="largest share"),)]]
    assert "40 %*" in overview(["Asta"], planks, "metric")
    assert "* of reference strength" in overview(["Asta"], planks, "metric")
    assert "*" not in overview(["Asta"], [[(answer("row", -0.5),)]], "metric")


def test_a_long_squad_is_cut_and_counted() -> None:
    names = [f"T{k}" for k in range(MOST_ROWS + 7)]
    text = overview(names, [[(answer("row", -0.5),)] * len(names)], "metric")
    assert text.count("−50 cm") == MOST_ROWS
    assert "and 7 more trainees; --json lists all" in text


def test_moves_without_a_mark_for_some_are_told_with_an_example() -> None:
    row = [answer("row", 0.1), answer("row", None, "too far"), answer("row", None, "slips")]
    text = overview(["A", "B", "C"], [[(a,) for a in row]], "metric")
    assert text.splitlines()[-1] == "row: no mark for 2 of 3, such as B: too far"


def test_long_and_hostile_names_keep_the_columns() -> None:
    names = ["x" * 80, "a\x1b[31mb"]
    lines = overview(names, [[(answer("row", -0.5),)] * 2], "metric").splitlines()
    assert max(map(len, lines)) <= WIDTH
    assert all(line.isprintable() for line in lines)


def test_what_is_not_known_is_not_printed() -> None:
    missing = CardAnswer("row", "leaning", "straps", 0.4, None, (nan, nan), nan, nan, nan, "slips")
    assert "nan" not in overview(["A"], [[(missing,)]], "metric")
