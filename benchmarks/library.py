"""The move library: reading and checking it, and the loads of 200 rungs for nine people at 25 phases.

The peer is the same engine asked rung by rung instead of side by side: what solving alike rungs in one batch
is worth. Both give the same loads (``tests/moves/test_side_by_side.py``).
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from typing import Final

from benchmarks.timing import Times, machine, timed
from leanmark.moves.check.files import check_files
from leanmark.moves.check.shared import shared_paths
from leanmark.moves.files import library_paths
from leanmark.moves.ladder.demand import solved, solved_together
from leanmark.moves.ladder.panel import crossed_people
from leanmark.moves.library import load_move, move_names
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move, Rung
from leanmark.rig.rig import standard_rig

RUNGS: Final = 200
PHASES: Final = 25
RUNS: Final = 3
AIM_S: Final = {"read and check": 1.5, "loads": 1.0}


def some_rungs() -> list[tuple[Move, Rung]]:
    """The first rungs of the library that move, in alphabetical order."""
    moves = [load_move(name) for name in move_names()]
    every = [(move, rung) for move in moves for rung in move.rungs]
    return [(m, r) for m, r in every if (r.phases or m.phases).end is not None][:RUNGS]


def read_and_check() -> None:
    """The whole library from its files, every check."""
    report = check_files([*shared_paths(), *library_paths()], rungs_of, lambda _: None)
    assert not report.problems, report.problems


def rungs_of(name: str) -> tuple[str, ...]:
    return tuple(rung.rung for rung in load_move(name).rungs)


def main() -> None:
    print(machine())
    women = people_of(crossed_people().builds[:9])
    rig, rungs = standard_rig(2.4), some_rungs()
    whole = timed(read_and_check, RUNS)
    show("read and check", whole)
    together = timed(lambda: solved_together(rungs, women, rig, PHASES), RUNS)
    show(f"loads of {len(rungs)} rungs x {len(women)} people x {PHASES} phases", together, AIM_S["loads"])
    apart = timed(lambda: [solved(m, r, women, rig, PHASES) for m, r in rungs], RUNS)
    show("the same, rung by rung", apart)
    print(f"side by side: {apart.median_s / together.median_s:.2f} times as fast")
    poses = len(rungs) * len(women) * PHASES
    print(f"{poses} whole solves, {together.rate(poses)}")


def show(what: str, times: Times, aim_s: float | None = None) -> None:
    aim = aim_s if aim_s is not None else AIM_S.get(what)
    beside = f", aim {aim:g} s" if aim else ""
    print(f"{what}: {times.median_s:.2f} s ({times.low_s:.2f} to {times.high_s:.2f}){beside}")


if __name__ == "__main__":
    main()
