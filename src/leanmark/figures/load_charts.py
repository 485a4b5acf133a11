"""Load curves as charts."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from leanmark.figures.axes import Axis
from leanmark.figures.chart import (
    LOAD_AXIS,
    STRENGTH_AXIS,
    Curve,
    Spell,
    load_over_mark,
    load_over_rep,
)
from leanmark.figures.chart_notes import BarredRange
from leanmark.mechanics.arrays import Bools
from leanmark.moves.curves import MarkCurve, RepCurve
from leanmark.units import UnitSystem


def mark_chart(curve: MarkCurve, units: UnitSystem, theme: str = "light", wanted: float | None = None) -> str:
    """Load over the floor mark as SVG text; the curve breaks where the position cannot be held."""
    place = np.array(curve.mark_m)
    fine = np.array([not reason for reason in curve.reason])
    curves = []
    for start, end in _runs(fine):
        part = slice(start, end)
        values = [np.array(values)[part] for values in (curve.load, curve.low, curve.high)]
        curves.append(Curve(place[part], values[0], values[1], values[2]))
    half = 0.5 * (place[1] - place[0])
    barred = []
    for start, end in _runs(~fine):
        for a, b in _same(curve.reason, start, end):
            barred.append(BarredRange(float(place[a] - half), float(place[b - 1] + half), curve.reason[a]))
    return load_over_mark(curves, barred, wanted, _axis(curve.load_is), units=units, theme=theme)


def rep_chart(curve: RepCurve, theme: str = "light") -> str:
    """Load over the time of a rep as SVG text, moving and held."""
    time = np.array(curve.time_s)
    keep = np.r_[True, np.diff(time) > 1e-9]
    lines = []
    for label, values in (("moving at tempo", curve.moving), ("held still", curve.held)):
        line = np.array(values)[keep]
        lines.append(Curve(time[keep], line, line, line, label))
    up = [t for t, phase in zip(curve.time_s, curve.phase, strict=True) if phase == "up"]
    down = [t for t, phase in zip(curve.time_s, curve.phase, strict=True) if phase == "down"]
    spells = (Spell(min(up), max(up), "up"), Spell(min(down), max(down), "down"))
    return load_over_rep(lines, spells, None, _axis(curve.load_is), theme=theme)


def _axis(load_is: str) -> Axis:
    """What a load is a share of: body weight, or a reference strength."""
    return STRENGTH_AXIS if load_is == "largest share" else LOAD_AXIS


def _runs(flags: Bools) -> list[tuple[int, int]]:
    """Start and end (exclusive) of each run of true flags."""
    steps = np.diff(np.r_[0, flags.astype(int), 0])
    return list(zip(np.flatnonzero(steps == 1).tolist(), np.flatnonzero(steps == -1).tolist(), strict=True))


def _same(reasons: list[str], start: int, end: int) -> list[tuple[int, int]]:
    """Split a run where its reason changes."""
    cuts = [k for k in range(start + 1, end) if reasons[k] != reasons[k - 1]]
    edges = [start, *cuts, end]
    return list(pairwise(edges))
