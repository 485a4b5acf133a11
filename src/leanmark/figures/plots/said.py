"""Lists in words, for keys and descriptions of charts."""

from __future__ import annotations

from collections.abc import Collection, Sequence


def listed(parts: Sequence[str]) -> str:
    """Parts as one reads them out: ``3, 4 and 5``."""
    return f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else "".join(parts)


def weeks_words(weeks: Collection[int]) -> str:
    """``week 4`` or ``weeks 4 and 8``."""
    numbers = [str(week) for week in sorted(set(weeks))]
    return f"week{'s' if len(numbers) > 1 else ''} {listed(numbers)}"
