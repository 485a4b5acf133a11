"""How long a hold is prescribed for."""

from __future__ import annotations

from leanmark.dose.endurance import LEAST_SHARE, hold_limit_s, share_for_hold
from leanmark.dose.goals import Goal
from leanmark.dose.rules import bounds, rounded
from leanmark.errors import FieldError


def hold_share(height: float) -> float:
    """How much of the longest hold is held at a height of the load wave. Raises FieldError outside 0 to 1."""
    if not 0.0 <= height <= 1.0:
        raise FieldError("height", height, "0 to 1", "give the height of a point of a load wave")
    foot, top = bounds("share of hold limit")
    return foot + height * (top - foot)


def prescribed_hold_s(goal: Goal, height: float, share: float, joint: str) -> float:
    """The hold [s] to prescribe where a position takes ``share`` of somebody's capacity at a joint: what the
    height of the wave asks of the longest hold, in the rule's steps, kept within the goal's shortest and
    longest. A position at full capacity and above is held the goal's shortest time at most; whether it is fit
    to be held at all is the caller's to ask (``share_wanted``). Raises FieldError for a joint unknown.
    """
    held = min(max(share, LEAST_SHARE), 1.0)
    seconds = hold_share(height) * float(hold_limit_s(held, joint))
    shortest, longest = goal.hold_s
    return min(max(rounded(seconds, "hold rounding"), shortest), longest)


def share_wanted(goal: Goal, height: float, joint: str) -> float:
    """The share of capacity wanted for a hold at a height of the wave: long and light at its foot, where the
    goal's longest hold is asked for, short and hard at its top, where its shortest is. Raises FieldError
    outside 0 to 1 and for an unknown joint.
    """
    shortest, longest = goal.hold_s
    seconds = longest + height * (shortest - longest)
    return float(share_for_hold(seconds / hold_share(height), joint))
