"""Move cards: two pages a move, the trainee's and the coach's, with everything that each needs."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader
from tests.sheets.test_cards import media_boxes, pages

from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.library import load_move, move_names
from leanmark.moves.schema import Move
from leanmark.rig.rig import standard_rig
from leanmark.sheets.move_card import MoveCard
from leanmark.sheets.move_cards import CardJob, render_move_cards, solved_card

ABOUT = "Numbers are for the reference woman / man."


def wordiest(count: int) -> list[str]:
    """The moves that say most, and those of most rungs: the ones that might not fit."""

    def said(move: Move) -> int:
        return len(repr(move))

    moves = [load_move(name) for name in move_names()]
    by_words = sorted(moves, key=said, reverse=True)[:count]
    by_rungs = sorted(moves, key=lambda move: len(move.rungs), reverse=True)[:count]
    return sorted({move.move for move in (*by_words, *by_rungs)})


@cache
def made(move: str) -> MoveCard:
    return solved_card(CardJob(move, None, standard_rig(2.4), typical_people(), ABOUT, "metric"))


def texts(card: MoveCard) -> list[str]:
    """Each page's words, with single spaces."""
    reader = PdfReader(BytesIO(render_move_cards([card], "a4", "2030-01-02")))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_even_the_wordiest_moves_take_two_pages(paper: str) -> None:
    cards = [made(name) for name in wordiest(4)]
    for card in cards:
        assert pages(render_move_cards([card], paper, "2030-01-02")) == 2, card.title  # type: ignore[arg-type]


def test_the_front_tells_the_trainee_what_to_do_and_when_to_stop() -> None:
    move = load_move("row")
    front = texts(made("row"))[0]
    middle = move.rungs[(len(move.rungs) - 1) // 2]
    for words in (move.setup, *move.stop, *(middle.cues or move.cues), move.caution, move.breathing):
        assert " ".join(words.split()) in front
    for rung in move.rungs:
        assert rung.rung in front
    assert "Anchor:" in front
    assert "diagnoses nothing" in front


def test_the_back_tells_the_coach_of_loads_muscles_and_faults() -> None:
    move = load_move("row")
    back = texts(made("row"))[1]
    for muscles in move.works.values():
        assert ", ".join(muscles) in back
    for fault in move.faults:
        assert fault.fault in back
        assert fault.remedy in back
    for words in (*move.not_for, ABOUT):
        assert words in back
    for line in made("row").rungs:
        assert line.demand in back


def test_start_middle_and_end_are_drawn_at_one_scale() -> None:
    figures = made("row").figures
    assert [figure.caption for figure in figures] == ["start", "middle", "end"]
    floors = {line.split("y1=", 1)[1].split(" ", 1)[0] for line in (figure.svg for figure in figures)}
    assert len({figure.svg for figure in figures}) == 3
    assert len(floors) == 1


def test_a_hold_is_seen_from_two_sides() -> None:
    assert [figure.caption for figure in made("front plank").figures] == ["hold, side", "hold, front"]


def test_cautions_follow_kit_and_speed() -> None:
    heads = {name: {head for head, _ in made(name).safety} for name in ("row", "side plank", "sprint start")}
    assert "Feet in cradles:" in heads["side plank"]
    assert "Feet in cradles:" not in heads["row"]
    assert "Ballistic reps" in heads["sprint start"]
    assert "Ballistic reps" not in heads["side plank"]


def test_gates_stand_with_the_rungs_that_they_open() -> None:
    card = made("side plank")
    assert any("30 s of side plank" in words for rung in card.rungs for words in rung.opens)
    assert "opens after 30 s of side plank" in texts(card)[1]


def test_words_are_shown_as_they_are() -> None:
    hostile = "#panic() *bold* $x$ @ref <label> `raw` // /* ="
    front = texts(replace(made("row"), setup=hostile))[0]
    assert "#panic() *bold* $x$ @ref <label>" in front


def test_letter_paper_is_letter() -> None:
    ((width, height),) = media_boxes(render_move_cards([made("row")], "letter", ""))
    assert (width, height) == pytest.approx((612.0, 792.0), abs=0.5)  # 8.5 by 11 in, ANSI/ASME Y14.1


def test_no_card_is_refused() -> None:
    with pytest.raises(ValueError, match="give at least one move"):
        render_move_cards([], "a4", "")
