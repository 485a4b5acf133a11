"""The way to a value inside a squad file, and how that way is named to a person."""

from __future__ import annotations

from leanmark.errors import one_line

ValuePath = tuple[str | int, ...]
"""Keys and list positions, as in ``("trainee", 2, "stature_m")``."""


def field_name(path: ValuePath) -> str:
    """A value's name inside its top-level table: ``lengths_cm.thigh``, ``loads_percent entry 2``."""
    inside = path[2:] if len(path) > 1 and isinstance(path[1], int) else path[1:]
    words = [
        f" entry {part + 1}" if isinstance(part, int) else f".{one_line(part)}" for part in inside or path
    ]
    return "".join(words).lstrip(".")


def header(path: ValuePath) -> str:
    """The header that a table needs: ``[trainee.lengths_m]``, and ``[[trainee]]`` for an entry of a list."""
    name = ".".join(one_line(part) for part in path if isinstance(part, str))
    return f"[[{name}]]" if isinstance(path[-1], int) else f"[{name}]"
