"""Working through a list on one processor, or on several where the list is worth it."""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from functools import partial
from multiprocessing import active_children, get_context
from typing import Any, Final

Each = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]
"""Anything that maps a function over a list in order, as the built-in ``map`` does."""

WORTH_IT: Final = 40
"""Positions (people times moves) from which other processors save more than they cost to start."""
_MOST: Final = 4


@contextmanager
def processors(work: int) -> Iterator[Each]:
    """``map`` itself for little work or one processor, else a map over a pool of processes, which ends with
    the block, at once when the block fails."""
    count = min(os.cpu_count() or 1, _MOST)
    if work < WORTH_IT or count < 2:
        yield map
        return
    others = active_children()
    with ProcessPoolExecutor(count, mp_context=get_context("spawn")) as pool:
        with _deaf_to_ctrl_c():
            for _ in range(count):
                pool.submit(int)  # starts a process
        try:
            yield partial(_in_order, pool, 2 * count)
        except BaseException:
            for worker in set(active_children()).difference(others):
                worker.terminate()
            raise


def _in_order(
    pool: ProcessPoolExecutor, ahead: int, function: Callable[[Any], Any], items: Iterable[Any]
) -> Iterator[Any]:
    """Results in the order of the items, no more than ``ahead`` of them waiting."""
    waiting: deque[Future[Any]] = deque()
    for item in items:
        waiting.append(pool.submit(function, item))
        if len(waiting) > ahead:
            yield waiting.popleft().result()
    while waiting:
        yield waiting.popleft().result()


@contextmanager
def _deaf_to_ctrl_c() -> Iterator[None]:
    """Processes started meanwhile leave Ctrl-C to this one, which hears it afterwards, so that it is answered
    once; only where signals can be held back."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
