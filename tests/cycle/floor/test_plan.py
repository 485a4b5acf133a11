"""Floor plans of squads made by hand, and of ugly ones."""

from __future__ import annotations

import time

import pytest
from msgspec.structs import replace
from tests.cycle.floor.rules_kept import assert_rules_kept
from tests.cycle.floor.squads import ask, spell, squad

from leanmark.cycle.floor.form import FloorPlan
from leanmark.cycle.floor.plan import plan_floor
from leanmark.errors import FieldError

QUICK_S = 20.0
"""Longer than any answer may take on a slow machine beside other work; on a quiet one it takes a quarter."""


def test_one_person_does_everything_in_the_shortest_time() -> None:
    plan = plan_floor(ask(spell("Ada", "row"), spell("Ada", "press")))
    # six sets of 30 s and five rests of 60 s
    assert plan.length_s == plan.bound_s == 6 * 30 + 5 * 60
    assert (plan.waits[0].wait_s, plan.waits[0].walks) == (0.0, 0)
    assert plan.fits
    assert plan.notes == ()


def test_two_share_a_strap_in_turns() -> None:
    plan = plan_floor(ask(spell("Ada", "row"), spell("Bo", "row")))
    starts_s = {name: [turn.start_s for turn in plan.turns if turn.trainee == name] for name in ("Ada", "Bo")}
    # the second begins 30 s of work and 10 s of handing over later, and then nobody is in the way
    assert sorted(starts_s.values()) == [[0.0, 90.0, 180.0], [40.0, 130.0, 220.0]]
    assert plan.anchors[0].most_at_once == 2
    assert plan.length_s == 250.0


def test_one_at_a_time_where_nobody_may_share() -> None:
    plan = plan_floor(ask(spell("Ada", "row"), spell("Bo", "row"), people_per_anchor=1))
    # 3 × 30 + 2 × 60 = 210 s each, handed over once
    assert plan.length_s == plan.bound_s == 210 + 10 + 210
    assert plan.solved.exact


def test_settings_are_gathered() -> None:
    """Four trainees do a row and a press on two settings: each anchor keeps one."""
    moves = [
        spell(name, move, strap) for name in "ABCD" for move, strap in (("row", "long"), ("press", "short"))
    ]
    plan = plan_floor(ask(*moves, anchors=("beam 1", "beam 2"), people_per_anchor=2))
    assert_rules_kept(plan)
    assert [use.strap_changes for use in plan.anchors] == [0, 0]
    assert {stint.strap for stint in plan.stints} == {"long", "short"}


def test_alike_anchors_are_used_in_their_order() -> None:
    """More anchors than people: the first ones are used, the rest are named as not needed."""
    plan = plan_floor(ask(spell("Ada", "row"), anchors=("beam 1", "beam 2", "beam 3")))
    assert {turn.anchor for turn in plan.turns} == {"beam 1"}
    assert plan.notes == ("Not needed: beam 2, beam 3.",)


def test_only_floor_moves_need_no_anchor_and_nobody_waits() -> None:
    plan = plan_floor(ask(spell("Ada", "squat", ""), spell("Bo", "squat", ""), anchors=()))
    assert plan.length_s == 3 * 30 + 2 * 60
    assert plan.stints == plan.anchors == ()
    assert all(wait.wait_s == 0.0 for wait in plan.waits)


def test_who_has_nothing_to_do_is_named() -> None:
    plan = plan_floor(ask(spell("Ada", "row"), who=("Ada", "Bo")))
    assert plan.notes == ("Nothing to do in this session: Bo.",)
    assert plan.waits[1].wait_s == 0.0


def test_a_hundred_trainees_on_one_anchor_get_an_answer() -> None:
    began = time.perf_counter()
    plan = plan_floor(squad(100))
    assert time.perf_counter() - began < QUICK_S
    assert_rules_kept(plan)
    assert not plan.fits
    assert "the bottleneck is the work on the anchor's strap" in plan.notes[0]
    assert plan.notes[1].startswith("It fits in ")


