"""What holds of every plan, over random squads."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.cycle.floor.rules_kept import assert_rules_kept
from tests.cycle.floor.squads import ANCHORS, asks, spell
from tests.cycle.floor.squads import ask as ask_of

from leanmark.cycle.floor.form import FloorAsk
from leanmark.cycle.floor.plan import plan_floor
from leanmark.cycle.floor.weights import LENGTH_ONLY

LITTLE = 0.1
"""A tenth of the usual effort: the rules must hold however long the search lasts."""


@given(asks())
def test_every_plan_keeps_the_rules_of_the_floor(ask: FloorAsk) -> None:
    assert_rules_kept(plan_floor(ask, effort=LITTLE))


@given(asks())
def test_the_list_schedule_alone_keeps_them_too(ask: FloorAsk) -> None:
    assert_rules_kept(plan_floor(ask, effort=0.0))


@given(asks())
def test_a_plan_is_never_longer_nor_dearer_than_the_list_schedule_nor_shorter_than_the_bound(
    ask: FloorAsk,
) -> None:
    plan = plan_floor(ask, effort=LITTLE)
    assert plan.bound_s <= plan.length_s <= plan.list_length_s
    assert plan.list_length_s == plan_floor(ask, effort=0.0).length_s
    assert sum(goal.cost for goal in plan.goals) <= sum(goal.baseline for goal in plan.goals)


@given(asks())
def test_a_plan_stays_no_longer_than_the_list_schedule_where_length_costs_nothing(ask: FloorAsk) -> None:
    plan = plan_floor(ask, {"length": 0, "strap changes": 100, "waiting": 0, "walking": 20}, effort=LITTLE)
    assert plan.bound_s <= plan.length_s <= plan.list_length_s


@given(asks())
def test_the_same_seed_gives_the_same_plan(ask: FloorAsk) -> None:
    assert plan_floor(ask, effort=LITTLE) == plan_floor(ask, effort=LITTLE)


@given(asks())
def test_a_spotter_is_free_in_every_set_and_spots_one_at_a_time(ask: FloorAsk) -> None:
    plan = plan_floor(ask, effort=LITTLE)
    assert {(pair.trainee, pair.line) for pair in plan.pairs} == {
        (one.trainee, one.line) for one in ask.spells if one.spotter
    }
    for pair in plan.pairs:
        sets = [turn for turn in plan.turns if (turn.trainee, turn.line) == (pair.trainee, pair.line)]
        others = {
            (one.trainee, one.line) for one in plan.pairs if one.spotter == pair.spotter and one != pair
        }
        busy = [turn for turn in plan.turns if turn.trainee == pair.spotter]
        busy += [turn for turn in plan.turns if (turn.trainee, turn.line) in others]
        assert pair.spotter != pair.trainee
        if pair.comes_from != "coach":
            assert all(one.end_s <= two.start_s or two.end_s <= one.start_s for one in sets for two in busy)


@st.composite
def single_sets(draw: st.DrawFn) -> FloorAsk:
    """Squads whose model is the floor itself: one set a spell, one setting."""
    spells = [
        spell(name, f"{name} {number}", sets=1, set_s=draw(st.sampled_from((20.0, 30.0, 50.0))), order=number)
        for name in ("Ada", "Bo", "Cy", "Dee")
        for number in range(draw(st.integers(1, 2)))
    ]
    return ask_of(*spells, people_per_anchor=draw(st.integers(1, 2)))


@given(single_sets())
def test_another_anchor_never_makes_a_proven_session_longer(ask: FloorAsk) -> None:
    """Only where the solver's model is the floor itself and its answer proven: where people share a strap
    set by set, or time runs out, a plan with more anchors may come out longer by chance."""
    plans = [plan_floor(replace(ask, anchors=ANCHORS[:count]), LENGTH_ONLY) for count in (1, 2, 3)]
    assert all(plan.solved.exact and plan.solved.how == "best possible" for plan in plans)
    assert all(plan.length_s == plan.bound_s for plan in plans)
    assert plans[0].length_s >= plans[1].length_s >= plans[2].length_s
