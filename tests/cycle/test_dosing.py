"""Doses: harder rungs get fewer reps and shorter holds, limits are kept, stages open by the table."""

from __future__ import annotations

from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.cycle.dosing import Ask, Dosed, Rungs, dosed, most_ballistic_reps, rest_s, sets_range
from leanmark.dose.goals import GOALS, PATTERNS, goal
from leanmark.dose.levels import LEVELS, level
from leanmark.dose.waves import WavePoint
from leanmark.moves.schema import Stage

TEMPO = (2.0, 1.0, 1.0, 0.0)
SPEEDS: tuple[Stage, ...] = ("controlled", "fast", "ballistic")
_demands = st.floats(0.01, 2.0)
_heights = st.floats(0.0, 1.0)
_goals = st.sampled_from(sorted(GOALS)).map(goal)
_levels = st.sampled_from(sorted(LEVELS)).map(level)
_families = st.sampled_from(sorted(PATTERNS))
Kind = Literal["reps", "hold"]


@st.composite
def asks(draw: st.DrawFn) -> Ask:
    point = WavePoint(draw(_heights), draw(st.booleans()))
    return Ask(draw(st.integers(1, 48)), draw(_goals), draw(_levels), point, draw(st.booleans()))


def of(family: str, demand: float, ask: Ask, *, hold: bool = False) -> Dosed | None:
    rungs = Rungs(family, "own", TEMPO, hold, dict.fromkeys(SPEEDS, ("own", TEMPO)))
    return dosed(rungs, demand, "shoulder extension", ask)


def amount(dose: Dosed) -> float:
    return sum(part.reps + part.hold_s for part in dose.parts)


@given(_families, _demands, _demands, asks(), st.booleans())
def test_what_asks_more_gets_no_more_reps_and_no_longer_hold(
    family: str, one: float, other: float, ask: Ask, hold: bool
) -> None:
    easy, hard = (of(family, demand, ask, hold=hold) for demand in sorted((one, other)))
    if easy and hard:
        assert amount(hard) <= amount(easy)
        assert hard.reserve <= 6.0


@given(_families, _demands, asks(), st.booleans())
def test_limits_are_kept(family: str, demand: float, ask: Ask, hold: bool) -> None:
    dose = of(family, demand, ask, hold=hold)
    if dose is None:
        return
    assert dose.parts
    assert dose.misfit >= 0.0
    assert dose.reserve >= 0.0
    assert demand <= ask.level.capacity + 1e-9
    assert all((part.reps > 0) != (part.hold_s > 0.0) for part in dose.parts)
    if PATTERNS[family] == "mobility":
        return
    if hold:
        least, most = ask.goal.hold_s
        assert all(least - 2.5 <= part.hold_s <= most + 2.5 for part in dose.parts), "rounded to five seconds"
    else:
        assert max(min(ask.goal.reps) - 3, 3) <= amount(dose) <= max(ask.goal.reps) + 5


@given(_families, _demands, asks())
def test_stages_open_by_session_level_goal_and_rest(family: str, demand: float, ask: Ask) -> None:
    """Fast from the fourth session, ballistic from the seventh, by ``dose.rules``."""
    dose = of(family, demand, ask)
    stages = [part.stage for part in dose.parts] if dose else []
    assert stages == sorted(stages, key=SPEEDS.index)
    if "fast" in stages:
        assert ask.number > 3
        assert ask.level.name != "new"
        assert "fast" in ask.goal.stages
    if "ballistic" in stages:
        assert ask.number > 6
        assert ask.level.name != "new"
        assert "ballistic" in ask.goal.stages
        assert not ask.point.deload
        assert not ask.tired
    if PATTERNS[family] == "mobility":
        assert set(stages) <= {"controlled"}


@given(asks(), st.floats(0.05, 0.9))
def test_a_quick_form_that_closes_leaves_its_reps_to_the_others(ask: Ask, demand: float) -> None:
    plain = dosed(
        Rungs("squat", "own", TEMPO, False, {"controlled": ("own", TEMPO)}), demand, "knee extension", ask
    )
    quick = of("squat", demand, ask)
    assert (plain is None) == (quick is None)
    if plain and quick:
        assert amount(plain) == amount(quick)


def test_too_hard_and_too_easy_are_left_out() -> None:
    ask = Ask(1, goal("general strength"), level("trained"), WavePoint(0.5))
    assert of("squat", 1.3, ask) is None
    assert of("squat", 0.02, ask) is None
    assert of("front of trunk", 0.02, ask, hold=True) is not None, "steadiness trains whatever it asks"


def test_sets_and_rests_by_family() -> None:
    """By the tables of goals and levels: general strength 2 to 4 sets, new at most 3; stretches 1 or 2."""
    strength = goal("general strength")
    assert sets_range("squat", strength, level("trained")) == (2, 4)
    assert sets_range("squat", strength, level("new")) == (2, 3)
    assert sets_range("squat", goal("power"), level("new")) == (3, 3)
    assert sets_range("mobility", strength, level("trained")) == (1, 2)
    assert rest_s("squat", strength) == 90
    assert rest_s("mobility", strength) == 15.0


@pytest.mark.parametrize("moves", [2])
def test_the_most_quick_moves_of_a_session_stay_within_the_rule(moves: int) -> None:
    """40 ballistic reps a session, by ``dose.rules``."""
    assert moves * most_ballistic_reps() <= 40
