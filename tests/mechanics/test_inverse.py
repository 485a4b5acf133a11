"""From wanted load to marks: made-up profiles with known answers, then the row itself."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mechanics.scenes import row_stand

from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.inverse import (
    LOAD_TOLERANCE,
    MARK_TOLERANCE_M,
    Answer,
    Interval,
    Profile,
    intervals,
    marks_for,
    scan,
)
from leanmark.mechanics.reasons import FINE, SLACK, SLIP, STRAP_SHORT, TIPS

LOW, HIGH, MARKS = -1.0, 1.0, 21
ONE = np.zeros(1)


def made_up(load: Callable[[Floats], Floats], *bars: tuple[float, float, int]) -> Profile:
    """A profile of everyone with this load, barred inside each (low, high, reason)."""

    def profile(mark_m: Floats, who: Ints) -> tuple[Floats, Ints]:
        reason = np.full(len(mark_m), FINE, dtype=np.intp)
        for low, high, code in bars:
            reason[(mark_m > low) & (mark_m < high)] = code
        return load(mark_m), reason

    return profile


def rising(mark_m: Floats) -> Floats:
    return 0.4 + 0.3 * mark_m


def asked(profile: Profile, *wanted: float) -> tuple[list[Interval], list[list[Answer]]]:
    found = scan(profile, ONE + LOW, ONE + HIGH, MARKS)
    feasible = intervals(profile, found)
    return feasible[0], marks_for(profile, found, feasible, np.array(wanted))[0]


def test_an_open_range_has_one_interval_that_only_the_search_ends() -> None:
    (interval,), (answers,) = asked(made_up(rising), 0.46)
    assert (interval.low_m, interval.high_m) == (LOW, HIGH)
    assert (interval.low_reason, interval.high_reason) == (FINE, FINE)
    assert (interval.least_load, interval.greatest_load) == pytest.approx((0.1, 0.7), abs=1e-12)
    assert [a.mark_m for a in answers] == pytest.approx([0.2], abs=LOAD_TOLERANCE / 0.3)


def test_slip_in_the_middle_leaves_both_ends_and_wanted_loads_find_theirs() -> None:
    # needed friction is not monotone in the mark: the middle slips, both sides hold
    (near, far), answers = asked(made_up(rising, (-0.33, 0.41, SLIP)), 0.2, 0.4, 0.6)
    assert (near.low_reason, near.high_reason, far.low_reason, far.high_reason) == (FINE, SLIP, SLIP, FINE)
    assert near.high_m == pytest.approx(-0.33, abs=MARK_TOLERANCE_M)
    assert far.low_m == pytest.approx(0.41, abs=MARK_TOLERANCE_M)
    assert [[a.interval for a in row] for row in answers] == [[near], [], [far]]


def test_a_load_that_falls_and_rises_again_has_two_marks_nearest_the_plumb_point_first() -> None:
    profile = made_up(lambda mark_m: 0.2 + (mark_m - 0.1) ** 2)
    _, (answers,) = asked(profile, 0.45)
    # slope at the answers is 2 x 0.5
    assert [a.mark_m for a in answers] == pytest.approx([-0.4, 0.6], abs=LOAD_TOLERANCE)


@pytest.mark.parametrize("wanted", [0.4 + 0.3 * -0.62, 0.4 + 0.3 * 0.538])
def test_a_load_between_the_last_mark_looked_at_and_the_limit_is_found(wanted: float) -> None:
    # the scan looks at -0.6 and 0.5; the limits lie at -0.64 and 0.54
    (interval,), (answers,) = asked(made_up(rising, (-2.0, -0.64, STRAP_SHORT), (0.54, 2.0, TIPS)), wanted)
    assert interval.least_load - LOAD_TOLERANCE <= wanted <= interval.greatest_load + LOAD_TOLERANCE
    assert [a.load for a in answers] == pytest.approx([wanted], abs=LOAD_TOLERANCE)


@pytest.mark.parametrize("mark", [LOW, -0.6, 0.0, HIGH])
def test_a_load_met_exactly_at_a_mark_looked_at_is_answered_once(mark: float) -> None:
    _, (answers,) = asked(made_up(rising), float(rising(np.array(mark))))
    assert [a.mark_m for a in answers] == pytest.approx([mark], abs=LOAD_TOLERANCE / 0.3)


def test_a_load_that_leaps_past_the_wanted_one_is_not_answered() -> None:
    _, answers = asked(made_up(lambda mark_m: np.where(mark_m < 0.03, 0.3, 0.5)), 0.3999, 0.2, 0.6)
    assert answers == [[], [], []]


def test_nothing_feasible_gives_no_interval_and_no_answer() -> None:
    feasible, answers = asked(made_up(rising, (-2.0, 2.0, TIPS)), 0.4)
    assert (feasible, answers) == ([], [[]])


@given(edges=st.lists(st.floats(-0.99, 0.99), min_size=1, max_size=6), first=st.booleans())
def test_limits_are_where_feasibility_flips(edges: list[float], first: bool) -> None:
    ends = [-2.0, *sorted(edges), 2.0]
    bars = [(ends[k], ends[k + 1], SLIP) for k in range(0 if first else 1, len(ends) - 1, 2)]
    profile = made_up(rising, *bars)
    feasible, _ = asked(profile, 0.4)
    for interval in feasible:
        limits = [(interval.low_m, interval.low_reason), (interval.high_m, interval.high_reason)]
        for limit, reason in limits:
            assert profile(np.array([limit]), np.zeros(1, dtype=np.intp))[1][0] == FINE
            if reason == FINE:
                assert limit in (LOW, HIGH)
            else:
                # a mark looked at was barred: one of the bars ends within the tolerance of the limit
                assert reason == SLIP
                assert np.abs(np.array(edges) - limit).min() <= MARK_TOLERANCE_M
        assert all(
            profile(np.array([mark]), np.zeros(1, dtype=np.intp))[1][0] == FINE
            for mark in np.linspace(LOW, HIGH, MARKS)
            if interval.low_m <= mark <= interval.high_m
        )


@given(st.lists(st.floats(0.11, 0.69), min_size=1, max_size=4))
def test_answers_meet_the_wanted_loads(wanted: list[float]) -> None:
    curved = made_up(lambda mark_m: 0.4 + 0.2 * mark_m + 0.1 * mark_m**3)
    _, answers = asked(curved, *wanted)
    for load, row in zip(wanted, answers, strict=True):
        (answer,) = row
        assert answer.load == pytest.approx(load, abs=LOAD_TOLERANCE)
        assert curved(np.array([answer.mark_m]), np.zeros(1, dtype=np.intp))[0][0] == answer.load


def test_many_people_at_once_are_answered_as_each_alone() -> None:
    steepness = np.array([0.2, 0.3, 0.45])

    def profile(mark_m: Floats, who: Ints) -> tuple[Floats, Ints]:
        reason = np.where(mark_m > 0.2 + 0.1 * who, SLACK, FINE).astype(np.intp)
        return 0.4 + steepness[who] * mark_m, reason

    wanted = np.array([0.35, 0.45])
    found = scan(profile, np.full(3, LOW), np.full(3, HIGH), MARKS)
    together = intervals(profile, found)
    answers = marks_for(profile, found, together, wanted)
    for person in range(3):

        def alone(mark_m: Floats, who: Ints, person: int = person) -> tuple[Floats, Ints]:
            return profile(mark_m, who + person)

        feasible, single = asked(alone, *wanted.tolist())
        assert feasible == together[person]
        assert single == answers[person]


@pytest.mark.parametrize("friction", [0.35, 0.6])
def test_row_load_to_mark_to_load(friction: float) -> None:
    standing = row_stand(floor_friction=friction)
    found = standing.scanned()
    feasible = intervals(standing.profile, found)
    (interval,) = feasible[0]
    wanted = np.linspace(interval.least_load + 1e-3, interval.greatest_load - 1e-3, 9)
    for load, answers in zip(wanted, marks_for(standing.profile, found, feasible, wanted)[0], strict=True):
        (answer,) = answers
        value, reason = standing.profile(np.array([answer.mark_m]), np.zeros(1, dtype=np.intp))
        assert reason[0] == FINE
        assert value[0] == pytest.approx(load, abs=LOAD_TOLERANCE)


@pytest.mark.parametrize("friction", [0.35, 0.6])
def test_row_limits_flip_feasibility_for_the_reason_given(friction: float) -> None:
    standing = row_stand(floor_friction=friction)
    (interval,) = intervals(standing.profile, standing.scanned())[0]
    inside = np.array([interval.low_m, interval.high_m])
    who = np.zeros(2, dtype=np.intp)
    assert (standing.profile(inside, who)[1] == FINE).all()
    outside = inside + MARK_TOLERANCE_M * np.array([-1.0, 1.0])
    reasons = standing.profile(outside, who)[1]
    assert reasons.tolist() == [interval.low_reason, interval.high_reason]
    assert interval.high_reason == SLIP
    assert interval.low_reason == SLACK
