"""A pinned edit never moves: what the coach fixed is in the new plan as fixed, or a note says that it is
given up."""

from __future__ import annotations

from random import Random

import pytest
from tests.cycle.pool import RIGS, person, plan_of
from tests.cycle.rules_kept import broken
from tests.cycle.test_same_seed import WISHES

from leanmark.cycle.form import Pin, Plan, Session


def session_of(plan: Plan, number: int) -> Session:
    return next(one for one in plan.sessions if one.number == number)


def drawn(plan: Plan, number: int) -> Pin:
    """A random edit of one session, of every kind in turn."""
    random = Random(number)
    session = random.choice(plan.sessions)
    line = random.choice(session.lines)
    what = ("keep", "drop", "dose", "swap")[number % 4]
    swaps = sorted({one.move for s in plan.sessions for one in s.lines} - {one.move for one in session.lines})
    other = random.choice(swaps) if what == "swap" and swaps else ""
    if what == "swap" and not other:
        what = "keep"
    sets = random.randint(1, 4) if what == "dose" else 0
    return Pin(plan.trainee, session.number, what, line.move, other, sets, 5 if what == "dose" else 0)  # type: ignore[arg-type]


@pytest.mark.parametrize("number", range(16))
def test_an_edit_stays_and_stays_through_the_next_one(number: int) -> None:
    one = person(WISHES[number % len(WISHES)])
    plan = plan_of(one)
    pins: list[Pin] = []
    for step in range(2):
        pins.append(drawn(plan, 4 * step + number))
        plan = plan_of(one, pins=pins, before=plan)
        for at, pin in enumerate(pins):
            moves = {pin.move, pin.other} - {""}
            if not any({later.move, later.other} & moves for later in pins[at + 1 :]):
                assert_stays(plan, pin)
        assert broken(one, plan, RIGS[0], pins) == []


def assert_stays(plan: Plan, pin: Pin) -> None:
    lines = {line.move: line for line in session_of(plan, pin.session).lines}
    given_up = any(f"'{pin.other or pin.move}' kept by hand" in note for note in plan.notes)
    if pin.what in ("drop", "swap"):
        assert pin.move not in lines
    fixed = {"drop": "", "swap": pin.other}.get(pin.what, pin.move)
    if not fixed or given_up:
        return
    line = lines[fixed]
    assert line.pinned
    if pin.sets:
        assert line.sets == pin.sets
    if pin.reps and line.parts[0].reps:
        assert sum(part.reps for part in line.parts) == pin.reps


def test_a_mark_fixed_by_hand_is_the_mark_in_the_plan() -> None:
    one = person(WISHES[0])
    plan = plan_of(one)
    session, line = next((s, one) for s in plan.sessions for one in s.lines if one.easier and one.strap)
    assert line.easier is not None
    mark_m = round((line.mark_m + line.easier.mark_m) / 2.0, 2)
    pin = Pin(plan.trainee, session.number, "dose", line.move, mark_m=mark_m)
    after = plan_of(one, pins=[pin], before=plan)
    again = next(x for x in session_of(after, session.number).lines if x.move == line.move)
    assert again.mark_m == mark_m


def test_without_an_edit_nothing_moves_much() -> None:
    """Solving again around an edit that keeps what is there keeps the session that it is about."""
    one = person(WISHES[0])
    plan = plan_of(one, effort=1.0)
    first = plan.sessions[0]
    pins = [Pin(plan.trainee, first.number, "keep", line.move) for line in first.lines]
    after = plan_of(one, pins=pins, before=plan, effort=1.0)
    assert {line.move for line in first.lines} <= {line.move for line in after.sessions[0].lines}
