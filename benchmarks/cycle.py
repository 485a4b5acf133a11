"""Cycles of training: how long they take to build, how far the plan may be from the best, and each soft goal
against the plan that is made greedily.

The peer is the greedy plan: frame by frame the move that lowers the cost most, while it fits. It answers the
same question with the same rules, and is where the solver starts. Every plan that is timed is checked against
every hard rule by the tests' own checker.
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from statistics import median
from typing import Final

from tests.cycle.rules_kept import broken

from benchmarks.timing import machine
from leanmark.body.build import Build
from leanmark.cycle.build import build, persons_of
from leanmark.cycle.form import Cycle
from leanmark.each import processors
from leanmark.squad.read import read_squad
from leanmark.squad.squad import Squad

DEMO: Final = Path("demo/squad.toml")
RUNS: Final = 3
ONE: Final = 3
"""The trainee who is built alone: trained, three sessions a week of an hour for eight weeks."""
THIRTY: Final = 3
"""How often the demo squad's ten come, each time of another mass and stature."""
AIM_S: Final = {"one trainee": 2.0, "thirty": 30.0}


def one_of(squad: Squad) -> Squad:
    """The one trainee alone."""
    return replace(squad, trainees=squad.trainees[ONE : ONE + 1])


def thirty_of(squad: Squad) -> Squad:
    """Thirty trainees of different build, with the wishes of the demo squad."""
    trainees = [
        replace(one, name=f"{one.name} {turn}", build=_other(one.build, turn), known=None)
        for turn in range(THIRTY)
        for one in squad.trainees
    ]
    return replace(squad, trainees=tuple(trainees))


def _other(build_of: Build, turn: int) -> Build:
    """A little heavier and taller at each turn."""
    factor = 1.0 + 0.02 * turn
    return replace(build_of, mass_kg=build_of.mass_kg * factor, stature_m=build_of.stature_m * factor)


def check(squad: Squad, cycle: Cycle) -> None:
    """Every hard rule, by the tests' checker."""
    persons = persons_of(squad, range(len(squad.trainees)))
    for person, plan in zip(persons, cycle.plans, strict=True):
        found = broken(person, plan, squad.rig)
        assert not found, f"{plan.trainee}: {found}"


def timed(work: Callable[[], Cycle]) -> tuple[Cycle, list[float]]:
    """The cycle, and seconds by the clock on the wall, since processors share the work."""
    seconds = []
    for _ in range(RUNS):
        began = time.perf_counter()
        cycle = work()
        seconds.append(time.perf_counter() - began)
    return cycle, sorted(seconds)


def show_time(what: str, seconds: Sequence[float]) -> None:
    """The median, the spread and the aim."""
    spread = f"({seconds[0]:.2f} to {seconds[-1]:.2f})"
    print(f"{what}: {median(seconds):.2f} s {spread}, aim {AIM_S[what]:g} s")


def show_worth(cycle: Cycle) -> None:
    """Means over the trainees: the cost and its bound, and each soft goal beside the greedy plan's."""
    plans = cycle.plans
    ours = sum(plan.objective for plan in plans) / len(plans)
    least = sum(plan.bound for plan in plans) / len(plans)
    print(f"  cost {ours:.0f}, the best at least {least:.0f}: at most {_per_cent(ours, least)} above it")
    names = [goal.goal for goal in plans[0].goals]
    rows = [(name, *_costs(cycle, name)) for name in names]
    rows.append(("all goals", sum(row[1] for row in rows), sum(row[2] for row in rows)))
    for name, cost, baseline in rows:
        ratio = f"{cost / baseline:.2f}" if baseline else "1.00" if not cost else "–"
        print(f"  {name:22s} {cost:8.1f}  greedy {baseline:8.1f}  ratio {ratio}")


def _costs(cycle: Cycle, name: str) -> tuple[float, float]:
    rows = [goal for plan in cycle.plans for goal in plan.goals if goal.goal == name]
    return sum(row.cost for row in rows) / len(rows), sum(row.baseline for row in rows) / len(rows)


def _per_cent(cost: float, bound: float) -> str:
    return f"{100.0 * (cost / bound - 1.0):.0f} %" if bound > 0.0 else "an unknown share"


def main() -> None:
    print(f"{machine().replace('; one core, one thread', '')}, ortools {version('ortools')}")
    squad = read_squad(DEMO)
    alone = one_of(squad)
    build(alone)  # reads the move library, which is not timed
    cycle, seconds = timed(lambda: build(alone))
    check(alone, cycle)
    show_time("one trainee", seconds)
    show_worth(cycle)
    crowd = thirty_of(squad)
    with processors(len(crowd.trainees) * 100) as each:
        cycle, seconds = timed(lambda: build(crowd, each=each))
    check(crowd, cycle)
    show_time("thirty", seconds)
    show_worth(cycle)


if __name__ == "__main__":
    main()
