"""The model's value of every published figure of ``published.py``, by its key, and the verdict on each."""

from __future__ import annotations

from functools import cache
from typing import Final

import numpy as np
from tests.outside import lean_row, level_press, push_up_levels
from tests.outside.published import MISSES, PUSH_UPS, ROW_SERIES, ROWS, STANDING, STRAP_PRESS, Published

from leanmark.body.build import Build
from leanmark.body.points import POINT_INDEX
from leanmark.body.scale import scale
from leanmark.body.tables import TABLES
from leanmark.mechanics.angles import joint_rotations
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.motions import mass_centre

FIGURES: Final[dict[str, Published]] = {
    **PUSH_UPS,
    **STRAP_PRESS,
    **{f"row at {lean_deg:g}": figure for lean_deg, figure in ROWS.items()},
    "row series": ROW_SERIES,
    **{f"standing, {sex}": figure for sex, figure in STANDING.items()},
}


@cache
def answers() -> dict[str, float]:
    """The model's value of every figure."""
    rows = {lean_deg: lean_row.mean_share(lean_deg) for lean_deg in ROWS}
    return {
        **push_up_levels.answers(),
        "straps, body level, elbows bent": level_press.strap_share(straight=False),
        "straps, body level, arms straight": level_press.strap_share(straight=True),
        **{f"row at {lean_deg:g}": share for lean_deg, share in rows.items()},
        "row series": series_miss(rows),
        **{f"standing, {sex}": standing_height(f"de_leva_{sex}") for sex in STANDING},
    }


def series_miss(shares: dict[float, float]) -> float:
    """Root mean square of model less measured over the rows [% of body weight]."""
    return float(np.sqrt(np.mean([(share - ROWS[lean].measured) ** 2 for lean, share in shares.items()])))


def standing_height(table: str) -> float:
    """Height of a standing person's mass centre over the soles, share of stature."""
    bodies = scale([Build(*push_up_levels.MEAN[table])], TABLES[table])
    placement = place(bodies, Pose(np.zeros((1, 3)), joint_rotations({})))
    sole_m = placement.point_m(bodies, np.array([POINT_INDEX["left_heel"]]))[0, 0, 2]
    return float((mass_centre(bodies, placement)[0, 2] - sole_m) / bodies.stature_m[0])


def difference(key: str) -> float:
    """Model less measured."""
    return answers()[key] - FIGURES[key].measured


def verdict(key: str) -> str:
    """Whether the figure lies inside its band, is a known miss, or is only shown."""
    band = FIGURES[key].band
    if band is None:
        return "not judged"
    if band[0] <= difference(key) <= band[1]:
        return "inside"
    return "known miss" if key in MISSES else "miss"
