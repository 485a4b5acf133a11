"""The floor sheet: who is where when, as charts and round by round, with marks and spotters."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.sheets.cycle.demo import CYCLE, squad
from tests.sheets.cycle.reading import alts, texts

from leanmark.cycle.floor.form import AnchorUse, FloorAsk, FloorPlan, Pair, Solved, Spell, Stint, Turn, Wait
from leanmark.sheets.cycle.floor_sheet import floor_sheet, spells_of
from leanmark.sheets.cycle.papers import SHEET_PAPERS, SheetPaper

TUVA, JONAS = (plan.trainee for plan in CYCLE.plans)


def turn(trainee: str, key: str, move: str, number: int, anchor: str, strap: str, start_s: float) -> Turn:
    return Turn(trainee, f"{key}-session-1-{number}", move, 1, anchor, strap, start_s, start_s + 60.0)


def plan() -> FloorPlan:
    """Two trainees share an anchor, whose strap is set anew once; one does a floor move meanwhile."""
    turns = (
        turn(TUVA, "tuva", "row", 1, "left", "short", 0.0),
        turn(JONAS, "jonas", "row", 1, "left", "short", 90.0),
        turn(TUVA, "tuva", "push-up", 2, "", "", 100.0),
        turn(TUVA, "tuva", "front plank", 4, "left", "mid-shin", 245.0),
        turn(JONAS, "jonas", "front plank", 4, "left", "mid-shin", 335.0),
    )
    spells = tuple(Spell(t.trainee, t.line, t.move, "", t.strap, 1, 60.0, 90.0) for t in turns)
    return FloorPlan(
        ask=FloorAsk((TUVA, JONAS), spells, ("left",), 2, 60.0, 15.0, 10.0, 20.0),
        turns=turns,
        stints=(
            Stint("left", "short", 0.0, 0.0, 150.0),
            Stint("left", "mid-shin", 185.0, 245.0, 395.0),
        ),
        waits=(Wait(TUVA, 0.0, 305.0, 30.0, 2), Wait(JONAS, 90.0, 395.0, 95.0, 0)),
        anchors=(AnchorUse("left", 1, 240.0, 2, 2),),
        pairs=(Pair(JONAS, "jonas-session-1-4", TUVA, "same anchor"),),
        length_s=395.0,
        bound_s=395.0,
        list_length_s=395.0,
        goals=(),
        solved=Solved("best possible", 395.0, 395.0, 0.0, 0.0, True),
        fits=True,
        notes=("the coach watches the anchor for the first set",),
    )


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_the_sheet_tells_times_straps_marks_and_spotters(paper: SheetPaper) -> None:
    shown = " ".join(texts(floor_sheet(plan(), CYCLE, squad(), paper)))
    for words in (
        "Floor sheet, Monday 2027-01-11, 18:00",
        "6:35 min from the first set to the end of the last; fits into 20 min",
        "Strap changes: 1",
        "short (123 cm), set before the session",
        "mid-shin (203 cm), set at 3:05",
        "heels at −62 cm ± 3 cm",
        "elbows at 135 cm ± 3 cm",
        "4:05",
        "Who spots whom",
        "same anchor",
        "1.6 min",
        "the coach watches the anchor for the first set",
    ):
        assert words in shown, words


def test_both_charts_can_be_heard() -> None:
    heard = alts(floor_sheet(plan(), CYCLE, squad()))
    assert heard == ["Floor chart by anchor: 2 trainees, 1 anchor", "Floor chart by trainee: 2 trainees"]


def test_sets_of_one_line_at_one_place_are_one_spell() -> None:
    again = replace(plan().turns[0], number=2, start_s=200.0, end_s=260.0)
    found = spells_of((*plan().turns, again))
    assert len(found) == 5
    assert [one.start_s for one in found[0]] == [0.0, 200.0]


def test_a_plan_without_sets_still_says_how_it_stands() -> None:
    empty = replace(plan(), turns=(), stints=(), pairs=(), length_s=0.0, notes=("nobody came",))
    (page,) = texts(floor_sheet(empty, CYCLE, squad()))
    assert "nobody came" in page


def test_what_does_not_fit_says_so() -> None:
    assert "does not fit into 20 min" in texts(floor_sheet(replace(plan(), fits=False), CYCLE, squad()))[0]
