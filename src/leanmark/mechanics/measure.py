"""The one number that a wanted load names, read from any loads."""

from __future__ import annotations

from typing import Literal

import numpy as np

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.supports import Supports

Measure = Literal["straps", "hands", "largest share"]


def measured(loads: Loads, supports: Supports, measure: Measure) -> Floats:
    """(N,) share: of body weight carried by all straps, or by the hands on the floor or a box; or the
    largest joint moment as a share of the reference strength."""
    if measure == "straps":
        return loads.total_tension_share
    if measure == "largest share":
        return loads.largest_share
    hands = [
        i for i, contact in enumerate(supports.contacts) if contact.patch.split()[-1] in ("palm", "hand")
    ]
    share: Floats = loads.contact_force_n[:, hands, 2].sum(axis=1) / loads.body_weight_n
    return share


def peak_over_rep(values: Floats, nodes: int) -> Floats:
    """Largest of every rep's nodes, (N K,) to (N,)."""
    peak: Floats = np.max(values.reshape(-1, nodes), axis=1)
    return peak
