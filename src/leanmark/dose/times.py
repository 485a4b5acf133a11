"""How long a set and a session take."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, Protocol

from leanmark.dose.rules import bounds, value
from leanmark.moves.report_form import Range

SECONDS_A_MINUTE: Final = 60.0  # BIPM, The International System of Units, 9th ed. 2019, table 8


class Timed(Protocol):
    """What is done at one speed stage of a set: reps at a tempo [s], or one hold [s]."""

    @property
    def tempo_s(self) -> tuple[float, float, float, float]:
        """Eccentric, pause, concentric, pause."""

    @property
    def reps(self) -> int:
        """0 for a hold."""

    @property
    def hold_s(self) -> float:
        """0 for reps."""


def under_load_s(parts: Iterable[Timed], each_side: bool = False) -> float:
    """Time under load of a set [s]: reps at their tempo and holds; both sides where ``each_side``."""
    one_side = sum(part.reps * sum(part.tempo_s) + part.hold_s for part in parts)
    return 2.0 * one_side if each_side else one_side


def set_time_s(parts: Iterable[Timed], each_side: bool) -> float:
    """A set's own time [s]: its time under load, and the change of sides where ``each_side``."""
    return under_load_s(parts, each_side) + (value("side change") if each_side else 0.0)


def session_minutes(
    lines: Iterable[tuple[float, int, float]],
    strap_changes: int,
    walks: int,
    *,
    warm_up: bool = True,
    cool_down: bool = True,
) -> Range:
    """How long a session takes [min], from lines of (one set's own time [s], sets, rest after each [s]).

    The rest after the last set of all is not taken. Low and high: everything quick, everything slow, by the
    rules' bounds; the value: sets and rests as written, all else in the middle.
    """
    rows = list(lines)
    work_s = sum(set_s * sets for set_s, sets, _ in rows)
    rest_s = sum(rest * sets for _, sets, rest in rows) - (rows[-1][2] if rows and rows[-1][1] else 0.0)
    quick, slow = (_minutes(work_s, rest_s, strap_changes, walks, warm_up, cool_down, end) for end in (0, 1))
    around = _around_s(strap_changes, walks, warm_up, cool_down)
    written = (work_s + rest_s + (around[0] + around[1]) / 2.0) / SECONDS_A_MINUTE
    return Range(written, quick, slow)


def _minutes(
    work_s: float, rest_s: float, strap_changes: int, walks: int, warm_up: bool, cool_down: bool, end: int
) -> float:
    moved = work_s * bounds("time per rep")[end] + rest_s * bounds("rest kept")[end]
    return (moved + _around_s(strap_changes, walks, warm_up, cool_down)[end]) / SECONDS_A_MINUTE


def _around_s(strap_changes: int, walks: int, warm_up: bool, cool_down: bool) -> tuple[float, float]:
    """Quick and slow time [s] of what is neither set nor rest."""
    times = [
        (bounds("strap change"), strap_changes),
        (bounds("walk"), walks),
        (bounds("warm-up"), SECONDS_A_MINUTE * warm_up),
        (bounds("cool-down"), SECONDS_A_MINUTE * cool_down),
    ]
    quick, slow = (sum(both[end] * count for both, count in times) for end in (0, 1))
    return quick, slow
