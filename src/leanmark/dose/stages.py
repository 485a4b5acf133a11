"""Which speed stages are open, how a set's reps are shared out over them, and how fast each is done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, get_args

from leanmark.dose.goals import Goal
from leanmark.dose.levels import Level
from leanmark.dose.rules import ACSM_2009, OWN, rule, value
from leanmark.errors import FieldError
from leanmark.moves.schema import Stage

STAGES: Final[tuple[Stage, ...]] = get_args(Stage)
"""In the order in which they open."""
Tempo4 = tuple[float, float, float, float]
"""Eccentric, pause, concentric, pause [s]."""


@dataclass(frozen=True)
class StageTempo:
    """concentric_s: longest time of the concentric phase [s], None where it stays as it is."""

    concentric_s: float | None
    source: str


STAGE_TEMPO: Final[dict[Stage, StageTempo]] = {
    "controlled": StageTempo(None, "the rung's own typical tempo"),
    "fast": StageTempo(1.0, f"under 1 s counts as fast by {ACSM_2009}, from memory"),
    "ballistic": StageTempo(0.6, f"as fast as intended: in 0.4 s no strap stays taut; {OWN}"),
}


def open_stages(
    session_number: int, goal: Goal, level: Level, deload: bool, allowed: Sequence[Stage]
) -> tuple[Stage, ...]:
    """The stages of a rung that are open in a session, in the order controlled, fast, ballistic; maybe none.

    session_number: from 1 in the cycle; allowed: those of the rung. Raises FieldError for a number below 1.
    """
    if session_number < 1:
        raise FieldError("session_number", session_number, "1 or more", "count sessions from 1")
    opened = [stage for stage in STAGES if _opens(stage, session_number, goal, level, deload)]
    return tuple(stage for stage in opened if stage in allowed)


def _opens(stage: Stage, session_number: int, goal: Goal, level: Level, deload: bool) -> bool:
    if stage not in goal.stages:
        return False
    if stage == "fast":
        return level.fast and session_number > value("sessions before fast")
    if stage == "ballistic":
        return level.ballistic and not deload and session_number > value("sessions before ballistic")
    return True


def split(reps: int, stages: Sequence[Stage]) -> dict[Stage, int]:
    """The reps of a set by stage, in order; they sum to ``reps``. Stages that would get none are left out.

    Shares are those of the rule, by largest remainder, the earlier stage first. Raises FieldError without
    any stage, for a stage given twice, and below one rep.
    """
    if not stages or len(set(stages)) != len(stages):
        raise FieldError("stages", tuple(stages), "one or more, each once", "name the stages that are open")
    if reps < 1:
        raise FieldError("reps", reps, "1 or more", "prescribe at least one rep")
    ordered = [stage for stage in STAGES if stage in stages]
    parts = dict(zip(STAGES, rule("shares of stages").values, strict=True))
    whole = sum(parts[stage] for stage in ordered)
    exact = {stage: reps * parts[stage] / whole for stage in ordered}
    found = {stage: int(exact[stage]) for stage in ordered}
    behind = sorted(ordered, key=lambda stage: found[stage] - exact[stage])
    for stage in behind[: reps - sum(found.values())]:
        found[stage] += 1
    return {stage: count for stage, count in found.items() if count}


def stage_tempo_s(stage: Stage, typical_tempo_s: Tempo4) -> Tempo4:
    """The tempo of a stage, from a rung's typical one: only the concentric phase gets shorter, never
    longer."""
    down, low, up, high = typical_tempo_s
    longest = STAGE_TEMPO[stage].concentric_s
    return (down, low, up if longest is None else min(up, longest), high)
