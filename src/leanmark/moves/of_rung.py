"""What holds for a rung: its own entry, or the move's where it has none."""

from __future__ import annotations

from leanmark.moves.schema import Fault, Move, Rung, Stage


def cues_of(move: Move, rung: Rung) -> tuple[str, ...]:
    """What to say on this rung."""
    return rung.cues or move.cues


def faults_of(move: Move, rung: Rung) -> tuple[Fault, ...]:
    """What goes wrong on this rung, each with its remedy."""
    return rung.faults or move.faults


def cautions_of(move: Move, rung: Rung) -> tuple[str, ...]:
    """The move's caution, and the rung's own in addition."""
    return (move.caution, rung.caution) if rung.caution else (move.caution,)


def stages_of(move: Move, rung: Rung) -> tuple[Stage, ...]:
    """The speed stages that this rung allows."""
    return rung.stages or move.stages


def tempo_s_of(move: Move, rung: Rung) -> tuple[float, float, float, float]:
    """Typical tempo of this rung, eccentric-pause-concentric-pause [s]."""
    return rung.tempo_s or move.tempo_s


def lever_of(move: Move, rung: Rung) -> str:
    """How the limbs lie on this rung."""
    return rung.lever or move.lever


def is_hold(move: Move, rung: Rung) -> bool:
    """Whether this rung is held instead of repeated."""
    return (rung.phases or move.phases).end is None
