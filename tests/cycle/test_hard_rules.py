"""No session breaks a hard rule: 500 random squads, in five parts so that they are shared out over
processors. A breach is told as found, since making the squad smaller would take minutes."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings
from tests.cycle.pool import MONDAY, RIGS, cycle_wishes, person, plan_of, plans
from tests.cycle.rules_kept import broken
from tests.cycle.squads import Drawn, squads

from leanmark.squad.wishes import TrainingWishes

SQUADS = 100
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


@pytest.mark.parametrize("part", range(5))
def test_no_session_breaks_a_hard_rule(part: int) -> None:
    @seed(part)
    @settings(
        max_examples=SQUADS,
        phases=[Phase.generate],
        suppress_health_check=SLOW,
        derandomize=False,
        database=None,
    )
    @given(squads())
    def rules_hold(drawn: Drawn) -> None:
        persons = drawn.persons()
        for one, plan in zip(persons, plans(persons, rig=drawn.rig), strict=True):
            assert broken(one, plan, RIGS[drawn.rig]) == []

    rules_hold()


def test_a_lone_sunday_and_the_monday_after_share_no_family() -> None:
    """Days off can leave a week its last day alone, and the next week begins the day after."""
    off = frozenset({MONDAY, MONDAY + dt.timedelta(days=3)})
    one = person(cycle=cycle_wishes(weeks=3, days=(0, 3, 6), sessions=3, days_off=off))
    assert broken(one, plan_of(one), RIGS[0]) == []


def test_a_hold_at_an_easier_mark_lasts_no_longer_than_there_is_time_for() -> None:
    cycle = cycle_wishes(days=(0, 1, 2, 3, 5), sessions=5, minutes=15.0, goal="strength-endurance")
    wishes = TrainingWishes(level="used to straps", emphasis=("vertical pull", "hinge"))
    one = person(wishes, cycle, body=0)
    assert broken(one, plan_of(one), RIGS[0]) == []
