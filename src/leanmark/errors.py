"""The one error that says which field is wrong, what was given, what is allowed and what to do."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

_SHOWN_CHARACTERS: Final = 40  # own figure: enough to recognise a value


class FieldError(ValueError):
    """A value outside what a field allows.

    Attributes:
        field: the field's name as it is spelled in the code, with its unit suffix, e.g. ``stature_m``.
        value: the value given.
        allowed: what is allowed, to read after "allowed:", e.g. ``1.0–2.5``.
        remedy: what to do about it, as an order, e.g. ``give the stature in metres``.
    """

    def __init__(self, field: str, value: object, allowed: str, remedy: str) -> None:
        self.field = field
        self.value = value
        self.allowed = allowed
        self.remedy = remedy
        super().__init__(field, value, allowed, remedy)

    def __str__(self) -> str:
        given = shown_value(self.value)
        return f"{self.field} = {given} is not allowed (allowed: {self.allowed}); {self.remedy}"


def shown_value(value: object) -> str:
    """A value as a person writes it: text in quotes, numbers without needless digits, lists with commas."""
    if isinstance(value, str):
        return f"'{one_line(value)}'"
    if isinstance(value, float):
        return f"{value:.6g}"
    if isinstance(value, Collection):
        return one_line(", ".join(shown_value(item) for item in value)) or "nothing"
    return one_line(str(value))


def one_line(text: str, longest: int = _SHOWN_CHARACTERS) -> str:
    """The text cut to ``longest`` characters, with everything that does not print written as an escape."""
    cut = text if len(text) <= longest else text[: longest - 1] + "…"
    return "".join(char if char.isprintable() else f"\\u{ord(char):04X}" for char in cut)
