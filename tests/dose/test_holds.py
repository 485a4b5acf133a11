"""Prescribed holds: within the goal's bounds, in steps, harder positions shorter."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.endurance import REGION_OF, hold_limit_s
from leanmark.dose.goals import GOALS, wanted_share
from leanmark.dose.holds import hold_share, prescribed_hold_s
from leanmark.dose.rules import bounds, value
from leanmark.errors import FieldError

GOAL_NAMES, JOINTS = st.sampled_from([*GOALS]), st.sampled_from([*REGION_OF])
HEIGHTS = st.floats(0.0, 1.0)


@given(name=GOAL_NAMES, joint=JOINTS, height=HEIGHTS, share=st.floats(0.0, 2.0))
def test_a_hold_keeps_to_the_goal_and_its_steps(name: str, joint: str, height: float, share: float) -> None:
    shortest, longest = GOALS[name].hold_s
    found = prescribed_hold_s(GOALS[name], height, share, joint)
    assert shortest <= found <= longest
    assert found % value("hold rounding") == 0.0


@given(name=GOAL_NAMES, joint=JOINTS, height=HEIGHTS, shares=st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_a_harder_position_is_held_no_longer(
    name: str, joint: str, height: float, shares: tuple[float, float]
) -> None:
    easy, hard = (prescribed_hold_s(GOALS[name], height, share, joint) for share in sorted(shares))
    assert hard <= easy


def test_a_hold_by_hand() -> None:
    # Half the trunk's strength: 22.69 x 0.5^-2.27 = 109 s; four fifths of it at the top: 88 s, so the goal's
    # longest, 45 s. At 0.8: 37.7 s, of which half at the foot: 18.8 s, in steps of 5 s: 20 s.
    assert prescribed_hold_s(GOALS["trunk"], 1.0, 0.5, "lumbar") == 45.0
    assert prescribed_hold_s(GOALS["trunk"], 0.0, 0.8, "lumbar") == 20.0


@given(name=GOAL_NAMES, joint=JOINTS, height=HEIGHTS)
def test_holds_at_the_wanted_load_keep_something_back(name: str, joint: str, height: float) -> None:
    """At the load wanted of reps no goal's hold is longer than the rule's share of the longest one, but where
    its shortest time is, and by the rounding."""
    share = wanted_share(GOALS[name], height)
    found = prescribed_hold_s(GOALS[name], height, share, joint)
    most = bounds("share of hold limit")[1] * float(hold_limit_s(share, joint))
    assert found <= max(most + value("hold rounding") / 2, GOALS[name].hold_s[0])
    assert found < float(hold_limit_s(share, joint))


def test_the_share_of_the_longest_hold_runs_between_the_rules_bounds() -> None:
    assert (hold_share(0.0), hold_share(1.0)) == pytest.approx(bounds("share of hold limit"))
    with pytest.raises(FieldError, match=r"^height = 1.5"):
        hold_share(1.5)
