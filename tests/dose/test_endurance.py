"""How long a share is held: the curve's ends, its inverse, its order, every joint has one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.body.segments import JOINTS
from leanmark.dose.endurance import (
    ENDURANCE,
    LEAST_SHARE,
    REGION_OF,
    hold_limit_s,
    joint_of_action,
    share_for_hold,
)
from leanmark.errors import FieldError
from leanmark.moves.muscles import ACTIONS

EVERY_JOINT = pytest.mark.parametrize("joint", REGION_OF)


@EVERY_JOINT
@given(share=st.floats(LEAST_SHARE, 1.0))
def test_a_share_comes_back_from_its_time(joint: str, share: float) -> None:
    # Closed form and closed inverse: rounding alone.
    assert float(share_for_hold(hold_limit_s(share, joint), joint)) == pytest.approx(share, rel=1e-12)


@EVERY_JOINT
def test_harder_is_held_shorter(joint: str) -> None:
    assert (np.diff(hold_limit_s(np.linspace(LEAST_SHARE, 1.0, 50), joint)) < 0.0).all()


def test_at_full_strength_the_time_is_the_first_coefficient() -> None:
    for joint, region in REGION_OF.items():
        assert float(hold_limit_s(1.0, joint)) == ENDURANCE[region].seconds


@pytest.mark.parametrize("share", [0.0, 0.09, 1.01, np.nan])
def test_shares_that_nobody_measured_are_refused(share: float) -> None:
    with pytest.raises(FieldError, match=r"^share = .*allowed: 0.1 to 1"):
        hold_limit_s([0.5, share], "elbow")


def test_a_time_past_the_curve_is_held_to_its_ends() -> None:
    assert float(share_for_hold(1.0, "knee")) == 1.0
    assert float(share_for_hold(1e6, "knee")) == LEAST_SHARE


@pytest.mark.parametrize("seconds", [0.0, -1.0, np.nan])
def test_no_time_is_refused(seconds: float) -> None:
    with pytest.raises(FieldError, match=r"^seconds = "):
        share_for_hold(seconds, "knee")


def test_an_unknown_joint_is_named() -> None:
    with pytest.raises(FieldError, match=r"joint = 'left_knee' is not allowed.*without its side"):
        hold_limit_s(0.5, "left_knee")


def test_every_joint_of_the_body_and_every_action_has_a_curve() -> None:
    kinds = {joint.removeprefix("left_").removeprefix("right_") for joint in JOINTS} - {"root"}
    assert kinds <= set(REGION_OF)
    assert {joint_of_action(action) for action in ACTIONS} <= set(REGION_OF)


def test_an_action_of_no_joint_is_refused() -> None:
    with pytest.raises(FieldError, match="joint = 'none'"):
        joint_of_action("none")
