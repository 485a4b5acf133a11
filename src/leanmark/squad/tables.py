"""The tables of a squad file, each field declared once.

The reader, the JSON schema and the field list in ``docs/squad-file.md`` all come from these declarations.
A field with an SI suffix (``stature_m``) is also accepted in the other units of ``units.py``.
``Meta.extra`` carries the remedy that an error names and, where a default is derived, its wording.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

from leanmark.body.build import AGE_RANGE_YEARS, LENGTH_SHARES, MASS_RANGE_KG, STATURE_RANGE_M, Sex
from leanmark.moves.known import KNOWN_RANGES
from leanmark.rig.floors import DEFAULT_FLOOR, FLOORS
from leanmark.rig.ranges import RIG_RANGES
from leanmark.rig.rig import CRADLE_OFFSET_M, HANDLE_OFFSET_M, LOOP_FRICTION, StrapMode
from leanmark.rig.settings import DEFAULT_SETTINGS, STRAP_SHORTEST_M
from leanmark.squad.source import MOST_TRAINEES
from leanmark.units import UnitSystem

LONGEST_NAME: Final = 80  # own figure: fits a card's heading
LONGEST_NOTES: Final = 2000  # own figure: a page of text
MOST_LOADS: Final = 12  # own figure: the columns that a card can hold
MOST_MOVES: Final = 300  # own figure: more than a library of moves
MOST_SETTINGS: Final = 30  # own figure: one for every mark on a strap


def _number(description: str, remedy: str, low: float, high: float, *, default: str = "") -> Meta:
    return Meta(description=description, extra={"remedy": remedy, "default": default}, ge=low, le=high)


def _sized(
    description: str,
    remedy: str,
    most: int,
    *,
    least: int = 1,
    default: str = "",
    too_long: str = "shorten it",
) -> Meta:
    words = {"remedy": remedy, "too_long": too_long, "default": default}
    return Meta(description=description, extra=words, min_length=least, max_length=most)


def _plain(description: str, remedy: str, *, default: str = "") -> Meta:
    return Meta(description=description, extra={"remedy": remedy, "default": default})


def _rig_number(field: str, description: str, remedy: str, *, default: str = "") -> Meta:
    allowed = RIG_RANGES[field]
    return _number(description, remedy, allowed.low, allowed.high, default=default)


_MEASURE_STRAP: Final = "measure from the anchor to the strap's end, where the handle begins"
_FLOOR_NAMES: Final = ", ".join(f'"{name}"' for name in FLOORS)
_SETTING_NAMES: Final = ", ".join(f'"{row.name}"' for row in DEFAULT_SETTINGS)


Name = Annotated[str, Meta(min_length=1, max_length=LONGEST_NAME)]
RigName = Annotated[str, _sized("What the rig is called on sheets.", "give it a short name", LONGEST_NAME)]
AnchorHeight = Annotated[
    float,
    _rig_number("anchor_height_m", "Floor to the point the straps hang from.", "measure it from the floor"),
]
AnchorCount = Annotated[
    int, _rig_number("anchor_count", "How many anchors of this kind there are.", "count them")
]
Straps = Annotated[
    StrapMode,
    _plain(
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
    _sized("Named strap lengths, anchor to strap end, loaded.", "correct it", MOST_SETTINGS, least=0,
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
    _sized(f"{_FLOOR_NAMES}; or another name together with floor_friction.", "name the floor", LONGEST_NAME),
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


Load = Annotated[float, _number("One wanted load.", "give a share of body weight in per cent", 1, 100)]
Loads = Annotated[
    list[Load],
    _sized("Wanted strap loads, in per cent of body weight, for every move measured by strap force.",
           "give one load or more, or leave the field out", MOST_LOADS, too_long="leave some out",
           default="each move's own"),
]  # fmt: skip
Moves = Annotated[
    list[Name],
    _sized("Names of moves of the library.", "name one move or more, or leave the field out", MOST_MOVES,
           too_long="leave some out", default="a first selection of the library, one page of it"),
]  # fmt: skip


class CardsTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the cards show."""

    moves: Moves | UnsetType = UNSET
    loads_percent: Loads | UnsetType = UNSET


def _length(segment: str) -> Meta:
    low_share, high_share, tape = LENGTH_SHARES[segment]
    low_m, high_m = low_share * STATURE_RANGE_M[0], high_share * STATURE_RANGE_M[1]
    return _number(f"{tape.capitalize()}.", "measure it again, or leave it out", low_m, high_m,
                   default="from stature")  # fmt: skip


class LengthsTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """Measured segment lengths; both sides alike. Each must also fit the stature."""

    upper_arm: Annotated[float, _length("upper_arm")] | UnsetType = UNSET
    forearm: Annotated[float, _length("forearm")] | UnsetType = UNSET
    hand: Annotated[float, _length("hand")] | UnsetType = UNSET
    thigh: Annotated[float, _length("thigh")] | UnsetType = UNSET
    shank: Annotated[float, _length("shank")] | UnsetType = UNSET
    foot: Annotated[float, _length("foot")] | UnsetType = UNSET
    trunk: Annotated[float, _length("trunk")] | UnsetType = UNSET


TraineeName = Annotated[
    str, _sized("The name on the card; no two trainees may share one.", "give a name", LONGEST_NAME)
]
Stature = Annotated[
    float, _number("Standing height without shoes.", "give the standing height", *STATURE_RANGE_M)
]
Mass = Annotated[float, _number("Body mass in training clothes.", "give the body mass", *MASS_RANGE_KG)]
StatedSex = Annotated[
    Sex,
    _plain("Which published segment table to use.", "choose one, or leave the field out",
           default="both tables, with intervals that span them"),
]  # fmt: skip
Age = Annotated[
    float, _number("Age.", "give the age in years, or leave it out", *AGE_RANGE_YEARS, default="not stated")
]
Lengths = Annotated[
    LengthsTable, _plain("Measured segment lengths.", "write it as a table", default="from stature")
]


def _known(name: str, description: str) -> Meta:
    return _number(description, "copy what leanmark calibrate printed", *KNOWN_RANGES[name])


class CalibrationTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """What readings of a hanging scale told of one trainee, as ``leanmark calibrate`` prints it."""

    move: Annotated[
        str,
        _sized("The move in which the scale was read; the pressure is used there alone.",
               "name the move of the readings", LONGEST_NAME),
    ]  # fmt: skip
    com_share: Annotated[float, _known("com_share", "Mass centre above the table's, share of stature.")]
    com_share_deviation: Annotated[float, _known("com_share_deviation", "Its standard deviation.")]
    pressure: Annotated[
        float,
        _known("pressure", "Where the pressure sits: -1 gives the least strap force, 0 the least effort, "
               "1 the most strap force."),
    ]  # fmt: skip
    pressure_deviation: Annotated[float, _known("pressure_deviation", "Its standard deviation.")]


KnownPart = Annotated[
    CalibrationTable,
    _plain("What readings of a hanging scale told.", "paste what leanmark calibrate printed",
           default="no readings, wider intervals"),
]  # fmt: skip


class TraineeTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """One trainee."""

    name: TraineeName
    stature_m: Stature
    mass_kg: Mass
    sex: StatedSex | UnsetType = UNSET
    age_years: Age | UnsetType = UNSET
    lengths_m: Lengths = msgspec.field(default_factory=LengthsTable)
    calibration: KnownPart | UnsetType = UNSET


SquadName = Annotated[str, _sized("What the squad is called.", "give the squad a name", LONGEST_NAME)]
RigPart = Annotated[RigTable, _plain("The rig.", "add a [rig] table with anchor_height_m")]
TraineesPart = Annotated[
    list[TraineeTable],
    _sized("The trainees, each in a table of its own.",
           "add a [[trainee]] table with name, stature_m and mass_kg", MOST_TRAINEES,
           too_long="split the squad into several files"),
]  # fmt: skip
Version = Annotated[
    Literal[1], _plain("The version of this file's form.", "write schema = 1, the only one so far")
]
ShownUnits = Annotated[
    UnitSystem,
    _plain("Units on sheets and screens; the fields of this file name their own.", "choose one of the two"),
]
Notes = Annotated[str, _sized("Free text for the coach.", "correct it", LONGEST_NOTES, least=0)]
CardsPart = Annotated[
    CardsTable, _plain("What the cards show.", "write it as a table [cards]", default="as below")
]


class SquadTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """A squad file."""

    squad: SquadName
    rig: RigPart
    trainee: TraineesPart
    schema: Version = 1
    units: ShownUnits = "metric"
    notes: Notes = ""
    cards: CardsPart = msgspec.field(default_factory=CardsTable)


OTHER_WORDS: Final[dict[str, str]] = {
    "height": "stature",
    "weight": "mass",
    "age": "age_years",
    "gender": "sex",
    "trainees": "trainee",
    "athlete": "trainee",
    "group": "squad",
    "team": "squad",
    "mu": "floor_friction",
    "friction": "floor_friction",
    "rating": "rated_load",
    "loads": "loads_percent",
    "exercises": "moves",
    "settings": "settings_m",
    "lengths": "lengths_m",
    "arm": "upper_arm",
    "lower_leg": "shank",
    "upper_leg": "thigh",
}
"""Words that people write for a field of another name; used only to suggest that name."""
