"""Hanging-scale readings of one person, taken in a rung, turned into what is known of that person."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.calibrate import SCALE_ERROR_N, Calibration, at_pressure, calibrated
from leanmark.mechanics.interval import raised
from leanmark.mechanics.loads import loads_of, tension_limits
from leanmark.mechanics.position import solve_rep
from leanmark.moves.stand import Stand


@dataclass(frozen=True)
class Reading:
    """One scale reading: all straps together [N], held still at the start of the rep, heel at the mark."""

    mark_m: float
    tension_n: float


def calibrate_from(
    standing: Stand, readings: Sequence[Reading], error_n: float = SCALE_ERROR_N
) -> Calibration:
    """Posterior of the first person's mass centre and pressure place.

    Raises FieldError without readings, and for readings that the model cannot take.
    """
    if not readings:
        raise FieldError("reading", "none", "at least one", "hang a scale and read it at a mark")
    marks = np.array([reading.mark_m for reading in readings])
    tension = np.array([reading.tension_n for reading in readings])
    return calibrated(lambda unknowns: predicted(standing, marks, unknowns), tension, error_n)


def predicted(standing: Stand, mark_m: Floats, unknowns: Floats) -> Floats:
    """Total tension [N] at M marks for Q sets of (com_share, pressure), (Q, M); NaN where not held.

    A person with a row for each table is predicted by their mean.
    """
    sets, count = len(unknowns), len(mark_m)
    rows, position = standing.people.rows(np.zeros(sets * count, dtype=np.intp))
    com_share = np.repeat(unknowns[:, 0], count)[position]
    bodies = raised(standing.people.bodies.take(rows), com_share)
    rep = solve_rep(standing.task, bodies, standing.geometry(np.tile(mark_m, sets)[position]), np.zeros(1))
    balance = rep.balance()
    limits = tension_limits(balance)
    tension = loads_of(balance).strap_tension_n.sum(axis=1)
    moved = at_pressure(tension, limits[:, 0], limits[:, 1], np.repeat(unknowns[:, 1], count)[position])
    moved = np.where(rep.solution.met, moved, np.nan)
    total = np.bincount(position, weights=moved) / np.bincount(position)
    return total.reshape(sets, count)
