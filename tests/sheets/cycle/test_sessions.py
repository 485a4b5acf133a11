"""Session sheets: one page a session, every number the cycle's, figures that can be heard, room to write."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace as with_changes
from functools import cache

import pytest
from msgspec.structs import replace
from tests.sheets.cycle.demo import CYCLE, some_lines, squad, with_lines
from tests.sheets.cycle.reading import alts, sizes_pt, texts

from leanmark.cycle.form import Line, Session
from leanmark.errors import FieldError
from leanmark.moves.library import load_move
from leanmark.sheets.cycle.papers import PHONE_PT, SHEET_PAPERS, SheetPaper
from leanmark.sheets.cycle.sessions import session_sheets
from leanmark.units import from_si

DAY = dt.date(2027, 1, 14)


@cache
def made(paper: SheetPaper) -> bytes:
    return session_sheets(CYCLE, squad(), paper)


def cm(length_m: float) -> str:
    return f"{100 * length_m:.0f} cm".replace("-", "−")


def numbers_of(line: Line) -> list[str]:
    """What must stand on the sheet of a line, written here once more."""
    kgf = [from_si(force, "kgf") for force in (line.strap_n.value, line.strap_n.low, line.strap_n.high)]
    said = [
        f"{line.sets} sets",
        f"{100 * line.load.value:.0f} % ({100 * line.load.low:.0f} to {100 * line.load.high:.0f})",
        f"{line.reps_in_reserve:g} reps in reserve (RPE {10 - line.reps_in_reserve:g})",
        f"{line.rest_s:.0f} s",
        f"demand {100 * line.demand:.0f} %",
        f"{100 * line.capacity:.0f} % once",
    ]
    if line.strap:
        said += [
            f"{line.strap} ({cm(line.strap_m)})",
            f"{line.mark_of} at {cm(line.mark_m)} ± {cm(line.tolerance_m)}",
        ]
        said += [f"{kgf[0]:.0f} kg-force ({kgf[1]:.0f} to {kgf[2]:.0f} kg-force)"]
    for part in line.parts:
        said.append(f"hold {part.hold_s:g} s" if part.hold_s else f"{part.reps} {part.stage}")
        if not part.hold_s:
            said.append("-".join(f"{second:g}" for second in part.tempo_s) + " s")
    for step in (line.easier, line.harder):
        if step:
            said += [f"{cm(step.mark_m)} (demand {100 * step.demand:.0f} %)"]
    return said


def sessions() -> list[tuple[str, Session]]:
    return [(plan.trainee, session) for plan in CYCLE.plans for session in plan.sessions]


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_each_session_is_a_page_with_every_number_of_the_cycle(paper: SheetPaper) -> None:
    shown = texts(made(paper))
    assert len(shown) == len(sessions())
    for page, (trainee, session) in zip(shown, sessions(), strict=True):
        assert trainee in page
        assert f"{session.starts:%Y-%m-%d, %H:%M}" in page
        assert f"week {session.week} of 2, session {session.number} of 4" in page
        assert "46 min (41 to 54)" in page
        assert ("deload" in page) == session.deload
        for line in session.lines:
            for words in (line.move, line.rung, *numbers_of(line)):
                assert words in page, (paper, line.uid, words)


def test_a_set_of_three_speeds_is_written_out() -> None:
    assert "3 sets: 8 controlled, 6 fast, 4 ballistic" in texts(made("a4"))[0]
    assert "2 sets, each side: 8 controlled, 4 fast as “full depth, faster”" in texts(made("a4"))[1]


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_there_is_room_to_write(paper: SheetPaper) -> None:
    page = texts(made(paper))[0]
    lines = len(sessions()[0][1].lines)
    for blank in ("set 1", "effort", "pain 0–10", "note"):
        assert page.count(blank) >= lines


def test_papers_have_their_sizes() -> None:
    # ISO 216: 210 by 297 mm; ANSI/ASME Y14.1: 8.5 by 11 in; half a point for rounding
    assert sizes_pt(made("a4"))[0] == pytest.approx((595.3, 841.9), abs=0.5)
    assert sizes_pt(made("letter"))[0] == pytest.approx((612.0, 792.0), abs=0.5)
    assert {round(width) for width, _ in sizes_pt(made("phone"))} == {PHONE_PT}


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_figures_can_be_heard(paper: SheetPaper) -> None:
    heard = alts(made(paper))
    assert len(heard) == sum(len(session.lines) for _, session in sessions())
    assert "row, leaning, heels at −62 cm ± 3 cm" in heard


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_nine_lines_stand_on_one_page(paper: SheetPaper) -> None:
    shown = texts(session_sheets(with_lines(some_lines(9)), squad(), paper))
    assert len(shown) == 1
    assert shown[0].count("set 1") == 9


def test_more_than_a_page_goes_on_with_the_name_and_no_line_is_lost() -> None:
    shown = texts(session_sheets(with_lines(some_lines(16)), squad(), "a4"))
    assert len(shown) == 2
    assert "Tuva Lindvåg, Monday 2027-01-11, 18:00, continued" in shown[1]
    assert sum(page.count("set 1") for page in shown) == 16
    assert shown[1].count("set 1") >= 3  # no orphan page with a line or two


def test_a_session_without_lines_says_so() -> None:
    assert "Nothing is planned" in texts(session_sheets(with_lines(()), squad(), "a4"))[0]


def test_cautions_follow_what_is_done() -> None:
    pull, jump = texts(made("a4"))[:2]
    for move in ("row", "push-up", "front plank"):
        assert " ".join(load_move(move).caution.split()) in pull
    assert "Feet in cradles:" in pull
    assert "Feet in cradles:" not in jump
    assert "Ballistic: land softly" in jump
    assert "somebody stands by" in jump
    assert "stop and tell the coach" in pull


def test_us_units_are_feet_and_pounds() -> None:
    page = texts(session_sheets(CYCLE, with_changes(squad(), units="us"), "a4", numbers=[1]))[0]
    assert "short (4 ft 0.5 in)" in page  # 1.23 m
    assert "heels at −2 ft 0.5 in ± 1 in" in page  # 0.62 m, 0.03 m
    assert "lbf" in page
    assert "kg-force" not in page


def test_some_days_trainees_and_numbers() -> None:
    shown = texts(session_sheets(CYCLE, squad(), "a4", days=[DAY], trainees=["Jonas Holmvik"]))
    assert len(shown) == 1
    assert "Thursday 2027-01-14" in shown[0]
    assert len(texts(session_sheets(CYCLE, squad(), "a4", numbers=[1, 3]))) == 4


def test_lines_that_look_alike_share_one_figure() -> None:
    alike = session_sheets(with_lines(some_lines(1) * 6), squad(), "a4")
    one = session_sheets(with_lines(some_lines(1)), squad(), "a4")
    assert alike.count(b"/Subtype /Form") <= one.count(b"/Subtype /Form") + 1


def test_words_are_shown_as_they_are() -> None:
    name = "#panic() *bold* $x$ @ref <label>"
    assert name in texts(session_sheets(replace(CYCLE, name=name), squad(), "a4", numbers=[1]))[0]


def test_wrong_asks_are_refused() -> None:
    with pytest.raises(FieldError, match="Tuva"):
        session_sheets(CYCLE, squad(), "a4", numbers=[99])
    with pytest.raises(FieldError, match="a4, letter, phone"):
        session_sheets(CYCLE, squad(), "a5")  # type: ignore[arg-type]
    with pytest.raises(FieldError, match="give the squad"):
        session_sheets(CYCLE, with_changes(squad(), trainees=squad().trainees[:1]), "a4")
