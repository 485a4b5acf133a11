"""Times of a session as a coach reads them off a clock."""

from __future__ import annotations

from typing import Final

SECONDS_A_MINUTE: Final = 60


def clock(seconds: float) -> str:
    """Minutes and seconds since the start of the session: ``12:05``."""
    minutes, rest = divmod(round(seconds), SECONDS_A_MINUTE)
    return f"{minutes}:{rest:02d}"


def whole_minutes(seconds: float) -> str:
    """Minutes, rounded up: ``48 min``."""
    return f"{-(-round(seconds) // SECONDS_A_MINUTE)} min"
