"""The number that a wanted load names, read from loads."""

from __future__ import annotations

import numpy as np
import pytest
from tests.mechanics.leaning import held_by, leaning_pose
from tests.mechanics.scenes import people

from leanmark.mechanics.arrays import GRAVITY_M_S2
from leanmark.mechanics.loads import statics
from leanmark.mechanics.measure import measured, peak_over_rep

BODY_WEIGHT_N = float(people().body_mass_kg[0] * GRAVITY_M_S2)


def test_straps_are_all_tension_over_body_weight() -> None:
    loads = statics(people(), leaning_pose(-0.6), held_by())
    share = measured(loads, held_by(), "straps")
    assert share[0] == pytest.approx(loads.strap_tension_n.sum() / BODY_WEIGHT_N, rel=1e-12)


@pytest.mark.parametrize("kind", ["palm", "hand"])
def test_hands_are_what_palms_and_hands_carry_upwards_and_no_other_patch(kind: str) -> None:
    supports = held_by(
        patches=(("sole", "left"), ("sole", "right"), (kind, "left"), (kind, "right")), straps=()
    )
    loads = statics(people(), leaning_pose(-0.6), supports)
    on_hands = [k for k, contact in enumerate(supports.contacts) if kind in contact.patch]
    expected = loads.contact_force_n[0, on_hands, 2].sum() / BODY_WEIGHT_N
    assert len(on_hands) == (4 if kind == "palm" else 2)
    assert measured(loads, supports, "hands")[0] == pytest.approx(expected, rel=1e-12)


def test_the_largest_share_is_of_any_joint_but_the_free_root() -> None:
    loads = statics(people(), leaning_pose(-0.6), held_by())
    expected = np.abs(loads.strength_share[0, 1:]).max()
    assert measured(loads, held_by(), "largest share")[0] == expected > 0.0


def test_the_peak_is_of_each_rep_alone() -> None:
    values = np.array([0.1, 0.5, 0.2, 0.9, 0.3, 0.4])
    assert peak_over_rep(values, 3).tolist() == [0.5, 0.9]
    assert peak_over_rep(values, 1).tolist() == values.tolist()
