"""The floor planner's model on job shops whose shortest length is published.

Jobs are trainees, operations are single sets in a fixed order, machines are anchors that each set is tied to;
one person at a time, one strap setting, nothing for walking, handing over or changing.
"""

from __future__ import annotations

import pytest

from leanmark.cycle.floor.form import FloorAsk, Spell
from leanmark.cycle.floor.plan import plan_floor
from leanmark.cycle.floor.weights import LENGTH_ONLY

# Fisher and Thompson 1963, in Muth and Thompson (eds), Industrial Scheduling: 6 jobs, 6 machines.
# Each row is a job: machine and duration, in order. Looked up in several copies of the instance as J. E.
# Beasley's OR-Library has it, which agree; so was its shortest length.
FT06 = """
2 1  0 3  1 6  3 7  5 3  4 6
1 8  2 5  4 10  5 10  0 10  3 4
2 5  3 4  5 8  0 9  1 1  4 7
1 5  0 5  2 5  3 3  4 8  5 9
2 9  1 3  4 5  5 4  0 3  3 1
1 3  3 3  5 9  0 10  4 4  2 1
"""
FT06_SHORTEST = 55
# Lawrence 1984, Resource constrained project scheduling (supplement), Carnegie-Mellon: instance LA01,
# 10 jobs, 5 machines. Looked up likewise, with its shortest length.
LA01 = """
1 21  0 53  4 95  3 55  2 34
0 21  3 52  4 16  2 26  1 71
3 39  4 98  1 42  2 31  0 12
1 77  0 55  4 79  2 66  3 77
0 83  3 34  2 64  1 19  4 37
1 54  2 43  4 79  0 92  3 62
3 69  4 77  1 87  2 87  0 93
2 38  0 60  1 41  3 24  4 83
3 17  1 49  4 25  0 44  2 98
4 77  3 79  2 43  1 75  0 96
"""
LA01_SHORTEST = 666


def job_shop(table: str) -> FloorAsk:
    rows = [[int(word) for word in row.split()] for row in table.strip().splitlines()]
    spells = [
        Spell(
            trainee=f"job {job}",
            line=f"operation {number}",
            move="operation",
            rung="",
            strap="one",
            sets=1,
            set_s=float(duration_s),
            rest_s=0.0,
            order=number,
            anchor=f"machine {machine}",
        )
        for job, row in enumerate(rows)
        for number, (machine, duration_s) in enumerate(zip(row[::2], row[1::2], strict=True))
    ]
    machines = tuple(f"machine {number}" for number in range(len(rows[0]) // 2))
    who = tuple(f"job {job}" for job in range(len(rows)))
    return FloorAsk(who, tuple(spells), machines, 1, 0.0, 0.0, 0.0, 60.0)


# Whole seconds in, whole seconds out: the published length is met to the second or missed.
@pytest.mark.parametrize(
    ("table", "shortest_s"), [(FT06, FT06_SHORTEST), (LA01, LA01_SHORTEST)], ids=["FT06", "LA01"]
)
def test_published_shortest_length(table: str, shortest_s: int) -> None:
    plan = plan_floor(job_shop(table), LENGTH_ONLY)
    assert plan.length_s == shortest_s
    assert plan.bound_s == shortest_s
    assert (plan.solved.how, plan.solved.exact) == ("best possible", True)
    assert plan.list_length_s > shortest_s  # else the solver would not have been needed


@pytest.mark.parametrize(
    ("table", "shortest_s"), [(FT06, FT06_SHORTEST), (LA01, LA01_SHORTEST)], ids=["FT06", "LA01"]
)
def test_the_bound_stays_the_shortest_length_where_other_goals_count(table: str, shortest_s: int) -> None:
    plan = plan_floor(job_shop(table))
    assert plan.bound_s == shortest_s
    assert plan.length_s >= shortest_s
