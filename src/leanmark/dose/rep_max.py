"""How many reps a load allows: relations by author between reps to failure and share of the one-rep maximum.

All are means of barbell lifts over a few people. How many reps somebody does at a given share differs widely
between people and between lifts (Nuzzo 2024, Sports Med 54:303: 952 tests of 7289 people; more reps on the
leg press than on the bench press), so a relation is where a coach starts, never a limit.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from leanmark.dose.relations import Decay, Power, Relation, RisingMaximum, StraightLine
from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats

_READ: Final = "formula read on public calculator pages that agree, not in the paper"
_ROWS: Final[tuple[Relation, ...]] = (
    Relation("Epley 1985", "w (1 + r/30)", RisingMaximum(30.0), 30.0, 30.0, _READ),
    Relation("Brzycki 1993", "36 w / (37 − r)", StraightLine(37.0, 1.0, 36.0), 36.0, 15.0, _READ),
    Relation("Lombardi 1989", "w r^0.10", Power(0.10), 30.0, 12.0, _READ),
    Relation(
        "Mayhew 1992", "100 w / (52.2 + 41.9 e^(−0.055 r))", Decay(52.2, 41.9, 0.055), 30.0, 24.0, _READ
    ),
    Relation(
        "Wathen 1994", "100 w / (48.8 + 53.8 e^(−0.075 r))", Decay(48.8, 53.8, 0.075), 30.0, 30.0, _READ
    ),
    Relation("O'Conner 1989", "w (1 + 0.025 r)", RisingMaximum(40.0), 30.0, 30.0, _READ),
    Relation(
        "Lander 1985", "100 w / (101.3 − 2.67123 r)", StraightLine(101.3, 2.67123, 100.0), 36.0, 15.0, _READ
    ),
)
RELATIONS: Final[dict[str, Relation]] = {row.author: row for row in _ROWS}
DEFAULT: Final = RELATIONS["Epley 1985"]
"""The builder's relation. Of the seven it has the plainest form, is sound over all reps that a set here may
have, and lies within a tenth of the seven's median everywhere; its one flaw, a maximum 3 % above the load
lifted once, does not touch sets of several reps."""


def share_of_max(reps: ArrayLike) -> Floats:
    """Share of the one-rep maximum at which so many reps are the most, those in reserve counted, by
    ``DEFAULT``.

    Raises FieldError for reps outside 1 to 30.
    """
    return DEFAULT.share(reps)


def reps_at(share: ArrayLike) -> Floats:
    """The most reps at a share of the one-rep maximum, by ``DEFAULT``. Raises FieldError for a share whose
    reps lie outside 1 to 30."""
    return DEFAULT.reps(share)


def share_range(reps: ArrayLike) -> tuple[Floats, Floats]:
    """Least and greatest share at so many reps over the authors, each up to its ``sound_reps``.

    Raises FieldError for reps outside 1 to 30.
    """
    given = np.asarray(reps, dtype=np.float64)
    DEFAULT.share(given)
    shares = [_sound_share(relation, given) for relation in RELATIONS.values()]
    return np.asarray(np.nanmin(shares, axis=0)), np.asarray(np.nanmax(shares, axis=0))


def _sound_share(relation: Relation, reps: Floats) -> Floats:
    sound = reps <= relation.sound_reps
    return np.where(sound, relation.share(np.minimum(reps, relation.sound_reps)), np.nan)


def _one_rep_maximum(author: str, load: ArrayLike, reps: ArrayLike) -> Floats:
    given = np.asarray(load, dtype=np.float64)
    wrong = ~(np.isfinite(given) & (given >= 0.0))
    if wrong.any():
        raise FieldError("load", float(given[wrong].flat[0]), "0 or more", "give the load that was lifted")
    return np.asarray(given / RELATIONS[author].share(reps))


def rep_max_epley(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: w (1 + r/30), Epley 1985. Raises FieldError like ``share``."""
    return _one_rep_maximum("Epley 1985", load, reps)


def rep_max_brzycki(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: 36 w / (37 - r), Brzycki 1993. Raises FieldError like ``share``,
    so at 37 reps, where the formula divides by nothing."""
    return _one_rep_maximum("Brzycki 1993", load, reps)


def rep_max_lombardi(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: w r^0.10, Lombardi 1989. Raises FieldError like ``share``."""
    return _one_rep_maximum("Lombardi 1989", load, reps)


def rep_max_mayhew(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: 100 w / (52.2 + 41.9 exp(-0.055 r)), Mayhew 1992. Raises
    FieldError like ``share``."""
    return _one_rep_maximum("Mayhew 1992", load, reps)


def rep_max_wathen(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: 100 w / (48.8 + 53.8 exp(-0.075 r)), Wathen 1994. Raises
    FieldError like ``share``."""
    return _one_rep_maximum("Wathen 1994", load, reps)


def rep_max_oconner(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: w (1 + 0.025 r), O'Conner 1989. Raises FieldError like
    ``share``."""
    return _one_rep_maximum("O'Conner 1989", load, reps)


def rep_max_lander(load: ArrayLike, reps: ArrayLike) -> Floats:
    """One-rep maximum, in the load's unit: 100 w / (101.3 - 2.67123 r), Lander 1985. Raises FieldError like
    ``share``."""
    return _one_rep_maximum("Lander 1985", load, reps)


REP_MAX: Final[dict[str, Callable[[ArrayLike, ArrayLike], Floats]]] = {
    "Epley 1985": rep_max_epley,
    "Brzycki 1993": rep_max_brzycki,
    "Lombardi 1989": rep_max_lombardi,
    "Mayhew 1992": rep_max_mayhew,
    "Wathen 1994": rep_max_wathen,
    "O'Conner 1989": rep_max_oconner,
    "Lander 1985": rep_max_lander,
}
"""By author: one-rep maximum from a load and the reps done with it to failure."""

LOAD_CHART: Final[dict[int, float]] = {
    # National Strength and Conditioning Association, training load chart, read in a public copy: 1 to 10, 12
    1: 1.00, 2: 0.95, 3: 0.93, 4: 0.90, 5: 0.87, 6: 0.85, 7: 0.83, 8: 0.80, 9: 0.77, 10: 0.75, 12: 0.70,
    11: 0.73,  # second-hand: a page that quotes the chart
    15: 0.65,  # from memory
}  # fmt: skip
"""Reps to share. A mean, never a limit: at 70 % of a squat people did 6 to 26 reps (Zourdos 2021)."""
_REPS: Final = sorted(LOAD_CHART)


def chart_share(reps: ArrayLike) -> Floats:
    """Share of the one-rep maximum by the chart, any shape; straight lines between its rows.

    Raises FieldError for reps that the chart does not reach.
    """
    given = np.asarray(reps, dtype=np.float64)
    wrong = ~((given >= _REPS[0]) & (given <= _REPS[-1]))
    if wrong.any():
        allowed = f"{_REPS[0]} to {_REPS[-1]}"
        raise FieldError("reps", float(given[wrong].flat[0]), allowed, "use a relation that reaches further")
    return np.asarray(np.interp(given, _REPS, [LOAD_CHART[row] for row in _REPS]))
