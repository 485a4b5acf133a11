"""The ask from a cycle's sessions."""

from __future__ import annotations

import datetime as dt

import pytest
from msgspec.structs import replace
from tests.cycle.sample_cycle import sample_cycle

from leanmark.cycle.floor.plan import plan_floor
from leanmark.cycle.floor.sessions import FAST_FIRST, TRUNK_LAST, from_sessions, order_class
from leanmark.errors import FieldError

MONDAY = dt.date(2027, 1, 11)
BEAMS = ("beam 1", "beam 2")


def test_every_line_of_the_day_is_a_spell() -> None:
    cycle = sample_cycle()
    ask = from_sessions(cycle, MONDAY, (), anchors=BEAMS, minutes=60.0)
    lines = {plan.trainee: plan.sessions[0].lines for plan in cycle.plans}
    assert ask.who == tuple(lines)
    assert [(one.trainee, one.line, one.strap, one.sets, one.set_s, one.rest_s) for one in ask.spells] == [
        (name, line.uid, line.strap, line.sets, line.set_s, line.rest_s)
        for name, own in lines.items()
        for line in own
    ]
    assert ask.seed == cycle.seed
    assert {turn.line for turn in plan_floor(ask).turns} == {one.line for one in ask.spells}


def test_who_comes_may_be_named() -> None:
    ask = from_sessions(sample_cycle(), MONDAY, ("Jonas Holmvik",), anchors=BEAMS, minutes=60.0)
    assert ask.who == ("Jonas Holmvik",)
    assert {one.trainee for one in ask.spells} == {"Jonas Holmvik"}


def test_fast_work_comes_first_and_the_trunk_last() -> None:
    line = sample_cycle().plans[0].sessions[0].lines[0]
    part = line.parts[0]
    assert order_class(replace(line, parts=(replace(part, stage="fast"),))) == FAST_FIRST
    held = replace(line, parts=(replace(part, stage="controlled"),))
    assert order_class(replace(held, family="front of trunk")) == TRUNK_LAST
    assert FAST_FIRST < order_class(replace(held, family="squat")) < TRUNK_LAST


def test_a_day_without_sessions_is_refused_with_the_days_that_have_some() -> None:
    with pytest.raises(FieldError, match="2027-01-11 to 2027-01-21"):
        from_sessions(sample_cycle(), dt.date(2027, 1, 12), (), anchors=BEAMS, minutes=60.0)


def test_an_unknown_name_is_refused() -> None:
    with pytest.raises(FieldError, match="name a trainee of the cycle"):
        from_sessions(sample_cycle(), MONDAY, ("Nobody",), anchors=BEAMS, minutes=60.0)


def test_somebody_who_does_not_train_that_day_is_refused() -> None:
    cycle = sample_cycle()
    away = replace(cycle, plans=(cycle.plans[0], replace(cycle.plans[1], sessions=())))
    with pytest.raises(FieldError, match="choose a date on which Jonas Holmvik trains"):
        from_sessions(away, MONDAY, ("Jonas Holmvik",), anchors=BEAMS, minutes=60.0)
