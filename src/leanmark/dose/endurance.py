"""How long a share of strength can be held, joint by joint, from a meta-analysis of holds to failure.

Frey Law L A, Avin K G. 2010. Endurance time is joint-specific: a modelling and meta-analysis investigation.
Ergonomics 53(1):109-129 (194 publications, 369 points). Time [s] = b0 share ** b1. The coefficients were read
second-hand, in public notes that quote its table 2. Holds of one joint by itself, from 10 to 100 % of its
strength, most of them above 25 %: a plank is no such hold, so the time is a bound to start from.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Floats


@dataclass(frozen=True)
class Endurance:
    """time [s] = seconds share ** exponent, for one region of the body."""

    region: str
    seconds: float
    exponent: float


_ROWS: Final[tuple[Endurance, ...]] = (  # Frey Law and Avin 2010, table 2, b0 and b1, second-hand
    Endurance("ankle", 34.71, -2.06),
    Endurance("trunk", 22.69, -2.27),
    Endurance("hand and grip", 33.55, -1.61),
    Endurance("elbow", 17.98, -2.21),
    Endurance("knee", 19.38, -1.88),
    Endurance("shoulder", 14.86, -1.83),
    Endurance("general", 21.92, -1.98),
)
ENDURANCE: Final[dict[str, Endurance]] = {row.region: row for row in _ROWS}
REGION_OF: Final[dict[str, str]] = {
    "ankle": "ankle",
    "toe_joint": "general",  # no curve of its own in the paper
    "knee": "knee",
    "hip": "general",  # likewise
    "lumbar": "trunk",
    "thoracic": "trunk",
    "trunk": "trunk",
    "neck": "trunk",  # likewise; holds of the trunk come nearest: own figure
    "shoulder": "shoulder",
    "elbow": "elbow",
    "wrist": "hand and grip",
    "forearm": "hand and grip",  # turning the forearm: likewise, own figure
}
"""Joint (or, as joint actions are named, part of the body) to the region whose curve is used."""
LEAST_SHARE: Final = 0.1
"""Below it the paper has no holds, and the curve would promise hours."""
SHARE_SLACK: Final = 1e-12
"""A share that came out of the curve goes back in, whatever its last digit was rounded to."""


def hold_limit_s(share: ArrayLike, joint: str) -> Floats:
    """The longest time [s] that a share of strength can be held, any shape.

    Raises FieldError for a share outside 0.1 to 1, and for an unknown joint.
    """
    curve = _curve_of(joint)
    given = np.asarray(share, dtype=np.float64)
    wrong = ~((given >= LEAST_SHARE - SHARE_SLACK) & (given <= 1.0 + SHARE_SLACK))
    if wrong.any():
        remedy = "outside them nothing was measured: hold easier positions by feel, harder ones not at all"
        raise FieldError("share", float(given[wrong].flat[0]), f"{LEAST_SHARE:g} to 1", remedy)
    return np.asarray(curve.seconds * given**curve.exponent)


def share_for_hold(seconds: ArrayLike, joint: str) -> Floats:
    """The share of strength that can be held for so long at the most, any shape; inverse of ``hold_limit_s``.

    Never above 1 nor below 0.1, where the curve ends: a shorter hold could be held at full strength, a longer
    one at a tenth is past what was measured. Raises FieldError for a time that is not above 0, and for an
    unknown joint.
    """
    curve = _curve_of(joint)
    given = np.asarray(seconds, dtype=np.float64)
    wrong = ~(given > 0.0)
    if wrong.any():
        raise FieldError("seconds", float(given[wrong].flat[0]), "above 0", "give the time of the hold")
    share = (given / curve.seconds) ** (1.0 / curve.exponent)
    return np.asarray(np.clip(share, LEAST_SHARE, 1.0))


def joint_of_action(action: str) -> str:
    """The joint or part of the body that a joint action names: ``knee`` of ``knee extension``. Raises
    FieldError for an action of none."""
    joint = action.partition(" ")[0]
    joint = "toe_joint" if joint == "toe" else joint
    _curve_of(joint)
    return joint


def _curve_of(joint: str) -> Endurance:
    if joint not in REGION_OF:
        raise FieldError("joint", joint, ", ".join(REGION_OF), "name the joint without its side")
    return ENDURANCE[REGION_OF[joint]]
