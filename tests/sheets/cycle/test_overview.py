"""The overview: three charts, every session, goals against the baseline, notes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from msgspec.structs import replace
from tests.cycle.sample_cycle import cycles
from tests.sheets.cycle.demo import CYCLE
from tests.sheets.cycle.reading import alts, texts

from leanmark.cycle.form import Cycle
from leanmark.errors import FieldError
from leanmark.sheets.cycle.overview import overview
from leanmark.sheets.cycle.papers import SHEET_PAPERS, SheetPaper
from leanmark.sheets.cycle.tallies import deload_weeks, places_weeks, tally, waves

PLAN = CYCLE.plans[0]


@pytest.mark.parametrize("paper", SHEET_PAPERS)
def test_a_trainee_takes_few_pages_with_charts_that_can_be_heard(paper: SheetPaper) -> None:
    pdf = overview(CYCLE, paper)
    assert len(texts(pdf)) <= 2 * len(CYCLE.plans)
    heard = alts(pdf)
    for start in ("Load wave of Tuva Lindvåg", "Reps a week by speed stage", "Sets a week by move family"):
        assert any(words.startswith(start) for words in heard)
    assert len(heard) == 3 * len(CYCLE.plans)


def test_every_session_goal_and_note_is_there() -> None:
    shown = " ".join(texts(overview(CYCLE, trainees=["Tuva Lindvåg"])))
    for session in PLAN.sessions:
        assert f"{session.starts:%Y-%m-%d, %H:%M}" in shown
    assert "row 3 × 14; push-up 3 × 18; single-arm row 2 × 8 each side; front plank 3 × 40 s" in shown
    for words in ("balance of patterns 1.5 40 60 140 57 % less", "strap changes 9.0 5 45 60 25 % less"):
        assert words in shown
    assert "All goals cost 105; no plan costs less than 98: a gap of 7 %" in shown
    assert PLAN.notes[0] in shown
    assert "Jonas" not in shown


def test_the_weekly_sums_are_the_sets_and_reps_of_the_lines() -> None:
    found = tally(PLAN, CYCLE.weeks)
    sets = dict(zip(found.families, found.sets.tolist(), strict=True))
    # each week one pull day (row 3 sets, single-arm row 2) and one jump day
    assert sets["horizontal pull"] == [5, 5]
    assert sets["side of trunk"] == [2, 2]
    assert dict(zip(found.stages, found.reps.tolist(), strict=True)) == {
        # row 3 × 8, push-up 3 × 8, single-arm row 2 × 8; squat jump 3 × 4, split squat 2 × 8
        "controlled": [92, 92],
        "fast": [3 * 6 + 3 * 6 + 3 * 3 + 2 * 4] * 2,
        "ballistic": [3 * 4 + 3 * 3] * 2,
    }


def test_a_week_is_a_deload_only_if_all_of_it_is() -> None:
    assert deload_weeks(PLAN) == ()
    easy = replace(PLAN, sessions=tuple(replace(one, deload=one.week == 2) for one in PLAN.sessions))
    assert deload_weeks(easy) == (2,)


def test_sessions_are_spread_over_their_week() -> None:
    assert places_weeks(PLAN) == pytest.approx([1.25, 1.75, 2.25, 2.75])


def test_the_curves_are_the_wanted_load_and_the_mean_share_of_the_moves_that_are_set_to_it() -> None:
    wanted, demand = waves(PLAN).values()
    assert wanted == pytest.approx([session.wanted for session in PLAN.sessions])
    assert demand == pytest.approx(np.full(4, 0.42 / 0.6))


def test_a_plan_without_sessions_says_so() -> None:
    empty = replace(CYCLE, plans=(replace(PLAN, sessions=()),))
    assert "No session is planned" in texts(overview(empty))[0]


@settings(max_examples=15, deadline=None)
@given(cycles().filter(lambda cycle: bool(cycle.plans)))
def test_any_cycle_can_be_shown(cycle: Cycle) -> None:
    assert len(texts(overview(cycle))) >= len(cycle.plans)


def test_nobody_of_that_name_is_refused() -> None:
    with pytest.raises(FieldError, match="Tuva Lindvåg, Jonas Holmvik"):
        overview(CYCLE, trainees=["Nobody"])
