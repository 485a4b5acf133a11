"""What is solved: invented people on an invented beam, holding the start of a move's rung at many marks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leanmark.body.build import Build
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import standard_rig

SEED = 20
PEOPLE = 64
MOVE, RUNG = "row", "leaning"
MARKS_M = 0.15
"""Marks are spread this far to both sides of the rung's own."""


@dataclass(frozen=True)
class Batch:
    """N positions: ``who`` (N,) stands at ``mark_m`` (N,)."""

    standing: Stand
    mark_m: Floats
    who: Ints

    def solved(self) -> Rep:
        """The poses. ``static_loads`` of them gives forces and moments."""
        bodies = self.standing.people.bodies.take(self.who)
        return solve_rep(self.standing.task, bodies, self.standing.geometry(self.mark_m), np.zeros(1))


def batch(count: int, move: str = MOVE, rung: str = RUNG, people: int = PEOPLE) -> Batch:
    """``count`` positions of ``people`` builds, the same for every run."""
    random = np.random.default_rng(SEED)
    standing = stand(
        load_move(move), find_rung(load_move(move), rung), standard_rig(2.45), people_of(builds(people))
    )
    own = mark_of(standing.move, standing.rung).start_m
    mark_m = own + random.uniform(-MARKS_M, MARKS_M, count)
    return Batch(standing, mark_m, np.arange(count) % people)


def builds(count: int) -> list[Build]:
    """Invented builds, women and men by turns."""
    random = np.random.default_rng(SEED)
    stature_m = random.uniform(1.55, 1.95, count)
    mass_kg = random.uniform(20.0, 27.0, count) * stature_m**2
    return [
        Build(round(float(mass), 1), round(float(stature), 2), "female" if number % 2 else "male", 24)
        for number, (mass, stature) in enumerate(zip(mass_kg, stature_m, strict=True))
    ]
