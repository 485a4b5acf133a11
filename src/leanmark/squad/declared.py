"""How a field of the squad file is declared: its limits, its meaning, and the words of its errors.

``Meta.extra`` carries the remedy that an error names and, where a default is derived, its wording.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Final

from msgspec import Meta

LONGEST_NAME: Final = 80  # own figure: fits a card's heading
Name = Annotated[str, Meta(min_length=1, max_length=LONGEST_NAME)]


def number(description: str, remedy: str, low: float, high: float, *, default: str = "") -> Meta:
    """A number from ``low`` to ``high``, both allowed."""
    return Meta(description=description, extra={"remedy": remedy, "default": default}, ge=low, le=high)


def above_zero(description: str, remedy: str, high: float, *, default: str = "") -> Meta:
    """A number above 0, up to ``high``."""
    return Meta(description=description, extra={"remedy": remedy, "default": default}, gt=0, le=high)


def sized(
    description: str,
    remedy: str,
    most: int,
    *,
    least: int = 1,
    default: str = "",
    too_long: str = "shorten it",
) -> Meta:
    """A text, list or table of ``least`` to ``most`` characters or entries."""
    words = {"remedy": remedy, "too_long": too_long, "default": default}
    return Meta(description=description, extra=words, min_length=least, max_length=most)


def choice(description: str, remedy: str, names: Iterable[str], *, default: str = "") -> Meta:
    """One of some names, listed in the order given."""
    words = {"remedy": remedy, "order": ", ".join(names), "default": default}
    return Meta(description=description, extra=words)


def plain(description: str, remedy: str, *, default: str = "") -> Meta:
    """A value that its type alone limits."""
    return Meta(description=description, extra={"remedy": remedy, "default": default})
