"""Ctrl-C that reaches us as the cause of another error."""

from __future__ import annotations


def came_of_ctrl_c(error: BaseException | None) -> bool:
    """Whether Ctrl-C is the error or stands behind it: amid an import the interpreter may pass it on as the
    cause of an error of its own."""
    while error is not None:
        if isinstance(error, KeyboardInterrupt):
            return True
        error = error.__cause__
    return False
