"""People ready for the engine: each as one row, or as two where the sex is not stated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from leanmark.body.bodies import Bodies, joined
from leanmark.body.build import Build
from leanmark.body.scale import scale
from leanmark.body.tables import tables_for
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.interval import raised
from leanmark.moves.known import Known, com_shares


@dataclass(frozen=True)
class People:
    """P people as R rows of ``bodies``; person (R,) says whose each row is. A person whose sex is not
    stated has a row for each table, and answers span them.

    known: what scale readings told of each person, or None; their mass centres are in ``bodies``.
    com_deviation: (P,) how far each mass centre may be off [share of stature].
    """

    builds: tuple[Build, ...]
    bodies: Bodies
    person: Ints
    known: tuple[Known | None, ...]
    com_deviation: Floats

    def __len__(self) -> int:
        return len(self.builds)

    def rows(self, who: Ints) -> tuple[Ints, Ints]:
        """Rows of ``bodies`` for positions whose people are ``who`` (N,), and the position of each row."""
        first = np.searchsorted(self.person, who)
        count = np.searchsorted(self.person, who, side="right") - first
        position = np.repeat(np.arange(len(who)), count)
        within = np.arange(len(position)) - np.repeat(np.cumsum(count) - count, count)
        return first[position] + within, position


def people_of(builds: Sequence[Build], known: Sequence[Known | None] | None = None) -> People:
    """Scale every build by each table that its stated sex allows, and raise mass centres as far as scale
    readings told."""
    tables = [tables_for(build.sex) for build in builds]
    names = list(dict.fromkeys(table for row in tables for table in row))
    parts: list[Bodies] = []
    person: list[int] = []
    for table in names:
        members = [number for number, row in enumerate(tables) if table in row]
        parts.append(scale([builds[number] for number in members], table))
        person += members
    order = np.argsort(person, kind="stable")
    whose = np.array(person, dtype=np.intp)[order]
    told = tuple(known) if known else (None,) * len(builds)
    com_share, com_deviation = com_shares(told)
    bodies = raised(joined(parts).take(order), com_share[whose])
    return People(tuple(builds), bodies, whose, told, com_deviation)


def mean_by_position(values: Floats, position: Ints, count: int) -> Floats:
    """Mean of the rows of each position, (R, ...) to (count, ...)."""
    total = np.zeros((count, *values.shape[1:]))
    np.add.at(total, position, values)
    return total / np.bincount(position, minlength=count).reshape(-1, *[1] * (values.ndim - 1))
