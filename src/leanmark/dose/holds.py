"""How long a hold is prescribed for: part of the longest hold, as the load wave asks."""

from __future__ import annotations

from leanmark.dose.endurance import LEAST_SHARE, hold_limit_s
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
    longest. The share wanted of a hold is that of reps, ``goals.wanted_share``; a position beyond capacity is
    given the goal's shortest time, and whether it is fit to be held at all is for the caller to ask.

    Raises FieldError for a height outside 0 to 1 and for an unknown joint.
    """
    held = min(max(share, LEAST_SHARE), 1.0)
    seconds = hold_share(height) * float(hold_limit_s(held, joint))
    shortest, longest = goal.hold_s
    return min(max(rounded(seconds, "hold rounding"), shortest), longest)
