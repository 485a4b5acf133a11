"""Gates in words: the test that opens a rung."""

from __future__ import annotations

from leanmark.moves.schema import COMMON_PRACTICE, Gate, Move


def gate_words(move: Move, gate: Gate) -> str:
    """``opens after 30 s of side plank, on the floor``; a published source follows in brackets.

    move: the one whose rung the gate opens, which a gate without a move of its own means.
    """
    asked = f"{gate.hold_s:g} s of" if gate.hold_s is not None else f"{gate.reps} clean reps of"
    stage = "" if gate.stage == "controlled" else f" at {gate.stage} speed"
    source = "" if gate.source == COMMON_PRACTICE else f" ({gate.source})"
    return f"opens after {asked} {gate.move or move.move}, {gate.rung}{stage}{source}"
