"""The same squad and seed give the same cycle, in one process or several, whoever stands first."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

import msgspec
from hypothesis import HealthCheck, Phase, given, settings
from tests.cycle.pool import LOW, cycle_wishes, person, plan_of, plans, squad_of
from tests.cycle.squads import Drawn, squads

from leanmark.cycle.build import Request, plans_of
from leanmark.cycle.form import Plan
from leanmark.each import processors
from leanmark.squad.squad import Squad
from leanmark.squad.wishes import TrainingWishes

WISHES = (
    TrainingWishes(level="trained", likes=("row",)),
    TrainingWishes(level="new", avoid=("kneeling",), minutes=40.0),
    TrainingWishes(level="strong", goal="power", sessions=2),
)


def three() -> Squad:
    """Three trainees who want one week."""
    cycle = cycle_wishes(weeks=1)
    persons = [person(wishes, cycle, body=n, name=f"t{n}") for n, wishes in enumerate(WISHES)]
    return squad_of(persons)


def in_bytes(found: Sequence[Plan]) -> bytes:
    return msgspec.json.encode(list(found))


@settings(max_examples=5, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow])
@given(squads())
def test_the_same_seed_gives_the_same_plan(drawn: Drawn) -> None:
    first, second = (plans(drawn.persons(), rig=drawn.rig, seed=5) for _ in range(2))
    assert in_bytes(first) == in_bytes(second)


def hurried(squad: Squad) -> list[Plan]:
    """Their plans, from the solving of their bodies on, with little search."""
    return plans_of(Request(squad, "uid", effort=LOW), range(len(squad.trainees)))


def test_another_process_gives_the_same_plan() -> None:
    """String hashing differs from process to process, so that no set's order can be leant on."""
    told = "from tests.cycle.test_same_seed import *; sys.stdout.buffer.write(in_bytes(hurried(three())))"
    here = {"PYTHONHASHSEED": "77", "PYTHONPATH": ":".join(sys.path), "OPENBLAS_NUM_THREADS": "1"}
    there = subprocess.run([sys.executable, "-c", told], check=True, capture_output=True, env=here).stdout
    assert there == in_bytes(hurried(three()))


def test_order_of_trainees_does_not_change_what_they_do() -> None:
    """Trainees are solved side by side, so that figures may differ in their last digits: compared to 1e-6,
    the accuracy to which poses are solved."""
    squad = three()
    turned = replace(squad, trainees=squad.trainees[::-1])
    here, there = ({plan.trainee: plan for plan in hurried(one)} for one in (squad, turned))
    assert here.keys() == there.keys()
    for name, plan in here.items():
        assert_alike(msgspec.to_builtins(plan), msgspec.to_builtins(there[name]))


def assert_alike(one: object, other: object) -> None:
    """The same but for the last digits of numbers."""
    if isinstance(one, dict) and isinstance(other, dict):
        assert one.keys() == other.keys()
        for key, value in one.items():
            assert_alike(value, other[key])
    elif isinstance(one, list | tuple) and isinstance(other, list | tuple):
        assert len(one) == len(other)
        for a, b in zip(one, other, strict=True):
            assert_alike(a, b)
    elif isinstance(one, float) and isinstance(other, float):
        assert abs(one - other) <= 1e-6 * max(1.0, abs(one))
    else:
        assert one == other


def test_several_processes_give_the_same_plans() -> None:
    squad = three()
    groups = [[0], [1, 2]]
    work = partial(plans_of, Request(squad, "uid", effort=LOW))
    with processors(100) as each:
        shared = [plan for plans in each(work, groups) for plan in plans]
    assert in_bytes(shared) == in_bytes([plan for plans in map(work, groups) for plan in plans])


def test_bounds_hold_whatever_the_seed() -> None:
    """One block: its bound is on any plan. Another seed may find another plan, none below the bound."""
    found = [plan_of(person(WISHES[0]), seed=seed, effort=0.3) for seed in (1, 2)]
    for one, other in (found, found[::-1]):
        assert one.objective >= other.bound - 1e-6
