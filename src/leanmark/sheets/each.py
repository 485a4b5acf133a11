"""Working through a list on one processor, or on several where the list is worth it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import Any, Final

Each = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]
"""Anything that maps a function over a list in order, as the built-in ``map`` does."""

WORTH_IT: Final = 40
"""Positions (people times moves) from which other processors save more than they cost to start."""
_MOST: Final = 4


@contextmanager
def processors(jobs: int) -> Iterator[Each]:
    """``map`` itself for few jobs or one processor, else a pool's map; the pool ends with the block."""
    count = min(os.cpu_count() or 1, _MOST)
    if jobs < WORTH_IT or count < 2:
        yield map
        return
    with ProcessPoolExecutor(count, mp_context=get_context("spawn")) as pool:
        yield pool.map
