"""The rules of the floor, checked on a plan's turns alone: nothing here is shared with the planner."""

from __future__ import annotations

from itertools import pairwise

from leanmark.cycle.floor.form import FloorPlan, Spell, Turn


def spells_by_line(plan: FloorPlan) -> dict[tuple[str, str], Spell]:
    return {(spell.trainee, spell.line): spell for spell in plan.ask.spells}


def assert_rules_kept(plan: FloorPlan) -> None:
    """Everything that must hold of every plan."""
    assert_all_sets_are_done(plan)
    assert_straps_serve_one_at_a_time(plan)
    assert_trainees_rest_and_walk(plan)
    assert_few_share(plan)
    assert_stints_hold_the_turns(plan)


def assert_all_sets_are_done(plan: FloorPlan) -> None:
    spells = spells_by_line(plan)
    done = {key: [turn for turn in plan.turns if (turn.trainee, turn.line) == key] for key in spells}
    assert sum(len(turns) for turns in done.values()) == len(plan.turns)
    for key, spell in spells.items():
        assert [turn.number for turn in done[key]] == list(range(1, spell.sets + 1))
        places = {turn.anchor for turn in done[key]}
        assert len(places) == 1
        assert places <= (
            {""} if not spell.strap else {spell.anchor} if spell.anchor else set(plan.ask.anchors)
        )
        for turn in done[key]:
            assert turn.strap == spell.strap
            assert turn.end_s - turn.start_s >= spell.set_s
    assert plan.length_s == max(turn.end_s for turn in plan.turns)
    assert min(turn.start_s for turn in plan.turns) == 0.0


def assert_straps_serve_one_at_a_time(plan: FloorPlan) -> None:
    for anchor in plan.ask.anchors:
        for before, after in pairwise(_at(plan, anchor)):
            gap_s = after.start_s - before.end_s
            assert gap_s >= (plan.ask.swap_s if before.trainee != after.trainee else 0.0)
            if before.strap != after.strap:
                assert gap_s >= plan.ask.change_s


def assert_trainees_rest_and_walk(plan: FloorPlan) -> None:
    spells = spells_by_line(plan)
    for name in plan.ask.who:
        own = sorted((turn for turn in plan.turns if turn.trainee == name), key=lambda turn: turn.start_s)
        for before, after in pairwise(own):
            gap_s = after.start_s - before.end_s
            assert gap_s >= spells[name, before.line].rest_s
            if before.anchor != after.anchor:
                assert gap_s >= plan.ask.walk_s
            assert spells[name, before.line].order <= spells[name, after.line].order
        lines = [turn.line for turn in own]
        assert len(set(lines)) == sum(1 for at, line in enumerate(lines) if not at or lines[at - 1] != line)


def assert_few_share(plan: FloorPlan) -> None:
    for anchor in plan.ask.anchors:
        turns = _at(plan, anchor)
        first_s = {(turn.trainee, turn.line): turn.start_s for turn in reversed(turns)}
        last_s = {(turn.trainee, turn.line): turn.end_s for turn in turns}
        for moment in turns:
            under_way = [key for key in first_s if first_s[key] <= moment.start_s < last_s[key]]
            assert len(under_way) <= plan.ask.people_per_anchor


def assert_stints_hold_the_turns(plan: FloorPlan) -> None:
    for turn in plan.turns:
        if turn.anchor:
            holding = [
                stint
                for stint in plan.stints
                if stint.anchor == turn.anchor and stint.start_s <= turn.start_s and turn.end_s <= stint.end_s
            ]
            assert [stint.strap for stint in holding] == [turn.strap]
    for use in plan.anchors:
        stints = [stint for stint in plan.stints if stint.anchor == use.anchor]
        assert use.strap_changes == max(0, len(stints) - 1)
        for before, after in pairwise(stints):
            assert before.strap != after.strap
            assert before.end_s <= after.change_from_s <= after.start_s


def _at(plan: FloorPlan, anchor: str) -> list[Turn]:
    return sorted((turn for turn in plan.turns if turn.anchor == anchor), key=lambda turn: turn.start_s)
