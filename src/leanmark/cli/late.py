"""A progress bar for work that is mostly too short for one."""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

import typer

SHOWN_AFTER_S: Final = 2.0
"""Own figure: who waits longer wants to know how long."""
_PARTS: Final = 1000


class LateStream(io.StringIO):
    """Passes on to the terminal what is written ``after_s`` seconds after the start or later."""

    def __init__(self, after_s: float = SHOWN_AFTER_S) -> None:
        super().__init__()
        self._from_s = time.monotonic() + after_s

    def isatty(self) -> bool:
        """Whether anybody looks."""
        return sys.stderr.isatty()

    def write(self, text: str) -> int:
        """Pass text on, or drop it while it is early."""
        if time.monotonic() >= self._from_s:
            sys.stderr.write(text)
            sys.stderr.flush()
        return len(text)


@contextmanager
def late_bar(label: str) -> Iterator[Callable[[float], None]]:
    """A bar to be told the share of work done; seen only on a terminal, and if the work takes long."""
    with typer.progressbar(length=_PARTS, label=label, file=LateStream()) as bar:
        yield lambda share: bar.update(int(_PARTS * share) - bar.pos)