def test_too_many_for_the_solver_get_the_list_schedule() -> None:
    plan = plan_floor(squad(350))
    assert plan.solved.how == "list schedule"
    assert plan.length_s == plan.list_length_s
    assert any("too large for the solver" in note for note in plan.notes)


def test_goals_are_listed_with_the_list_schedule_as_baseline() -> None:
    plan = plan_floor(squad(6, anchors=("beam 1", "beam 2")))
    assert [goal.goal for goal in plan.goals] == ["length", "strap changes", "waiting", "walking"]
    assert plan.goals[0].amount == plan.length_s
    assert plan.goals[0].baseline == plan.goals[0].weight * plan.list_length_s
    assert plan.goals[1].amount == sum(use.strap_changes for use in plan.anchors)
    assert plan.goals[2].amount == sum(wait.wait_s for wait in plan.waits)
    assert sum(goal.cost for goal in plan.goals) < sum(goal.baseline for goal in plan.goals)


def test_waits_add_up() -> None:
    """A trainee's time to the last set is sets, rests and what is waited; the walks here fit into the
    rests."""
    plan = plan_floor(squad(5))
    for wait in plan.waits:
        own = [one for one in plan.ask.spells if one.trainee == wait.trainee]
        alone_s = sum(one.sets * (one.set_s + one.rest_s) for one in own) - own[-1].rest_s
        assert wait.last_s == alone_s + wait.wait_s


@pytest.fixture(scope="module")
def crowded() -> FloorPlan:
    return plan_floor(squad(12, minutes=15.0))


def test_a_squad_that_does_not_fit_is_told_the_least_time_and_ways_out(crowded: FloorPlan) -> None:
    assert not crowded.fits
    # 12 trainees × 3 moves × 3 sets of 30 s, handed over in 10 s, less the last one; two of the three
    # settings are set anew in 40 s instead of handed over in 10 s: 108 × 40 − 10 + 2 × 30 = 4370 s = 72.8 min
    assert crowded.bound_s == 4370
    assert "No plan can take less than 73 min" in crowded.notes[0]
    assert any("groups" in note for note in crowded.notes)


@pytest.mark.parametrize(
    ("changed", "field", "remedy"),
    [
        ({"minutes": 0.0}, "minutes", "give the minutes"),
        ({"minutes": float("nan")}, "minutes", "give the minutes"),
        ({"people_per_anchor": 0}, "people_per_anchor", "at least one trainee"),
        ({"anchors": ()}, "anchors", "give an anchor"),
        ({"anchors": ("beam 1", "beam 1")}, "anchors", "tell the two apart"),
        ({"who": ("Ada", "Ada")}, "who", "tell the two apart"),
        ({"who": ("Bo",)}, "trainee", "add the trainee to who"),
        ({"change_s": -1.0}, "change_s", "give the time"),
        ({"walk_s": float("inf")}, "walk_s", "give the time"),
        ({"spells": ()}, "spells", "name somebody"),
        ({"spells": (spell("Ada", "row", sets=0),)}, "sets", "correct the sets"),
        ({"spells": (spell("Ada", "row", set_s=0.0),)}, "set_s", "give the time"),
        ({"spells": (spell("Ada", "row", anchor="tree"),)}, "anchor", "name one of"),
        ({"spells": (spell("Ada", "row", "", anchor="beam 1"),)}, "anchor", "a strap setting"),
        ({"spells": (spell("Ada", "row"), spell("Ada", "row"))}, "line", "uid of its own"),
    ],
)
def test_what_cannot_be_planned_is_refused(changed: dict[str, object], field: str, remedy: str) -> None:
    with pytest.raises(FieldError, match=remedy) as caught:
        plan_floor(replace(ask(spell("Ada", "row")), **changed))
    assert caught.value.field == field
