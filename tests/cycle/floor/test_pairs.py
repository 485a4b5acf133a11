"""Who spots whom."""

from __future__ import annotations

from tests.cycle.floor.squads import ask, spell

from leanmark.cycle.floor.plan import plan_floor


def test_who_shares_the_strap_spots() -> None:
    plan = plan_floor(ask(spell("Ada", "row", spotter=True), spell("Bo", "row"), spell("Cy", "squat", "")))
    assert [(pair.spotter, pair.comes_from) for pair in plan.pairs] == [("Bo", "same anchor")]


def test_who_is_done_spots_where_nobody_is_at_the_anchor() -> None:
    """Bo does one set on the floor and is free from then on; Ada's row comes last."""
    jump = spell("Ada", "jump", "", order=0)
    row = spell("Ada", "row", order=1, spotter=True)
    plan = plan_floor(ask(jump, row, spell("Bo", "squat", "", sets=1)))
    assert [(pair.spotter, pair.comes_from) for pair in plan.pairs] == [("Bo", "near")]


def test_the_coach_spots_where_all_are_at_work() -> None:
    busy = [spell("Bo", f"squat {number}", "", rest_s=5.0) for number in range(3)]
    plan = plan_floor(ask(spell("Ada", "row", spotter=True), *busy))
    assert [(pair.spotter, pair.comes_from) for pair in plan.pairs] == [("coach", "coach")]
    assert plan.notes == ()


def test_a_coach_wanted_twice_at_once_is_warned() -> None:
    rows = [spell(name, "row", spotter=True, sets=1, set_s=40.0) for name in ("Ada", "Bo")]
    plan = plan_floor(ask(*rows, anchors=("beam 1", "beam 2"), swap_s=0.0))
    assert {pair.spotter for pair in plan.pairs} == {"coach"}
    assert "The coach would have to spot Ada and Bo at the same time at 0:00" in plan.notes[0]
