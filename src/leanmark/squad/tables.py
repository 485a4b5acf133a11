"""The tables of a squad file, each field declared once: here the file as a whole and its cards.

The reader, the JSON schema and the field list in ``docs/squad-file.md`` all come from these declarations.
A field with an SI suffix (``stature_m``) is also accepted in the other units of ``units.py``.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal

import msgspec
from msgspec import UNSET, Struct, UnsetType

from leanmark.squad.cycle_table import CycleTable
from leanmark.squad.declared import LONGEST_NAME, Name, number, plain, sized
from leanmark.squad.rig_table import RigTable
from leanmark.squad.source import MOST_TRAINEES
from leanmark.squad.trainee_table import TraineeTable
from leanmark.units import UnitSystem

LONGEST_NOTES: Final = 2000  # own figure: a page of text
MOST_LOADS: Final = 12  # own figure: the columns that a card can hold
MOST_MOVES: Final = 300  # own figure: more than a library of moves


Load = Annotated[float, number("One wanted load.", "give a share of body weight in per cent", 1, 100)]
Loads = Annotated[
    list[Load],
    sized("Wanted strap loads, in per cent of body weight, for every move measured by strap force.",
          "give one load or more, or leave the field out", MOST_LOADS, too_long="leave some out",
          default="each move's own"),
]  # fmt: skip
Moves = Annotated[
    list[Name],
    sized("Names of moves of the library.", "name one move or more, or leave the field out", MOST_MOVES,
          too_long="leave some out", default="a first selection of the library, one page of it"),
]  # fmt: skip


class CardsTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the cards show."""

    moves: Moves | UnsetType = UNSET
    loads_percent: Loads | UnsetType = UNSET


SquadName = Annotated[str, sized("What the squad is called.", "give the squad a name", LONGEST_NAME)]
RigPart = Annotated[RigTable, plain("The rig.", "add a [rig] table with anchor_height_m")]
TraineesPart = Annotated[
    list[TraineeTable],
    sized("The trainees, each in a table of its own.",
          "add a [[trainee]] table with name, stature_m and mass_kg", MOST_TRAINEES,
          too_long="split the squad into several files"),
]  # fmt: skip
Version = Annotated[
    Literal[1], plain("The version of this file's form.", "write schema = 1, the only one so far")
]
ShownUnits = Annotated[
    UnitSystem,
    plain("Units on sheets and screens; the fields of this file name their own.", "choose one of the two"),
]
Notes = Annotated[str, sized("Free text for the coach.", "correct it", LONGEST_NOTES, least=0)]
CardsPart = Annotated[
    CardsTable, plain("What the cards show.", "write it as a table [cards]", default="as below")
]
CyclePart = Annotated[
    CycleTable, plain("The cycle that is wanted.", "write it as a table [cycle]", default="no cycle")
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
    cycle: CyclePart | UnsetType = UNSET


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
    "equipment": "kit",
    "plan": "cycle",
    "programme": "cycle",
    "start": "starts",
    "length": "weeks",
    "weekdays": "days",
    "per_week": "sessions",
    "clock": "time",
    "timezone": "zone",
    "time_zone": "zone",
    "duration": "minutes",
    "aim": "goal",
    "periodisation": "wave",
    "holidays": "days_off",
    "restrictions": "avoid",
    "injuries": "pain",
    "injury": "pain",
    "focus": "emphasis",
    "experience": "level",
    "tests": "gates",
    "favourites": "likes",
}
"""Words that people write for a field of another name; used only to suggest that name."""
