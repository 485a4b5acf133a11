"""The table of rules: every row whole, and read one way only."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.goals import GOALS
from leanmark.dose.rules import OWN, RULES, bounds, middle, rounded, rule, value
from leanmark.errors import FieldError
from leanmark.moves.schema import COMMON_PRACTICE


@pytest.mark.parametrize("name", RULES)
def test_every_rule_says_what_it_is_and_where_it_comes_from(name: str) -> None:
    row = rule(name)
    assert row.values
    assert row.unit
    assert row.says
    assert row.source in (COMMON_PRACTICE, OWN) or any(char.isdigit() for char in row.source), row.source


def test_published_rules_as_the_guidelines_print_them() -> None:
    # ACSM 2009, abstract: 2-10 % when one to two reps over the desired number. WHO 2020: two or more days.
    assert bounds("load rise") == (0.02, 0.10)
    assert bounds("reps over target") == (1, 2)
    assert value("strengthening days") == 2


@pytest.mark.parametrize("name", [name for name, row in RULES.items() if len(row.values) == 2])
def test_bounds_run_from_low_to_high(name: str) -> None:
    low, high = bounds(name)
    assert low < high
    assert low < middle(name) < high


def test_goals_keep_within_the_weekly_sets() -> None:
    low, high = bounds("weekly sets")
    for goal in GOALS.values():
        assert low <= goal.weekly_sets[0] < goal.weekly_sets[1] <= high, goal.name


@pytest.mark.parametrize(("read", "name"), [(value, "load rise"), (bounds, "recovery"), (value, "naps")])
def test_a_rule_read_the_wrong_way_is_refused(read: object, name: str) -> None:
    assert callable(read)
    with pytest.raises(FieldError, match=f"rule = '{name}' is not allowed"):
        read(name)


@given(seconds=st.floats(0.0, 1000.0))
def test_times_are_rounded_to_steps_and_never_to_none(seconds: float) -> None:
    found = rounded(seconds, "rest rounding")
    step = value("rest rounding")
    assert found % step == 0.0
    assert found >= step
    assert abs(found - seconds) <= step / 2 or (seconds < step and found == step)
