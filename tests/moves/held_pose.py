"""The typical woman and man holding any pose on both soles, without a move of the library."""

from __future__ import annotations

from typing import Any

from leanmark.moves.ladder.demand import Solved, solved
from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.library import move_of
from leanmark.rig.rig import standard_rig

STANDING: dict[str, Any] = {
    "move": "stand", "family": "squat", "plane": "sagittal", "purpose": "a test", "kit": "none",
    "works": {"knee extension": ["vastus lateralis"]}, "faces": "ahead", "setup": "stand",
    "caution": "none", "not-for": ["nobody"], "stop": ["never"], "breathing": "on", "lever": "as told",
    "cues": ["one", "two"], "faults": [{"fault": "a", "remedy": "b"}, {"fault": "c", "remedy": "d"}],
    "strap": "short", "mark": {"of": "heels", "start-m": 0.0, "low-m": 0.0, "high-m": 0.0},
    "contacts": [{"patch": "sole"}],
}  # fmt: skip


def held(pose: dict[str, Any], **more: object) -> Solved:
    """The typical woman and man holding a pose on both soles."""
    raw = STANDING | {"phases": {"start": pose}, "rungs": [{"rung": "only", "note": "the pose"}]} | more
    move = move_of(raw)
    return solved(move, move.rungs[0], typical_people(), standard_rig(2.4))
