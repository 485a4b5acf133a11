"""Thirty people on four anchors: how long the floor plan takes, and each goal against the list schedule's.

The peer is the list schedule (always the spell that can start soonest, most work left first), played set by
set by the same simulation. It takes milliseconds; what the search is worth is in the ratios. Both plans are
checked against the rules of the floor before anything is timed.
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import random
from importlib.metadata import version
from typing import Final

from tests.cycle.floor.rules_kept import assert_rules_kept

from benchmarks.timing import machine, timed
from leanmark.cycle.floor.form import FloorAsk, FloorPlan, Spell
from leanmark.cycle.floor.plan import plan_floor

SQUADS: Final = ((30, 4), (16, 4), (8, 2))
"""People and anchors."""
SEEDS: Final = (1, 2, 3)
"""Invented squads of each size."""
MOVES: Final = 5
STRAPS: Final = ("long", "mid-thigh", "mid-shin", "")
RUNS: Final = 3


def invented_squad(people: int, anchors: int, seed: int) -> FloorAsk:
    """Five moves each, the first one fast, the last one for the trunk, a quarter of the others on the
    floor."""
    draw = random.Random(seed)
    who = tuple(f"trainee {number}" for number in range(1, people + 1))
    spells = tuple(invented_spell(draw, name, move) for name in who for move in range(MOVES))
    names = tuple(f"anchor {number}" for number in range(1, anchors + 1))
    return FloorAsk(who, spells, names, 3, 40.0, 12.5, 10.0, 90.0, seed)


def invented_spell(draw: random.Random, name: str, move: int) -> Spell:
    order = 0 if move == 0 else 2 if move == MOVES - 1 else 1
    return Spell(
        trainee=name,
        line=f"{name} {move}",
        move=f"move {move}",
        rung="",
        strap=draw.choice(STRAPS if move else STRAPS[:3]),
        sets=draw.choice((2, 3, 3)),
        set_s=draw.choice((20.0, 30.0, 40.0)),
        rest_s=draw.choice((60.0, 75.0, 90.0)),
        order=order,
        spotter=draw.random() < 0.1,
    )


def compare(people: int, anchors: int, seed: int) -> None:
    ask = invented_squad(people, anchors, seed)
    plan, listed = plan_floor(ask), plan_floor(ask, effort=0.0)
    assert_rules_kept(plan)
    assert_rules_kept(listed)
    assert plan == plan_floor(ask), "the same seed gave another plan"
    ratios = [f"{goal.goal} {ratio(goal.cost, goal.baseline)}" for goal in plan.goals]
    total = ratio(sum(goal.cost for goal in plan.goals), sum(goal.baseline for goal in plan.goals))
    print(f"  seed {seed}: {', '.join(ratios)}; all goals {total}; {lengths(plan)}, {plan.solved.how}")


def ratio(ours: float, theirs: float) -> str:
    return f"{ours / theirs:.2f}" if theirs else f"{ours:g} to 0"


def lengths(plan: FloorPlan) -> str:
    above = 100.0 * (plan.length_s / plan.bound_s - 1.0)
    return f"{plan.length_s / 60.0:.1f} min, {above:.1f} % above the bound"


def main() -> None:
    print(f"{machine()}, ortools {version('ortools')}")
    for people, anchors in SQUADS:
        print(f"{people} people on {anchors} anchors, ours over the list schedule's:")
        for seed in SEEDS:
            compare(people, anchors, seed)
        ask = invented_squad(people, anchors, SEEDS[0])
        ours = timed(lambda ask=ask: plan_floor(ask), RUNS)  # type: ignore[misc]
        listed = timed(lambda ask=ask: plan_floor(ask, effort=0.0), RUNS)  # type: ignore[misc]
        print(
            f"  {ours.median_s:.1f} s ({ours.low_s:.1f}–{ours.high_s:.1f}); the list {listed.median_s:.3f} s"
        )


if __name__ == "__main__":
    main()
