"""Judgements of the engine that no source settles, read from the code that uses them."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.mechanics.ballistic import SOFT_LANDING, TAKE_OFF
from leanmark.mechanics.calibrate import PRIOR, SCALE_ERROR_N
from leanmark.mechanics.distribution import CONE_FACETS, EVEN_SHARING
from leanmark.mechanics.dynamics import SMOOTH_SHARE
from leanmark.mechanics.interval import DEFAULT_UNCERTAINTY
from leanmark.mechanics.ranges import REPORT_SLACK_RAD
from leanmark.mechanics.reasons import CLEARANCE_M
from leanmark.moves.schema import FIRMNESS

_TAPE: Final = DEFAULT_UNCERTAINTY
OWN_FIGURES: Final[tuple[tuple[str, str, str], ...]] = (
    (
        "firmness of a joint, 1/rad²",
        ", ".join(f"{word} {weight:g}" for word, weight in FIRMNESS.items()),
        "each word ten to a hundred times the one before, so that the firmer joint keeps its angle",
    ),
    ("ε, weight of even sharing", f"{EVEN_SHARING:g}", "far below a strength share of 0.1, squared"),
    (
        "sides of the friction pyramid",
        f"{CONE_FACETS}",
        f"inside the cone, at most {100.0 * (1.0 - np.cos(np.pi / CONE_FACETS)):.1f} % low",
    ),
    ("error of a floor mark", f"±{100.0 * _TAPE.mark_m:.0f} cm", "a heel against tape"),
    ("error of a strap's length", f"±{100.0 * _TAPE.strap_m:.0f} cm", "buckle, stretch and knot under load"),
    ("error of the anchor's height", f"±{100.0 * _TAPE.anchor_m:.0f} cm", "tape up to a beam"),
    (
        "error of the mass centre",
        f"±{_TAPE.com_share:g} of stature",
        "spread of the tables' definitions ([the body](body.md#where-the-tables-miss))",
    ),
    (
        "prior of a calibration",
        f"mass centre ±{PRIOR.deviation[0]:g} of stature, pressure ±{PRIOR.deviation[1]:g}",
        "one standard deviation each; two reach the ends of the patch",
    ),
    ("error of a hanging scale", f"±{SCALE_ERROR_N:g} N", "step and drift of a luggage scale"),
    (
        "change of force from which a path counts as bent",
        f"{100.0 * SMOOTH_SHARE:g} % of body weight",
        "smooth reps of the library change by up to half of it, bent ones by several times it",
    ),
    ("path share at take-off", f"{TAKE_OFF:g}", "joints are not quite straight when the feet leave"),
    ("path share of a landing", f"{SOFT_LANDING:g}", "a landing on bent legs"),
    (
        "depth under the floor that is let pass",
        f"{1000.0 * CLEARANCE_M:.0f} mm",
        "soft tissue and mat",
    ),
    (
        "angle past a joint's range that is let pass",
        f"{np.degrees(REPORT_SLACK_RAD):.0f}°",
        "the fineness of a goniometer",
    ),
)
"""What it is, its value, and why."""
