"""Curves of a stand's first person: load over the floor mark, and over the time of a rep."""

from __future__ import annotations

from typing import Final

import numpy as np
from msgspec import Struct

from leanmark.mechanics.dynamics import Tempo, moving_loads
from leanmark.mechanics.measure import measured
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.rep import time_at_course
from leanmark.moves.stand import Stand, held_loads
from leanmark.moves.translate import mark_of

CURVE_MARKS: Final = 61
"""Marks on a drawn curve: a line without corners at page width."""


CURVE_NODES: Final = 25
"""Poses of a drawn rep, likewise."""


class MarkCurve(Struct):
    """Largest held load over the rep at each mark [share], its interval, and what bars the mark."""

    load_is: str
    mark_m: list[float]
    load: list[float]
    low: list[float]
    high: list[float]
    reason: list[str]


class RepCurve(Struct):
    """Load over a rep's time [share]: moving at its tempo, and held still at the same place."""

    load_is: str
    time_s: list[float]
    moving: list[float]
    held: list[float]
    phase: list[str]


def mark_curve(standing: Stand) -> MarkCurve:
    """Load over the rung's range of marks."""
    mark = mark_of(standing.move, standing.rung)
    places = np.linspace(mark.low_m, mark.high_m, CURVE_MARKS)
    held = held_loads(standing, places, np.zeros(CURVE_MARKS, dtype=np.intp))
    reasons = [REASONS[int(code)] for code in held.reason]
    return MarkCurve(
        standing.move.load,
        places.tolist(),
        held.load.tolist(),
        held.low.tolist(),
        held.high.tolist(),
        reasons,
    )


def rep_curve(standing: Stand, mark_m: float, tempo: Tempo) -> RepCurve | None:
    """Load over one rep at a mark; None where the position cannot be held through the rep."""
    rep, _ = standing.rep(np.array([mark_m]), np.zeros(1, dtype=np.intp), CURVE_NODES)
    held = rep.static_loads()
    if (rep.reasons(held) != FINE).any():
        return None
    steps = len(rep.nodes)
    moving = moving_loads(rep, tempo)
    share = [
        measured(loads, rep.supports, standing.move.load)[:steps]
        for loads in (held, moving.concentric, moving.eccentric)
    ]
    up = time_at_course(rep.nodes) * tempo.concentric_s
    down = time_at_course(1.0 - rep.nodes[::-1]) * tempo.eccentric_s
    wait = tempo.concentric_s + tempo.high_pause_s
    return RepCurve(
        standing.move.load,
        [*up.tolist(), *(wait + down).tolist()],
        [*share[1].tolist(), *share[2][::-1].tolist()],
        [*share[0].tolist(), *share[0][::-1].tolist()],
        ["up"] * steps + ["down"] * steps,
    )
