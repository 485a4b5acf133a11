"""What a coach tells the cycle builder: of the cycle as a whole, and of each trainee.

Names of goals, levels, waves, moves and families are plain text here, as the squad file spells them.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from leanmark.moves.schema import Stage

DEFAULT_GOAL: Final = "general strength"
DEFAULT_LENGTH: Final[float] = 60
"""Length of a session where none is given [min]; own figure: an hour in the hall."""
DEFAULT_SEED: Final = 1
DEFAULT_TIME: Final = dt.time(18, 0)
"""When sessions start where no time is given; own figure: after work and school."""
DEFAULT_ZONE: Final = "UTC"
DEFAULT_KIT: Final = frozenset({"handles", "cradles", "single handle", "under the arms", "box"})
"""What is taken to be at hand where the file does not say: all but a partner, which takes a second trainee's
time."""
LOW_BACK: Final = "low back"
"""What people call the trunk where it hurts."""
SIDES: Final = ("left", "right")


@dataclass(frozen=True)
class CycleWishes:
    """The cycle that is wanted of the whole squad.

    Attributes:
        name: what the cycle is called.
        starts: its first day; week 1 is the seven days from there.
        weeks: how many.
        days: days of the week on which the squad trains, 0 = Monday, ascending.
        sessions: sessions a week, at most one a day.
        time: local time at which sessions start.
        zone: IANA name of the time zone.
        minutes: how long a session may take [min], above 0.
        goal: what to train for.
        wave: load wave; None means the goal's own.
        days_off: days without a session.
        seed: of the builder; the same seed gives the same plan.
    """

    name: str
    starts: dt.date
    weeks: int
    days: tuple[int, ...]
    sessions: int
    time: dt.time = DEFAULT_TIME
    zone: str = DEFAULT_ZONE
    minutes: float = DEFAULT_LENGTH
    goal: str = DEFAULT_GOAL
    wave: str | None = None
    days_off: frozenset[dt.date] = frozenset()
    seed: int = DEFAULT_SEED


@dataclass(frozen=True)
class GatePassed:
    """A test that a trainee has passed: a hold of ``hold_s`` seconds, or ``reps`` clean reps, on a rung of a
    move at a speed stage. One of the two is None."""

    move: str
    rung: str
    hold_s: float | None = None
    reps: int | None = None
    stage: Stage = "controlled"


@dataclass(frozen=True)
class PainNote:
    """Where a trainee told of pain, and the coach's note of it. It bars work there and diagnoses nothing.

    place: a joint, with its side in front where one side hurts (``left shoulder``), or ``low back``.
    """

    place: str
    note: str = ""

    @property
    def side(self) -> str | None:
        """The side that hurts; None where none is named."""
        first = self.place.partition(" ")[0]
        return first if first in SIDES else None

    @property
    def joint(self) -> str:
        """The joint word without its side, as ``moves.find.joint_words`` has it; ``trunk`` for the low
        back."""
        word = self.place.partition(" ")[2] if self.side else self.place
        return "trunk" if word == LOW_BACK else word


@dataclass(frozen=True)
class TrainingWishes:
    """What is known and wanted of one trainee; empty where nothing was said.

    Attributes:
        group: those who train at the same anchors at the same time, by name.
        goal, days, minutes, sessions: as of ``CycleWishes``. Read from a file with a cycle they are the
            trainee's own or else the squad's; None only in a file without one.
        emphasis: families to train more.
        level: what the trainee is used to; None means that nobody said.
        levels: family to level, where it differs from ``level``.
        gates: tests passed.
        avoid: names of restrictions, joints, joint actions, families or moves to leave out.
        pain: where it hurts.
        likes, dislikes: moves to take rather, or rather not.
        must: moves that have to be in.
        days_off: days without a session: the trainee's own together with the squad's.
    """

    group: str = ""
    goal: str | None = None
    emphasis: tuple[str, ...] = ()
    level: str | None = None
    levels: Mapping[str, str] = field(default_factory=dict)
    gates: tuple[GatePassed, ...] = ()
    avoid: tuple[str, ...] = ()
    pain: tuple[PainNote, ...] = ()
    likes: tuple[str, ...] = ()
    dislikes: tuple[str, ...] = ()
    must: tuple[str, ...] = ()
    days: tuple[int, ...] | None = None
    minutes: float | None = None
    sessions: int | None = None
    days_off: frozenset[dt.date] = frozenset()
