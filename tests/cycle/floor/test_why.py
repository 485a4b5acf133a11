"""Why a spell is where and when it is."""

from __future__ import annotations

import pytest
from tests.cycle.floor.squads import ask, spell, squad

from leanmark.cycle.floor.plan import plan_floor
from leanmark.cycle.floor.why import why
from leanmark.errors import FieldError


def test_who_waits_is_told_for_whom() -> None:
    plan = plan_floor(ask(spell("Ada", "row"), spell("Bo", "row")))
    second = next(turn.trainee for turn in plan.turns if turn.start_s == 40.0)
    first = "Ada" if second == "Bo" else "Bo"
    told = why(plan, second, "row")
    assert told[0] == "The strap of beam 1 is at long from 0:00 to 4:10."
    assert f"It starts at 0:40: the strap is {first}'s until 0:30, then handed over." in told
    assert f"{second} waits 40 s for it." in told
    assert f"It shares the strap in turns with {first}." in told


def test_order_rest_and_floor_are_told() -> None:
    plan = plan_floor(ask(spell("Ada", "jump", "", order=0), spell("Ada", "row", order=1)))
    assert why(plan, "Ada", "jump") == (
        "jump needs no anchor: it is done on the floor, and waits for nobody's strap.",
        "The order of the session puts it before row.",
        "It starts at 0:00, as soon as the session begins.",
    )
    told = why(plan, "Ada", "row")
    assert "The order of the session puts it after jump." in told
    assert "It starts at 4:30: until then Ada rests 60 s after jump." in told


def test_a_change_of_setting_is_told() -> None:
    spells = [spell("Ada", "row", sets=1, order=0, rest_s=10.0), spell("Ada", "press", "short", order=1)]
    told = why(plan_floor(ask(*spells)), "Ada", "press")
    assert "It starts at 1:10: after Ada's set until 0:30 the strap is set from long to short." in told


def test_a_tie_and_a_spotter_are_told() -> None:
    plan = plan_floor(ask(spell("Ada", "row", anchor="beam 1", spotter=True)))
    told = why(plan, "Ada", "row")
    assert told[0] == "It is at beam 1 because the ask ties it to that anchor."
    assert told[-1] == "The coach spots, since no trainee is free in all of its sets."


def test_every_spell_of_a_squad_has_reasons() -> None:
    plan = plan_floor(squad(6, anchors=("beam 1", "beam 2")), effort=0.1)
    for one in plan.ask.spells:
        told = why(plan, one.trainee, one.line)
        assert sum(sentence.startswith("It starts at") for sentence in told) == 1
        assert all(sentence.endswith(".") for sentence in told)


def test_unknown_names_are_refused() -> None:
    plan = plan_floor(ask(spell("Ada", "row")))
    with pytest.raises(FieldError, match="name a trainee of the session"):
        why(plan, "Bo", "row")
    with pytest.raises(FieldError, match="name a line of Ada"):
        why(plan, "Ada", "press")
