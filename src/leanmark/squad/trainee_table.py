"""The table of one trainee in the squad file: the body, and what is known and wanted of the training."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Final, Literal, get_args

from msgspec import UNSET, Meta, Struct, UnsetType

from leanmark.dose.levels import LEVELS
from leanmark.moves.schema import Stage
from leanmark.squad.cycle_table import (
    Day,
    DayOff,
    GoalName,
    days_off_words,
    days_words,
    goal_words,
    minutes_words,
    sessions_words,
)
from leanmark.squad.declared import LONGEST_NAME, Name, choice, number, sized
from leanmark.squad.person_table import PersonTable

if TYPE_CHECKING:
    LevelName = str
else:
    LevelName = Literal[tuple(LEVELS)]  # the table of levels is the one list of them

MOST_NAMED: Final = 100  # own figure: more moves than anybody has a mind about
MOST_GATES: Final = 100  # own figure: more tests than the library has
LONGEST_NOTE: Final = 200  # own figure: two lines of a sheet
LONGEST_HOLD_S: Final = 600  # as long as a gate of a move file may ask
MOST_REPS: Final = 100  # as many as a gate of a move file may ask


def _named(description: str, remedy: str = "name moves of the library") -> Meta:
    return sized(description, remedy, MOST_NAMED, least=0, default="none", too_long="leave some out")


Held = Annotated[
    float,
    number("How long it was held.", "give seconds", 1, LONGEST_HOLD_S, default="reps were done"),
]
Reps = Annotated[int, number("Clean reps done.", "count them", 1, MOST_REPS, default="it was held")]
GateStage = Annotated[
    Stage, choice("The speed at which it was done.", "choose one of the three", get_args(Stage))
]


class GateTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """A test that the trainee has passed: so many seconds or so many clean reps of a rung."""

    move: Annotated[str, sized("The move of the test.", "name a move of the library", LONGEST_NAME)]
    rung: Annotated[str, sized("Its rung.", "name a rung of the move", LONGEST_NAME)]
    hold_s: Held | UnsetType = UNSET
    reps: Reps | UnsetType = UNSET
    stage: GateStage = "controlled"


class PainTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """Where the trainee told of pain."""

    place: Annotated[
        str,
        sized('A joint, with "left" or "right" in front where one side hurts, or "low back".',
              'name a joint, as in "left shoulder"', LONGEST_NAME),
    ]  # fmt: skip
    note: Annotated[str, sized("What the coach should know of it.", "correct it", LONGEST_NOTE, least=0)] = ""


Group = Annotated[
    str,
    sized("Those of one group train together.", "give the group a name", LONGEST_NAME,
          default="the squad is one group"),
]  # fmt: skip
Goal = Annotated[GoalName, goal_words(default="the squad's")]
Emphasis = Annotated[list[Name], _named("Families to train more.", "name families of the library")]
Level = Annotated[
    LevelName,
    choice("What the trainee is used to.", "choose one, or leave the field out", LEVELS, default="not known"),
]
FamilyLevel = Annotated[LevelName, choice("", "choose one of the levels", LEVELS)]
Levels = Annotated[
    dict[Name, FamilyLevel],
    sized("Levels by family, where they differ.", "write family = level", MOST_NAMED, least=0,
          default="the trainee's level", too_long="leave some out"),
]  # fmt: skip
Gates = Annotated[
    list[GateTable],
    sized("Tests passed, each in a table of its own.", "add a [[trainee.gates]] table", MOST_GATES, least=0,
          default="none", too_long="leave some out"),
]  # fmt: skip
Avoid = Annotated[
    list[Name],
    _named(
        "What to leave out: restrictions, joints, joint actions, families or moves. A word that is several "
        "of these counts as all of them.",
        "name what to leave out",
    ),
]
Pain = Annotated[
    list[PainTable],
    sized("Where it hurts, each place in a table of its own.", "add a [[trainee.pain]] table", MOST_NAMED,
          least=0, default="none", too_long="leave some out"),
]  # fmt: skip
OwnDays = Annotated[list[Day], days_words("the trainee can come", default="the squad's")]
OwnSessions = Annotated[
    int, sessions_words(default="the squad's, or one on each own day where those are fewer")
]
OwnMinutes = Annotated[float, minutes_words(default="the squad's")]
OwnDaysOff = Annotated[list[DayOff], days_off_words("Days off besides the squad's.")]


class TraineeTable(PersonTable, forbid_unknown_fields=True, kw_only=True):
    """One trainee."""

    group: Group | UnsetType = UNSET
    goal: Goal | UnsetType = UNSET
    emphasis: Emphasis | UnsetType = UNSET
    level: Level | UnsetType = UNSET
    levels: Levels | UnsetType = UNSET
    gates: Gates | UnsetType = UNSET
    avoid: Avoid | UnsetType = UNSET
    pain: Pain | UnsetType = UNSET
    likes: Annotated[list[Name], _named("Moves to take rather than others.")] | UnsetType = UNSET
    dislikes: Annotated[list[Name], _named("Moves to take only where nothing else fits.")] | UnsetType = UNSET
    must: Annotated[list[Name], _named("Moves that have to be in the cycle.")] | UnsetType = UNSET
    days: OwnDays | UnsetType = UNSET
    sessions: OwnSessions | UnsetType = UNSET
    minutes: OwnMinutes | UnsetType = UNSET
    days_off: OwnDaysOff | UnsetType = UNSET
