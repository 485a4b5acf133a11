"""Tapes: as few as may be, each mark within its tolerance; the sheet says where and whose."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.sheets.cycle.demo import CYCLE, some_lines, squad, with_lines
from tests.sheets.cycle.reading import alts, texts

from leanmark.errors import FieldError
from leanmark.sheets.cycle.papers import SHEET_PAPERS, SheetPaper
from leanmark.sheets.cycle.sessions import chosen_sessions
from leanmark.sheets.cycle.tape_sheet import side_words, tape_sheet
from leanmark.sheets.cycle.tapes import MOST_OFF_M, MarkUse, mark_uses, tapes


def use(mark_m: float, tolerance_m: float, across: bool = False) -> MarkUse:
    return MarkUse("Anna", "row", "heels", mark_m, tolerance_m, across, "the anchor", (1,))


uses = st.lists(
    st.builds(use, st.floats(-2.0, 2.0), st.floats(0.0, 0.3) | st.just(float("inf")), st.booleans()),
    max_size=25,
)


def off_m(one: MarkUse) -> float:
    return min(one.tolerance_m, MOST_OFF_M)


@given(uses)
def test_every_mark_has_a_tape_within_its_tolerance(found: list[MarkUse]) -> None:
    made = tapes(found)
    assert sorted(map(repr, found)) == sorted(repr(one) for tape in made for one in tape.uses)
    for tape in made:
        for one in tape.uses:
            assert one.across == tape.across
            assert abs(one.mark_m - tape.place_m) <= off_m(one) + 2e-9  # the merge's own slack


@given(uses)
def test_no_fewer_tapes_would_do(found: list[MarkUse]) -> None:
    """As many tapes as the largest set of marks of which no two can share one: counted here by dynamic
    programming instead of greedily, a bound that no set of tapes can be below."""
    most = 0
    for across in (False, True):
        spans = sorted(
            (one.mark_m + off_m(one), one.mark_m - off_m(one)) for one in found if one.across == across
        )
        best: list[int] = []
        for at, (_, low) in enumerate(spans):
            before = [best[k] for k in range(at) if spans[k][0] < low - 1e-9]
            best.append(1 + max(before, default=0))
        most += max(best, default=0)
    assert len(tapes(found)) == most


def test_close_marks_share_a_tape_and_far_ones_do_not() -> None:
    made = tapes([use(-0.60, 0.03), use(-0.62, 0.03), use(-0.70, 0.03)])
    assert [len(tape.uses) for tape in made] == [1, 2]
    assert [tape.place_m for tape in made] == pytest.approx([-0.70, -0.62])


def test_marks_read_alike_are_one_use_with_its_sessions() -> None:
    found = mark_uses(chosen_sessions(CYCLE, ["Tuva Lindvåg"], [], []), "metric")
    (plank,) = [one for one in found if one.move == "front plank"]
    assert plank.sessions == (1, 3)
    assert plank.mark_m == 1.35
    assert not any(one.move == "push-up" for one in found)  # no straps, no tape


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_the_sheet_says_where_whose_and_which_side(paper: SheetPaper) -> None:
    shown = " ".join(texts(tape_sheet(CYCLE, squad(), paper, days=[dt.date(2027, 1, 11)])))
    for words in ("135 cm ahead", "150 cm behind", "62 cm behind", "Monday 2027-01-11", "4 anchors"):
        assert words in shown
    assert "Down, head away from the anchor: front plank. The anchor: row, single-arm row." in shown
    assert "Tuva Lindvåg, row, heels −62 cm (session 1)" in shown
    assert "Jonas Holmvik, front plank, elbows 135 cm (session 1)" in shown


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_one_day_takes_one_page(paper: SheetPaper) -> None:
    assert len(texts(tape_sheet(CYCLE, squad(), paper, days=[dt.date(2027, 1, 11)]))) == 1


def test_the_strip_can_be_heard() -> None:
    (heard,) = alts(tape_sheet(CYCLE, squad(), days=[dt.date(2027, 1, 11)]))
    assert heard.startswith("Ruled strip with 3 tapes")


def test_sides_in_words() -> None:
    assert side_words(-0.62, False, "metric") == "62 cm behind"
    assert side_words(0.62, False, "metric") == "62 cm ahead"
    assert side_words(0.5, True, "metric") == "50 cm to the left"
    assert side_words(-0.5, True, "us") == "1 ft 7.5 in to the right"
    assert side_words(0.001, False, "metric") == "on the plumb point"


def test_sessions_without_marks_are_refused() -> None:
    floor = tuple(line for line in some_lines(7) if not line.strap)
    with pytest.raises(FieldError, match="sessions with moves on straps"):
        tape_sheet(with_lines(floor), squad())
