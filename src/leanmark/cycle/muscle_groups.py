"""Muscle groups that weekly sets are counted for, and what a set of a move counts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from leanmark.moves.schema import Move

MUSCLE_GROUPS: Final[dict[str, tuple[str, ...]]] = {
    "chest": ("pectoralis major",),
    "upper back": (
        "latissimus dorsi", "teres major", "rhomboids", "middle trapezius", "lower trapezius",
        "posterior deltoid",
    ),
    "shoulders": ("anterior deltoid", "middle deltoid", "supraspinatus", "infraspinatus", "teres minor"),
    "elbow flexors": ("biceps brachii", "brachialis", "brachioradialis"),
    "elbow extensors": ("triceps brachii",),
    "front of thigh": ("vastus lateralis", "vastus medialis", "vastus intermedius", "rectus femoris"),
    "buttocks": ("gluteus maximus", "gluteus medius", "gluteus minimus"),
    "back of thigh": ("biceps femoris", "semitendinosus", "semimembranosus"),
    "calves": ("gastrocnemius", "soleus"),
    "front of trunk": ("rectus abdominis", "iliopsoas"),
    "sides of trunk": ("external oblique", "internal oblique", "quadratus lumborum"),
    "back of trunk": ("erector spinae", "multifidus"),
}  # fmt: skip
"""The major groups, each by muscles of ``moves.muscles.MUSCLES``; common practice, no published source."""

PRIME_HALVES: Final = 2
HELPER_HALVES: Final = 1
"""A set counts whole for prime movers and half for helpers; common practice, no published source."""


def half_sets_of(move: Move) -> Mapping[str, int]:
    """What one set of a move counts for each group that it trains, in half sets."""
    counted: dict[str, int] = {}
    for part, halves in ((move.helps, HELPER_HALVES), (move.works, PRIME_HALVES)):
        named = {muscle for muscles in part.values() for muscle in muscles}
        counted |= {group: halves for group, members in MUSCLE_GROUPS.items() if named & set(members)}
    return counted
