"""A word for work that takes long and cannot say how far it is."""

from __future__ import annotations

import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from leanmark.cli.late import SHOWN_AFTER_S


@contextmanager
def late_word(label: str) -> Iterator[None]:
    """Say on a terminal what is being done, where it takes long, and wipe it off at the end."""
    if not sys.stderr.isatty():
        yield
        return
    shown = threading.Event()

    def say() -> None:
        shown.set()
        print(f"{label} …", end="\r", file=sys.stderr, flush=True)

    timer = threading.Timer(SHOWN_AFTER_S, say)
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        if shown.is_set():
            print(" " * (len(label) + 2), end="\r", file=sys.stderr, flush=True)
