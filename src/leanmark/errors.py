"""The one error that says which field is wrong, what was given, what is allowed and what to do."""

from __future__ import annotations


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
        return f"{self.field} = {self.value!r} is not allowed (allowed: {self.allowed}); {self.remedy}"
