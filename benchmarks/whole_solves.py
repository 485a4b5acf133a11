"""Whole solves (pose, forces, moments) per second, against MuJoCo's settled poses.

Run from the top folder: ``python -m benchmarks.whole_solves``.
"""

from __future__ import annotations

from functools import partial
from statistics import median

import numpy as np

from benchmarks.batches import MOVE, RUNG, Batch, batch
from benchmarks.settling import Rest, model_of, settled
from benchmarks.timing import machine, timed
from leanmark.mechanics.arrays import GRAVITY_M_S2
from leanmark.mechanics.loads import balance_of, tension_limits
from leanmark.mechanics.position import Rep
from leanmark.mechanics.reasons import FINE
from leanmark.moves.library import load_move, move_names

COUNTS = (1, 100, 1_000, 10_000)
PEER_COUNT = 8
BY_MOVE = 1_000
AIM_PER_S = 20_000
AGREE = 0.01
"""Share of body weight by which MuJoCo's strap force may leave the range that the engine allows in MuJoCo's
own settled pose: what is left of its motion at 1e-3 m/s, and the give of its contacts (about 1 mm)."""


def solve(positions: Batch) -> Rep:
    """What is timed on our side."""
    rep = positions.solved()
    rep.static_loads()
    return rep


def peer_s() -> float:
    """Median seconds in which MuJoCo settles one position, its answers checked."""
    rep = batch(PEER_COUNT).solved()
    ours_n = rep.static_loads().strap_tension_n.sum(axis=1)
    seconds, simulated_s, apart = [], [], []
    for row in range(PEER_COUNT):
        model = model_of(rep, row)
        rest = settled(model, rep, row)
        check(rep, row, rest)
        seconds.append(timed(partial(settled, model, rep, row), runs=3).median_s)
        simulated_s.append(rest.seconds)
        apart.append(abs(rest.tension_n - ours_n[row]) / (rep.bodies.body_mass_kg[row] * GRAVITY_M_S2))
    rate, milliseconds = 1.0 / median(seconds), 1e3 * median(seconds)
    print(f"MuJoCo, medians: {rate:.0f}/s, {milliseconds:.1f} ms each")
    print(f"  at rest after {median(simulated_s):.2f} s simulated")
    print(f"  strap force {100.0 * median(apart):.1f} % of body weight from ours")
    return median(seconds)


def check(rep: Rep, row: int, rest: Rest) -> None:
    """MuJoCo came to rest, and the engine allows its strap force in its settled pose."""
    assert rest.settled, f"position {row} did not come to rest"
    only = np.array([row])
    balance = balance_of(rep.bodies.take(only), rest.pose, rep.supports.take(only))
    low, high = tension_limits(balance)[0] / balance.body_weight_n[0]
    share = rest.tension_n / balance.body_weight_n[0]
    assert low - AGREE <= share <= high + AGREE, f"position {row}: {low:.3f} <= {share:.3f} <= {high:.3f}"


def by_count(settling_s: float) -> None:
    """Rates by batch size."""
    print(f"{MOVE}, {RUNG}, held at the start; aim {AIM_PER_S}/s from 1000 on")
    for count in COUNTS:
        positions = batch(count)
        assert (solve(positions).reason == FINE).all(), "every position of the batch can be taken"
        times = timed(partial(solve, positions))
        ratio = settling_s * count / times.median_s
        print(f"  {count:6d} at once: {times.rate(count)}, {ratio:6.0f} x MuJoCo")


def by_move() -> None:
    """Rates over the library, at the middle rung of each move."""
    print(f"by move, {BY_MOVE} at once, middle rung")
    for name in move_names():
        rungs = load_move(name).rungs
        positions = batch(BY_MOVE, name, rungs[(len(rungs) - 1) // 2].rung)
        taken = float((solve(positions).reason == FINE).mean())
        times = timed(partial(solve, positions), runs=3)
        print(f"  {name:28s} {times.rate(BY_MOVE)}, {100.0 * taken:.0f} % of the marks can be taken")


if __name__ == "__main__":
    print(machine())
    by_count(peer_s())
    by_move()
