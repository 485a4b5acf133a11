"""Times with their spread, and the machine they were taken on.

Times are the process's own processor time: both sides work on one thread, and a machine that is shared with
others then disturbs them less than a clock on the wall would show.
"""

from __future__ import annotations

import platform
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from importlib.metadata import version

RUNS = 7
LEAST_S = 0.2
"""A run repeats its work until it has lasted this long."""


@dataclass(frozen=True)
class Times:
    """Processor seconds for one piece of work: the median over the runs, the fastest and the slowest."""

    median_s: float
    low_s: float
    high_s: float

    def rate(self, count: int) -> str:
        """``count`` pieces in that time, per second: median, and slowest to fastest."""
        middle, low, high = (count / seconds for seconds in (self.median_s, self.high_s, self.low_s))
        return f"{middle:9.0f}/s ({low:.0f}–{high:.0f})"


def timed(work: Callable[[], object], runs: int = RUNS) -> Times:
    """Time ``work``, after one turn that is not counted."""
    work()
    seconds = sorted(_run(work) for _ in range(runs))
    return Times(statistics.median(seconds), seconds[0], seconds[-1])


def _run(work: Callable[[], object]) -> float:
    turns, began = 0, time.process_time()
    while True:
        work()
        turns += 1
        spent = time.process_time() - began
        if spent >= LEAST_S:
            return spent / turns


def machine() -> str:
    """What a recorded result must name."""
    packages = ", ".join(f"{name} {version(name)}" for name in ("numpy", "daqp", "mujoco"))
    return f"{platform.machine()}, Python {platform.python_version()}, {packages}; one core, one thread"
