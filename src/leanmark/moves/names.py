"""The names and numbers that entries of a move file may hold, beyond what the schema's types say.

One table for the check of files, the JSON Schema for editors and the docs.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Final

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import ANGLES, angle_names, kind_of
from leanmark.mechanics.patches import PATCHES
from leanmark.mechanics.ranges import RANGES_DEG
from leanmark.moves.files import families
from leanmark.moves.muscles import ACTIONS, GIRDLE_ACTIONS, MUSCLES
from leanmark.moves.schema import Balance, Contact, Hold, Mark, Move, Phases, Push, Rung
from leanmark.rig.rig import standard_rig

CHECKED_ANCHOR_M: Final = 2.4
"""Anchor height that moves are checked under [m]: a door frame's or a low beam's; own figure."""
FieldOf = tuple[type, str]
"""A struct and one of its fields, as spelled in the code."""


@dataclass(frozen=True)
class Names:
    """What a name stands for, in words, and the names there are."""

    what: str
    known: Callable[[], tuple[str, ...]]


@cache
def strap_settings() -> tuple[str, ...]:
    """The named strap settings of a standard rig."""
    return tuple(standard_rig(CHECKED_ANCHOR_M).settings_m)


@cache
def paired_points() -> tuple[str, ...]:
    """Body points that there are on both sides, without the side."""
    return tuple(name.removeprefix("left_") for name in POINT_INDEX if name.startswith("left_"))


@cache
def joint_names() -> tuple[str, ...]:
    """Joints without a side, which means both, and with one."""
    return tuple(dict.fromkeys([*ANGLES, *JOINTS]))


@cache
def angles_of(joint: str) -> dict[str, tuple[float, float]]:
    """The angles of a joint, each with its lowest and highest value [deg]."""
    kind = kind_of(joint)
    rows = {angle: RANGES_DEG.get((kind, angle), (-360.0, 360.0, "")) for angle in angle_names(kind)}
    return {angle: (row[0], row[1]) for angle, row in rows.items()}


@cache
def muscles_of(action: str) -> tuple[str, ...]:
    """The muscles that do a joint action."""
    return tuple(muscle for muscle, actions in MUSCLES.items() if action in actions)


NAMES: Final[dict[FieldOf, Names]] = {
    (Move, "family"): Names("a move family", lambda: tuple(families())),
    (Move, "strap"): Names("a strap setting of a standard rig", strap_settings),
    (Rung, "strap"): Names("a strap setting of a standard rig", strap_settings),
    (Move, "firm"): Names("a joint", joint_names),
    (Rung, "firm"): Names("a joint", joint_names),
    (Contact, "patch"): Names("a contact patch", lambda: tuple(PATCHES)),
    (Contact, "under"): Names("a body point without its side", paired_points),
    (Hold, "point"): Names("a body point without its side", paired_points),
    (Hold, "in_line"): Names("a body point without its side", paired_points),
    (Push, "point"): Names("a body point", lambda: tuple(POINT_INDEX)),
    (Balance, "over"): Names("a body point", lambda: tuple(POINT_INDEX)),
}
"""Fields that hold a name, or whose entries are by name."""

ACTIONS_OF: Final[dict[FieldOf, tuple[str, ...]]] = {
    (Move, "works"): tuple(ACTIONS),
    (Move, "helps"): (*ACTIONS, *GIRDLE_ACTIONS),
}
"""Fields that list muscles by joint action."""

POSE_FIELDS: Final[frozenset[FieldOf]] = frozenset(
    [(Phases, name) for name in ("start", "key", "end")]
    + [(Rung, name) for name in ("angles", "start", "key", "end")]
)
"""Fields that hold joint angles."""

LIMITS: Final[dict[FieldOf, tuple[float, float]]] = {
    (Mark, "start_m"): (-8.0, 8.0),
    (Mark, "low_m"): (-8.0, 8.0),
    (Mark, "high_m"): (-8.0, 8.0),
    (Contact, "ahead_m"): (-4.0, 4.0),
    (Contact, "width"): (-10.0, 10.0),
    (Contact, "turned_out_deg"): (-180.0, 180.0),
    (Balance, "offset_m"): (-1.0, 1.0),
    (Move, "tempo_s"): (0.0, 20.0),
    (Rung, "tempo_s"): (0.0, 20.0),
    (Move, "loads_percent"): (0.1, 200.0),
}
"""Lowest and highest value of numbers that the schema leaves open; own figures: beyond them nobody trains."""
SHORTEST_MOVING_S: Final = 0.2
"""Least time for the lowering and for the rising part of a tempo [s]; own figure: no rep is quicker."""
MOST_ENTRIES: Final = 40
"""Most entries of a list or mapping; own figure: twice what the library needs."""
