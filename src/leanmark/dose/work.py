"""What a rep does, from the engine: how far it lifts the body, and how long the straps pull how hard.

Forces are those of the positions held still, so speed is not in them: a quick rep peaks higher (see
``mechanics.dynamics``), but over a phase that begins and ends at rest its extra pushes cancel, as far as the
direction of the straps stays the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import ceil
from typing import Final

import numpy as np

from leanmark.dose.stages import Tempo4
from leanmark.dose.times import Timed, under_load_s
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.motions import mass_centre
from leanmark.mechanics.rep import interpolation_weights, lobatto_nodes
from leanmark.moves.ladder.demand import Solved

RISE_PLACES: Final = np.linspace(0.0, 1.0, 65)
"""Places on the way between which the mass centre's rise is summed: from 33 to 65 of them no rung of the
library changes by more than 0.3 % of its rise (regression)."""
_COURSE_POWER: Final = 5
"""Of the minimum-jerk course as a polynomial of time."""


@dataclass(frozen=True)
class RepWork:
    """One rep, or one hold, at N positions; all (N,), the mean of both segment tables where the sex is not
    stated, not-a-number where the position cannot be found.

    work_j: work against gravity of a whole rep, there and back. moving_n: mean force of all straps together
    over a moving phase; start_n, end_n: their force at the start and at the end of the path. A hold does no
    work, and its three forces are one.
    """

    work_j: Floats
    moving_n: Floats
    start_n: Floats
    end_n: Floats

    def rep_impulse_ns(self, tempo_s: Tempo4) -> Floats:
        """Impulse of the straps over one rep at a tempo, eccentric-pause-concentric-pause [s]: (N,) [N s].

        The pause after the eccentric phase is spent at the start of the path, the one after the concentric
        phase at its end.
        """
        down, low, up, high = tempo_s
        return self.moving_n * (down + up) + self.start_n * low + self.end_n * high

    def hold_impulse_ns(self, hold_s: float) -> Floats:
        """Impulse of the straps over a hold at the start of the path, (N,) [N s]."""
        return self.start_n * hold_s


@dataclass(frozen=True)
class SetWork:
    """One set: time under load [s], work against gravity [J] and impulse of the straps [N s], (N,) each, both
    sides together where it is done on each side."""

    under_load_s: float
    work_j: Floats
    impulse_ns: Floats


def rep_work(one: Solved) -> RepWork:
    """The work and the strap forces of a solved rung.

    Work against gravity. Muscles move the body; straps and floor do no work on it: a taut strap of fixed
    length pulls along itself, while its end can only move across it, and a planted contact does not move at
    all (a strap that runs through a loop passes on what it takes, but for friction; sliding contacts take no
    force; a partner's push is not counted). So the work of all muscles together is the change of the body's
    energy. Of that, ``m g`` times each rise of the whole mass centre is work against gravity; it is summed
    over the stretches that rise, on the way there and on the way back. Lowering gives nothing back. What
    muscles spend against each other, and on speed, is not in it.
    """
    weight_n = one.rep.bodies.mass_kg.sum(axis=1) * GRAVITY_M_S2
    tension_n = one.loads.strap_tension_n.sum(axis=1).reshape(-1, one.steps)
    work_j = climbed_m(one) * weight_n.reshape(-1, one.steps)[:, 0]
    moving_n = tension_n @ _mean_weights(one.steps)
    return RepWork(
        *(_by_position(one, values) for values in (work_j, moving_n, tension_n[:, 0], tension_n[:, -1]))
    )


def set_work(work: RepWork, parts: Iterable[Timed], each_side: bool) -> SetWork:
    """The figures of a set from those of a rep; ``each_side``: its parts are done on one side, then on the
    other."""
    rows = list(parts)
    sides = 2.0 if each_side else 1.0
    reps = sum(part.reps for part in rows)
    impulse_ns = np.zeros_like(work.work_j)
    for part in rows:
        impulse_ns = impulse_ns + part.reps * work.rep_impulse_ns(part.tempo_s)
        impulse_ns = impulse_ns + work.hold_impulse_ns(part.hold_s)
    return SetWork(under_load_s(rows, each_side), sides * reps * work.work_j, sides * impulse_ns)


def climbed_m(one: Solved) -> Floats:
    """Rise of the mass centre summed over the rising stretches of a whole rep, there and back, by row of the
    rep (R,) [m]; what falls on the way there rises on the way back."""
    rep = one.rep
    height_m = mass_centre(rep.bodies, place(rep.bodies, rep.solution.pose))[:, 2].reshape(-1, one.steps)
    if one.steps == 1:
        return np.zeros(len(height_m))
    steps_m: Floats = np.diff(height_m @ _rise_weights(one.steps), axis=1)
    return np.asarray(np.abs(steps_m).sum(axis=1))


@cache
def _rise_weights(steps: int) -> Floats:
    """Weights (K, C) of the poses' values at ``RISE_PLACES``."""
    nodes = lobatto_nodes(steps)
    return np.stack([interpolation_weights(nodes, float(at)) for at in RISE_PLACES], axis=1)


@cache
def _mean_weights(steps: int) -> Floats:
    """Weights (K,) that turn the poses' values into the mean over time of their polynomial on a minimum-jerk
    course. Gauss-Legendre quadrature, of as many points as makes it exact (Abramowitz and Stegun 1964,
    25.4.29, from memory)."""
    if steps == 1:
        return np.ones(1)
    degree = _COURSE_POWER * (steps - 1)
    points, shares = np.polynomial.legendre.leggauss(ceil((degree + 1) / 2))
    time = (points + 1.0) / 2.0
    course = 10.0 * time**3 - 15.0 * time**4 + 6.0 * time**5
    nodes = lobatto_nodes(steps)
    values = np.stack([interpolation_weights(nodes, float(at)) for at in course])
    mean: Floats = (shares / 2.0) @ values
    return mean


def _by_position(one: Solved, by_row: Floats) -> Floats:
    """The mean of each position's rows."""
    rows = np.bincount(one.position, minlength=one.count)
    return np.bincount(one.position, by_row, minlength=one.count) / rows
