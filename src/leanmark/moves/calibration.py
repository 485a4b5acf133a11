"""Hanging-scale readings of one person, taken in a rung, turned into what is known of that person."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Bools, Floats
from leanmark.mechanics.calibrate import PRIOR, SCALE_ERROR_N, Calibration, calibrated
from leanmark.mechanics.distribution import HOLDS
from leanmark.mechanics.interval import raised
from leanmark.mechanics.loads import loads_at
from leanmark.mechanics.position import solve_rep
from leanmark.moves.stand import Stand

MOST_ERRORS: Final = 3.0
"""Scale errors by which the best fit may miss a reading; beyond, something else was wrong; own figure."""


@dataclass(frozen=True)
class Reading:
    """One scale reading: all straps together [N], held still at the start of the rep, at the mark [m]."""

    mark_m: float
    tension_n: float


@dataclass(frozen=True)
class Fit:
    """What M readings told: the posterior, the tensions predicted before and after [N], (M,) each, and the
    readings (M,) that the model cannot bring together with the others."""

    calibration: Calibration
    before_n: Floats
    after_n: Floats
    off: Bools


def calibrate_from(standing: Stand, readings: Sequence[Reading], error_n: float = SCALE_ERROR_N) -> Fit:
    """Posterior of the first person's mass centre and pressure place.

    Raises FieldError without readings, for a move without straps, and for readings at marks that cannot be
    held.
    """
    if not readings:
        raise FieldError("reading", "none", "at least one", "hang a scale and read it at a mark")
    if not standing.task.holds:
        raise FieldError(
            "move", standing.move.move, "a move on straps", "a scale has nothing to hang from here"
        )
    marks = np.array([reading.mark_m for reading in readings])
    tension = np.array([reading.tension_n for reading in readings])
    found = calibrated(lambda unknowns: predicted(standing, marks, unknowns), tension, error_n)
    before, after = predicted(standing, marks, np.stack([PRIOR.mean, found.mean]))
    return Fit(found, before, after, np.abs(after - tension) > MOST_ERRORS * error_n)


def predicted(standing: Stand, mark_m: Floats, unknowns: Floats) -> Floats:
    """Total tension [N] at M marks for Q sets of (com_share, pressure), (Q, M); NaN where not held.

    A person with a row for each table is predicted by their mean.
    """
    sets, count = len(unknowns), len(mark_m)
    rows, position = standing.people.rows(np.zeros(sets * count, dtype=np.intp))
    com_share, pressure = np.repeat(unknowns, count, axis=0)[position].T
    bodies = raised(standing.people.bodies.take(rows), com_share)
    rep = solve_rep(standing.task, bodies, standing.geometry(np.tile(mark_m, sets)[position]), np.zeros(1))
    (loads,) = loads_at(rep.balance(), pressure)
    holds = rep.solution.met & (loads.outcome == HOLDS)
    tension = np.where(holds, loads.strap_tension_n.sum(axis=1), np.nan)
    total = np.bincount(position, weights=tension) / np.bincount(position)
    return total.reshape(sets, count)
