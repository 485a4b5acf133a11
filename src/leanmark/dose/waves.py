"""Load waves: how high the wanted load stands in each session of a cycle, from 0, its foot, to 1, its top."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, get_args

from leanmark.dose.rules import rule, value
from leanmark.errors import FieldError

WaveKind = Literal["linear", "step with deload", "undulating"]
WAVE_KINDS: Final[tuple[WaveKind, ...]] = get_args(WaveKind)
WAVE_WORDS: Final[dict[WaveKind, str]] = {
    "linear": "climbs by the same step every week",
    "step with deload": "climbs for three weeks, eases in the fourth, then starts again one step higher",
    "undulating": "a heavy, a light and a medium session within each week, on a slow climb",
}


@dataclass(frozen=True)
class WavePoint:
    """One session. height: 0 to 1; deload: a planned easier session; sets_factor: its sets as a share of the
    usual."""

    height: float
    deload: bool = False
    sets_factor: float = 1.0


def wave(kind: WaveKind, weeks: int, sessions_a_week: int) -> tuple[tuple[WavePoint, ...], ...]:
    """The points of every week's sessions. No week's height rises over the week before by more than the rule
    "wave rise", so that a short cycle ends below the top.

    Raises FieldError for an unknown kind, and below one week or one session.
    """
    if kind not in WAVE_KINDS:
        raise FieldError("wave", kind, ", ".join(WAVE_KINDS), "choose one of them")
    if weeks < 1:
        raise FieldError("weeks", weeks, "1 or more", "plan at least one week")
    if sessions_a_week < 1:
        raise FieldError("sessions_a_week", sessions_a_week, "1 or more", "plan at least one session")
    if kind == "undulating":
        return tuple(_undulating_week(height, sessions_a_week) for height in _undulating_heights(weeks))
    points = _linear(weeks) if kind == "linear" else _steps(weeks)
    return tuple((point,) * sessions_a_week for point in points)


def _height(steps: int, rise: float, start: float = 0.0) -> float:
    """So many steps above the start; never above the top by a last digit."""
    return min(start + steps * rise, 1.0)


def _rise(steps: int, span: float = 1.0) -> float:
    """How much one of so many steps rises over a span, held to the rule."""
    return min(span / max(steps, 1), value("wave rise"))


def _linear(weeks: int) -> list[WavePoint]:
    rise = _rise(weeks - 1)
    return [WavePoint(_height(week, rise)) for week in range(weeks)]


def _steps(weeks: int) -> list[WavePoint]:
    """Week ``k`` of block ``b`` stands ``b + k`` steps high, and the deload at its block's foot."""
    loading = int(value("loading weeks"))
    places = [divmod(week, loading + 1) for week in range(weeks)]
    steps = [block + (0 if within == loading else within) for block, within in places]
    rise = _rise(max(steps))
    return [
        WavePoint(_height(step, rise), *((True, value("deload sets")) if within == loading else ()))
        for step, (_, within) in zip(steps, places, strict=True)
    ]


def _undulating_heights(weeks: int) -> list[float]:
    start = value("undulating start")
    rise = _rise(weeks - 1, 1.0 - start)
    return [_height(week, rise, start) for week in range(weeks)]


def _undulating_week(height: float, sessions_a_week: int) -> tuple[WavePoint, ...]:
    shares = rule("undulating heights").values
    return tuple(WavePoint(height * shares[at % len(shares)]) for at in range(sessions_a_week))
