"""Memory of a million whole solves, taken in pieces of ten thousand of which only the answers are kept.

Run from the top folder: ``python -m benchmarks.memory``. The resident set is read first, since tracing slows
and swells what it traces.
"""

from __future__ import annotations

import resource
import sys
import tracemalloc

import numpy as np

from benchmarks.batches import Batch, batch
from benchmarks.timing import machine
from leanmark.mechanics.arrays import Floats

PIECE = 10_000
PIECES = 5
MILLION = 1_000_000
MEGABYTE = 1e6


def answers(positions: Batch) -> Floats:
    """What is kept of a piece: total strap force, friction needed and largest strength share, (N, 3)."""
    loads = positions.solved().static_loads()
    return np.stack([loads.total_tension_share, loads.friction_needed, loads.largest_share], axis=1)


def resident_mb() -> float:
    """Largest resident set so far; the unit of ru_maxrss differs between systems."""
    unit = 1.0 if sys.platform == "darwin" else 1024.0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / MEGABYTE


def run() -> None:
    """Print the growth of the resident set over several pieces, then the traced peak of one."""
    answers(batch(10))
    began = resident_mb()
    kept = []
    for _ in range(PIECES):
        kept.append(answers(batch(PIECE)))
        print(f"  after {len(kept) * PIECE} solves: {resident_mb():.0f} MB resident at most")
    held = MILLION * kept[0].nbytes / PIECE / MEGABYTE
    print(
        f"  before: {began:.0f} MB; a million in such pieces adds {held:.0f} MB of answers to the last figure"
    )
    tracemalloc.start()
    answers(batch(PIECE))
    print(f"  traced peak of one piece: {tracemalloc.get_traced_memory()[1] / MEGABYTE:.0f} MB")


if __name__ == "__main__":
    print(machine())
    run()
