"""The table of the squad file that tells which cycle is wanted, and what its fields share with a trainee's
own."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Annotated, Final, Literal, get_args

from msgspec import UNSET, Meta, Struct, UnsetType

from leanmark.dose.goals import GOALS
from leanmark.dose.waves import WAVE_KINDS, WaveKind
from leanmark.squad.declared import LONGEST_NAME, above_zero, choice, number, plain, sized
from leanmark.squad.wishes import DEFAULT_GOAL, DEFAULT_LENGTH, DEFAULT_SEED, DEFAULT_TIME, DEFAULT_ZONE

DayName = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
DAY_NAMES: Final[tuple[DayName, ...]] = get_args(DayName)
"""Days of the week as the file spells them, Monday first."""
if TYPE_CHECKING:
    GoalName = str
else:
    GoalName = Literal[tuple(GOALS)]  # the table of goals is the one list of them

FIRST_DAY: Final = dt.date(1970, 1, 1)
"""Earlier starts are slips of the pen; own figure: where computers' calendars begin."""
LAST_DAY: Final = dt.date(2199, 12, 31)
"""Later starts are slips of the pen; own figure."""
MOST_WEEKS: Final = 16  # own figure: a third of a year; longer plans are several cycles
LONGEST_SESSION: Final = 180  # minutes; own figure
MOST_DAYS_OFF: Final = 366  # own figure: a year's calendar pasted whole
LONGEST_ZONE: Final = 60  # own figure: the longest IANA name has 32 characters
LARGEST_SEED: Final = 2**31 - 1
"""What the solver takes as a seed: a signed integer of 32 bits."""


def goal_words(*, default: str = "") -> Meta:
    """How a goal is declared."""
    return choice("What to train for.", "choose one of the goals", GOALS, default=default)


def days_words(whose: str, *, default: str = "") -> Meta:
    """How days of the week are declared."""
    described = f"Days of the week on which {whose}."
    remedy = 'list the days, as in ["mon", "wed", "fri"]'
    return sized(described, remedy, len(DAY_NAMES), too_long="name each day once", default=default)


def sessions_words(*, default: str) -> Meta:
    """How sessions a week are declared."""
    remedy = "give a whole number, at most one session a day"
    return number("Sessions a week, at most one a day.", remedy, 1, len(DAY_NAMES), default=default)


def minutes_words(*, default: str = "") -> Meta:
    """How the length of a session is declared."""
    described = "Longest time that a session may take, from warm-up to cool-down, in minutes."
    return above_zero(described, "say how many minutes a session may take", LONGEST_SESSION, default=default)


def days_off_words(described: str) -> Meta:
    """How days without a session are declared."""
    remedy = "list dates, as in [2026-12-24, 2026-12-25]"
    return sized(described, remedy, MOST_DAYS_OFF, least=0, default="none", too_long="leave some out")


CycleName = Annotated[
    str,
    sized("What the cycle is called on sheets.", "give it a short name", LONGEST_NAME,
          default="the squad's name"),
]  # fmt: skip
Starts = Annotated[
    dt.date,
    plain("The first day. Week 1 is the seven days from there; sessions fall on the days below.",
          "give a date without quotes, as in starts = 2026-11-30"),
]  # fmt: skip
Weeks = Annotated[
    int, number("How many weeks; four and more make a load wave.", "give whole weeks", 1, MOST_WEEKS)
]
Day = Annotated[DayName, choice("", 'write it as "mon", "tue" and so on', DAY_NAMES)]
SquadDays = Annotated[list[Day], days_words("the squad trains")]
SquadSessions = Annotated[int, sessions_words(default="one on each of the days")]
StartTime = Annotated[
    dt.time,
    plain("Local time at which sessions start.", "give hours, minutes and seconds, as in time = 18:00:00"),
]
Zone = Annotated[
    str,
    sized("IANA name of the time zone, such as Europe/Oslo; clock changes are taken into account.",
          'give a name such as "Europe/Oslo"', LONGEST_ZONE),
]  # fmt: skip
SquadMinutes = Annotated[float, minutes_words()]
SquadGoal = Annotated[GoalName, goal_words()]
Wave = Annotated[
    WaveKind,
    choice("How the wanted load moves over the weeks.", "choose one, or leave the field out", WAVE_KINDS,
           default="the goal's own"),
]  # fmt: skip
DayOff = Annotated[dt.date, plain("", "give a date without quotes, as in 2026-12-24")]
SquadDaysOff = Annotated[list[DayOff], days_off_words("Days on which nobody trains.")]
Seed = Annotated[
    int,
    number("The same file and seed give the same cycle; another seed may find another of equal worth.",
           "give a whole number", 0, LARGEST_SEED),
]  # fmt: skip


class CycleTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """The cycle that is wanted."""

    starts: Starts
    weeks: Weeks
    days: SquadDays
    name: CycleName | UnsetType = UNSET
    sessions: SquadSessions | UnsetType = UNSET
    time: StartTime = DEFAULT_TIME
    zone: Zone = DEFAULT_ZONE
    minutes: SquadMinutes = DEFAULT_LENGTH
    goal: SquadGoal = DEFAULT_GOAL
    wave: Wave | UnsetType = UNSET
    days_off: SquadDaysOff | UnsetType = UNSET
    seed: Seed = DEFAULT_SEED
