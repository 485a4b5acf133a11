"""Load waves: shape, and no week's wanted load above the week before by more than the rule allows."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.goals import GOALS, wanted_share
from leanmark.dose.rules import bounds, value
from leanmark.dose.waves import WAVE_KINDS, WAVE_WORDS, WaveKind, WavePoint, wave
from leanmark.errors import FieldError

KINDS = st.sampled_from(WAVE_KINDS)
WEEKS = st.integers(1, 52)
SESSIONS = st.integers(1, 7)
ROUNDING = 1e-12


@given(kind=KINDS, weeks=WEEKS, sessions=SESSIONS)
def test_every_session_has_a_point_within_the_wave(kind: WaveKind, weeks: int, sessions: int) -> None:
    points = wave(kind, weeks, sessions)
    assert [len(week) for week in points] == [sessions] * weeks
    assert all(0.0 <= point.height <= 1.0 for week in points for point in week)
    assert all((point.sets_factor < 1.0) == point.deload for week in points for point in week)


@given(kind=KINDS, weeks=WEEKS, sessions=SESSIONS, goal=st.sampled_from([*GOALS]))
def test_wanted_load_never_jumps(kind: WaveKind, weeks: int, sessions: int, goal: str) -> None:
    """From a week, a deload or not, to the next that is none: like sessions, and the heaviest of each."""
    most = 1.0 + bounds("load rise")[1]
    for before, after in pairwise(wave(kind, weeks, sessions)):
        if after[0].deload:
            continue
        loads = [[wanted_share(GOALS[goal], point.height) for point in week] for week in (before, after)]
        assert all(new <= most * old for old, new in zip(*loads, strict=True))
        assert max(loads[1]) <= most * max(loads[0])


@given(weeks=WEEKS, goal=st.sampled_from([*GOALS]))
def test_after_a_deload_the_load_does_not_jump_over_the_week_before_it(weeks: int, goal: str) -> None:
    most = 1.0 + bounds("load rise")[1]
    loading = [week[0] for week in wave("step with deload", weeks, 1) if not week[0].deload]
    loads = [wanted_share(GOALS[goal], point.height) for point in loading]
    assert all(new <= most * old for old, new in pairwise(loads))


@given(weeks=st.integers(4, 52))
def test_a_wave_of_four_weeks_and_more_climbs_to_its_top(weeks: int) -> None:
    tops = {kind: max(point.height for week in wave(kind, weeks, 3) for point in week) for kind in WAVE_KINDS}
    assert tops["linear"] == pytest.approx(1.0, abs=ROUNDING)
    assert tops["undulating"] == pytest.approx(1.0, abs=ROUNDING)
    # A step is a third at the most and a block has two, so one block ends at two thirds; the third week of
    # the second block, the seventh of all, is the first that is three steps high.
    assert tops["step with deload"] == pytest.approx(2 / 3 if weeks < 7 else 1.0, abs=ROUNDING)


def test_linear_climbs_by_the_same_step() -> None:
    heights = [week[0].height for week in wave("linear", 9, 2)]
    assert heights == pytest.approx([week / 8 for week in range(9)])
    assert not any(point.deload for week in wave("linear", 9, 2) for point in week)


def test_steps_climb_three_weeks_ease_in_the_fourth_and_start_one_step_higher() -> None:
    points = [week[0] for week in wave("step with deload", 8, 1)]
    third = 1 / 3
    assert [point.height for point in points] == pytest.approx(
        [0, third, 2 * third, 0, third, 2 * third, 1, third]
    )
    assert [point.deload for point in points] == [False, False, False, True] * 2
    assert {point.sets_factor for point in points if point.deload} == {value("deload sets")}


@given(weeks=st.integers(5, 52))
def test_every_block_of_steps_is_higher_than_the_one_before(weeks: int) -> None:
    points = [week[0] for week in wave("step with deload", weeks, 1)]
    assert all(after.height > before.height for before, after in zip(points, points[4:], strict=False))


def test_undulating_is_heavy_light_medium_on_a_slow_climb() -> None:
    weeks = wave("undulating", 6, 3)
    for heavy, light, medium in weeks:
        assert light.height < medium.height < heavy.height
    for before, after in pairwise(weeks):
        assert all(old.height < new.height for old, new in zip(before, after, strict=True))
    assert weeks[-1][0].height == pytest.approx(1.0)


def test_one_week_stands_at_its_foot() -> None:
    assert wave("linear", 1, 1) == ((WavePoint(0.0),),)


@pytest.mark.parametrize(
    ("kind", "weeks", "sessions", "field"),
    [("zigzag", 4, 2, "wave"), ("linear", 0, 2, "weeks"), ("linear", 4, 0, "sessions_a_week")],
)
def test_what_makes_no_wave_is_refused(kind: WaveKind, weeks: int, sessions: int, field: str) -> None:
    with pytest.raises(FieldError, match=f"^{field} = "):
        wave(kind, weeks, sessions)


def test_every_kind_has_words() -> None:
    assert tuple(WAVE_WORDS) == WAVE_KINDS
