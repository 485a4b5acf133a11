"""Edits by hand as the builder reads them: which sessions a pin is about, and what it fixes there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from leanmark.cycle.form import Pin

BySession = Mapping[int, Mapping[str, int]]
"""Session by number to moves and their sets."""


def moves_of(pin: Pin) -> set[str]:
    """The moves that a pin names."""
    return {pin.move, pin.other} - {""}


def fixed_move(pin: Pin) -> str:
    """The move that a pin fixes; empty where it only drops one."""
    return {"drop": "", "swap": pin.other}.get(pin.what, pin.move)


def is_about(pin: Pin, session: int, before: BySession | None) -> bool:
    """Whether a pin is about a session: its own; or, where it names none, each that held one of its moves
    before the edit; a move is dropped from every one."""
    if pin.session:
        return pin.session == session
    return before is None or pin.what == "drop" or bool(moves_of(pin) & set(before.get(session, ())))


def fixing(pins: Sequence[Pin], trainee: str, session: int, move: str, before: BySession | None) -> list[Pin]:
    """The pins that fix a move in a trainee's session, the latest last."""
    return [
        pin
        for pin in pins
        if pin.trainee == trainee and fixed_move(pin) == move and is_about(pin, session, before)
    ]


def fixed_sets(pins: Sequence[Pin]) -> int:
    """Sets that the latest of some pins fixes; 0 where none does."""
    return next((pin.sets for pin in reversed(pins) if pin.sets), 0)


def fixed_reps(pins: Sequence[Pin]) -> int:
    """Reps that the latest of some pins fixes; 0 where none does."""
    return next((pin.reps for pin in reversed(pins) if pin.reps), 0)


def fixed_mark_m(pins: Sequence[Pin]) -> float | None:
    """The mark that the latest of some pins fixes."""
    return next((pin.mark_m for pin in reversed(pins) if pin.mark_m is not None), None)
