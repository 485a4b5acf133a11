"""Endurance times against what the abstract of their source says.

Frey Law and Avin 2010, Ergonomics 53(1):109, abstract: overall the ankle tires least, then trunk, hand and
grip, elbow and knee, and the shoulder most.
"""

from __future__ import annotations

import pytest

from leanmark.dose.endurance import hold_limit_s

LEAST_TIRING_FIRST = ("ankle", "trunk", "wrist", "elbow", "knee", "shoulder")


@pytest.mark.parametrize("share", [0.4, 0.5])
def test_frey_law_2010_order_of_joints(share: float) -> None:
    # The order is of the curves overall; by the coefficients those of trunk and grip cross at 55 %, those of
    # elbow and grip at 35 %, so all six can be looked for between these alone.
    times_s = [float(hold_limit_s(share, joint)) for joint in LEAST_TIRING_FIRST]
    assert times_s == sorted(times_s, reverse=True)


@pytest.mark.parametrize("share", [0.25, 0.5, 0.75, 1.0])
def test_frey_law_2010_ankle_tires_least_and_shoulder_most(share: float) -> None:
    # From 25 % on, where most of the data are.
    times_s = {joint: float(hold_limit_s(share, joint)) for joint in LEAST_TIRING_FIRST}
    assert max(times_s, key=lambda joint: times_s[joint]) == "ankle"
    assert min(times_s, key=lambda joint: times_s[joint]) == "shoulder"


def test_frey_law_2010_table_2_worked_out_at_half_strength() -> None:
    # b0 0.5^b1 by hand from table 2 as quoted second-hand; coefficients of two decimals, so 0.4 % at most.
    by_hand_s = {
        "ankle": 144.7, "trunk": 109.4, "wrist": 102.4, "elbow": 83.2, "knee": 71.3, "shoulder": 52.8,
        "hip": 86.5,
    }  # fmt: skip
    for joint, time_s in by_hand_s.items():
        assert float(hold_limit_s(0.5, joint)) == pytest.approx(time_s, rel=4e-3)
