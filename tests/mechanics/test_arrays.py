"""The engine's one constant."""

from __future__ import annotations

from leanmark.mechanics.arrays import GRAVITY_M_S2


def test_gravity_is_the_standard_value() -> None:
    # exact by definition: 3rd General Conference on Weights and Measures, 1901; BIPM, SI brochure
    assert GRAVITY_M_S2 == 9.80665
