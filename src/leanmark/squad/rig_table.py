"""The table of the squad file that tells of the rig and of the kit at hand."""

from __future__ import annotations

from typing import Annotated, Final, Literal, get_args

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

from leanmark.rig.floors import DEFAULT_FLOOR, FLOORS
from leanmark.rig.ranges import RIG_RANGES
from leanmark.rig.rig import CRADLE_OFFSET_M, HANDLE_OFFSET_M, LOOP_FRICTION, StrapMode
from leanmark.rig.settings import DEFAULT_SETTINGS, STRAP_SHORTEST_M
from leanmark.squad.declared import LONGEST_NAME, Name, choice, number, plain, sized

MOST_SETTINGS: Final = 30  # own figure: one for every mark on a strap


def _rig_number(field: str, description: str, remedy: str, *, default: str = "") -> Meta:
    allowed = RIG_RANGES[field]
    return number(description, remedy, allowed.low, allowed.high, default=default)


_MEASURE_STRAP: Final = "measure from the anchor to the strap's end, where the handle begins"
_FLOOR_NAMES: Final = ", ".join(f'"{name}"' for name in FLOORS)
_SETTING_NAMES: Final = ", ".join(f'"{row.name}"' for row in DEFAULT_SETTINGS)


RigName = Annotated[str, sized("What the rig is called on sheets.", "give it a short name", LONGEST_NAME)]
AnchorHeight = Annotated[
    float,
    _rig_number("anchor_height_m", "Floor to the point the straps hang from.", "measure it from the floor"),
]
AnchorCount = Annotated[
    int, _rig_number("anchor_count", "How many anchors of this kind there are.", "count them")
]
Straps = Annotated[
    StrapMode,
    plain(
        "Two straps of fixed length, or one that slips through a loop at the anchor.", "choose one of the two"
    ),
]
LoopFriction = Annotated[
    float,
    _rig_number("loop_friction", "Friction of the slipping loop.", "use 0.1 for webbing over a smooth ring"),
]
StrapShortest = Annotated[
    float,
    _rig_number("strap_shortest_m", "Anchor to strap end, strap fully shortened.", _MEASURE_STRAP,
                default=f"{STRAP_SHORTEST_M:g} m, or the shortest setting given"),
]  # fmt: skip
StrapLongest = Annotated[
    float,
    _rig_number("strap_longest_m", "Anchor to strap end, strap fully lengthened.", _MEASURE_STRAP,
                default="the longest that hangs clear of the floor"),
]  # fmt: skip
Setting = Annotated[float, _rig_number("settings_m", "One named strap length.", _MEASURE_STRAP)]
Settings = Annotated[
    dict[Name, Setting],
    sized("Named strap lengths, anchor to strap end, loaded.", "correct it", MOST_SETTINGS, least=0,
          too_long="leave some out", default=f"{_SETTING_NAMES}, from the anchor height"),
]  # fmt: skip
HandleOffset = Annotated[
    float,
    _rig_number("handle_offset_m", "Strap end to the middle of the grip.", "measure it, or leave it out"),
]
CradleOffset = Annotated[
    float,
    _rig_number("cradle_offset_m", "Strap end to the foot in the cradle.", "measure it, or leave it out"),
]
FloorName = Annotated[
    str,
    sized(f"{_FLOOR_NAMES}; or another name together with floor_friction.", "name the floor", LONGEST_NAME),
]
FloorFriction = Annotated[
    float,
    _rig_number("floor_friction", "Measured friction between shoe and floor.",
                "leave it out to use the floor's preset", default="the preset of the floor"),
]  # fmt: skip
RatedLoad = Annotated[
    float,
    _rig_number("rated_load_n", "The maker's rating of one anchor.",
                "copy the maker's rating, or leave it out when unknown", default="unknown"),
]  # fmt: skip
KitPiece = Literal["handles", "cradles", "single handle", "under the arms", "box", "partner"]
Piece = Annotated[KitPiece, choice("", "choose from these", get_args(KitPiece))]
KitAtHand = Annotated[
    list[Piece],
    sized("What is at hand for cycles; moves that need something else are left out of them.",
          "list what is at hand", len(get_args(KitPiece)), least=0, too_long="name each once",
          default='all but "partner"'),
]  # fmt: skip


class RigTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """The rig that the squad trains on."""

    anchor_height_m: AnchorHeight
    name: RigName = "Rig"
    anchors: AnchorCount = 1
    straps: Straps = "independent"
    loop_friction: LoopFriction = LOOP_FRICTION
    strap_shortest_m: StrapShortest | UnsetType = UNSET
    strap_longest_m: StrapLongest | UnsetType = UNSET
    settings_m: Settings = msgspec.field(default_factory=dict)
    handle_offset_m: HandleOffset = HANDLE_OFFSET_M
    cradle_offset_m: CradleOffset = CRADLE_OFFSET_M
    floor: FloorName = DEFAULT_FLOOR
    floor_friction: FloorFriction | UnsetType = UNSET
    rated_load_n: RatedLoad | UnsetType = UNSET
    kit: KitAtHand | UnsetType = UNSET
