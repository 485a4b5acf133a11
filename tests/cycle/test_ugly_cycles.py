"""Ugly input: no move possible, hardly any time, wishes that contradict each other, a crowd, one session."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from tests.cycle.pool import MONDAY, RIGS, cycle_wishes, person, plan_of, plans, squad_of
from tests.cycle.rules_kept import broken

from leanmark.cycle.build import build
from leanmark.dose.goals import PATTERNS
from leanmark.errors import FieldError
from leanmark.squad.wishes import TrainingWishes


def test_no_move_possible_is_a_plan_without_sessions_that_says_why() -> None:
    plan = plan_of(person(TrainingWishes(level="trained", avoid=tuple(PATTERNS))))
    assert plan.sessions == ()
    assert len(plan.left_out) == len(person().ladders)
    assert all(one.reasons and not one.chosen for one in plan.left_out)
    assert plan.notes


def test_without_any_kit_only_moves_without_kit_are_done() -> None:
    one = person(kit=frozenset())
    plan = plan_of(one)
    assert broken(one, plan, RIGS[0]) == []
    assert plan.sessions
    assert not any(line.strap for session in plan.sessions for line in session.lines)


@pytest.mark.parametrize("minutes", [0.5, 5.0, 11.0])
def test_no_time_is_a_clash_in_plain_words(minutes: float) -> None:
    one = person(TrainingWishes(level="trained", minutes=minutes))
    plan = plan_of(one)
    assert broken(one, plan, RIGS[0]) == []
    said = " ".join(plan.notes)
    assert f"{minutes:g} minutes a session" in said
    assert "with about" in said


def test_a_move_that_has_to_be_in_and_is_to_be_avoided() -> None:
    one = person(TrainingWishes(level="trained", must=("row",), avoid=("row",)))
    plan = plan_of(one)
    assert broken(one, plan, RIGS[0]) == []
    said = " ".join(plan.notes)
    assert "'row' has to be in" in said
    assert "avoid 'row'" in said
    assert plan.sessions


def test_likes_of_what_pain_bars_are_left_out() -> None:
    pain = person().trainee.wishes
    one = person(replace(pain, likes=("row",), avoid=("shoulder", "elbow")))
    plan = plan_of(one)
    assert broken(one, plan, RIGS[0]) == []
    assert "row" in {left.move for left in plan.left_out}


def test_a_cycle_of_one_session() -> None:
    one = person(cycle=cycle_wishes(weeks=1, days=(3,), sessions=1))
    plan = plan_of(one)
    assert [session.number for session in plan.sessions] == [1]
    assert broken(one, plan, RIGS[0]) == []


def test_sixteen_weeks_of_six_days() -> None:
    cycle = cycle_wishes(weeks=16, days=(0, 1, 2, 3, 4, 5), sessions=6, wave="step with deload")
    one = person(TrainingWishes(level="strong", goal="power"), cycle)
    plan = plan_of(one)
    assert len(plan.sessions) == 96
    assert broken(one, plan, RIGS[0]) == []


def test_a_start_in_the_past_is_planned_and_noted() -> None:
    cycle = cycle_wishes(starts=dt.date(2020, 2, 24), weeks=1)
    squad = squad_of([person(cycle=cycle)])
    plan = build(squad, today=MONDAY).plans[0]
    assert [session.starts.date() for session in plan.sessions] == [
        dt.date(2020, 2, 24), dt.date(2020, 2, 26), dt.date(2020, 2, 28),
    ]  # fmt: skip
    assert any("3 of 3 sessions lie before 2026-11-30" in note for note in plan.notes)


def test_days_off_throughout_leave_no_session() -> None:
    off = frozenset(MONDAY + dt.timedelta(days=ahead) for ahead in range(28))
    one = person(TrainingWishes(level="trained", days_off=off))
    plan = plan_of(one)
    assert plan.sessions == ()


def test_a_week_with_fewer_days_has_fewer_sessions_and_says_so() -> None:
    off = frozenset({MONDAY + dt.timedelta(days=9)})
    one = person(TrainingWishes(level="trained", days_off=off))
    plan = plan_of(one)
    assert [sum(s.week == week for s in plan.sessions) for week in (1, 2, 3, 4)] == [3, 2, 3, 3]
    assert "fewer than 3 sessions in week 2: too few open days" in plan.notes
    assert broken(one, plan, RIGS[0]) == []


def test_a_level_for_a_family_that_is_not_there_changes_nothing() -> None:
    plain = plan_of(person())
    odd = plan_of(person(TrainingWishes(level="trained", levels={"sword fighting": "strong"})))
    assert odd.sessions == plain.sessions


def test_a_level_or_a_goal_that_does_not_exist_is_refused_by_name() -> None:
    with pytest.raises(FieldError, match=r"level.*godlike"):
        plan_of(person(TrainingWishes(level="godlike")))
    with pytest.raises(FieldError, match=r"goal.*fame"):
        plan_of(person(TrainingWishes(level="new", goal="fame")))


def test_a_hundred_trainees_of_one_build_get_the_same_plan_each() -> None:
    cycle = cycle_wishes(weeks=1, days=(0,), sessions=1)
    found = plans([person(cycle=cycle, name=f"t{number}") for number in range(100)])
    assert len({plan.trainee for plan in found}) == 100
    first = [(line.move, line.mark_m, line.sets, line.parts) for line in found[0].sessions[0].lines]
    for plan in found:
        lines = plan.sessions[0].lines
        assert [(line.move, line.mark_m, line.sets, line.parts) for line in lines] == first
    assert len({line.uid for plan in found for line in plan.sessions[0].lines}) == 100 * len(first)
