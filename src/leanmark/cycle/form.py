"""What a built cycle holds. The structs are its JSON, and its published schema comes from them."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from msgspec import Meta, Struct, field

from leanmark.moves.report_form import Range
from leanmark.moves.schema import Stage

CYCLE_FORM = 1
"""Version of the JSON form."""
Tempo4 = tuple[float, float, float, float]
"""Eccentric, pause, concentric, pause [s]."""


class Part(Struct, forbid_unknown_fields=True, frozen=True):
    """What is done at one speed stage of a set, in order: reps at a tempo, or one hold. rung: where the stage
    has a rung of its own on the ladder it is named here, else it is the line's."""

    stage: Stage
    rung: str
    tempo_s: Tempo4
    reps: int = 0
    hold_s: float = 0.0


class Step(Struct, forbid_unknown_fields=True, frozen=True):
    """The next easier or harder place: a rung and a floor mark [m], and its demand, a share of reference
    strength."""

    rung: str
    mark_m: float
    demand: float


class Line(Struct, forbid_unknown_fields=True, frozen=True):
    """One move of a session: every set of it is alike.

    uid: stable name of the line within the cycle. move, rung, family: of the library. strap: setting by
    name, empty where no strap is used; strap_m: its length, anchor to strap end, 0 where none. mark_of,
    mark_m: which contact is how far from the plumb point; tolerance_m: how far off the mark keeps the load
    within 2 % of body weight, or of reference strength. each_side: each set is done on one side, then on the
    other; parts are then of one side, times, work and impulse of a set of both together. load: what
    ``load_is`` says (a key of ``moves.report_form.LOAD_WORDS``), a share, with interval; strap_n: force of
    all straps [N]; demand: largest joint moment, share of reference strength; capacity: what the trainee is
    taken to manage once, same share; action: the joint action that takes it. reps_in_reserve: effort;
    rest_s: after each set. set_s: one set's own time, both sides where each_side. under_load_s, work_j,
    impulse_ns: of one set, from the engine: time under load, work against gravity, impulse of the straps.
    easier, harder: the next marks. spotter: somebody stands by. pinned: the coach fixed it. why: the rules
    that led to the dose, in order."""

    uid: str
    move: str
    rung: str
    family: str
    strap: str
    strap_m: float
    mark_of: str
    mark_m: float
    tolerance_m: float
    each_side: bool
    sets: int
    parts: tuple[Part, ...]
    reps_in_reserve: float
    rest_s: float
    set_s: float
    load_is: str
    load: Range
    strap_n: Range
    demand: float
    capacity: float
    action: str
    under_load_s: float
    work_j: float
    impulse_ns: float
    easier: Step | None = None
    harder: Step | None = None
    spotter: bool = False
    pinned: bool = False
    why: tuple[str, ...] = ()


class Session(Struct, forbid_unknown_fields=True, frozen=True):
    """One session of one trainee. number: from 1 in the cycle; week: from 1; starts: local time with its
    offset. minutes: how long it takes. wave: 0 to 1, how high the load wave stands; wanted: the load wanted
    there, a share of capacity; deload: a planned easier session. stages: the speed stages that are open.
    strap_changes: how often the strap is set anew."""

    uid: str
    number: int
    week: int
    starts: dt.datetime
    minutes: Range
    wave: float
    wanted: float
    deload: bool
    stages: tuple[Stage, ...]
    strap_changes: int
    lines: tuple[Line, ...]


class LeftOut(Struct, forbid_unknown_fields=True, frozen=True):
    """A move that the trainee does not do, and every reason; chosen: nothing bars it, the plan is better
    without."""

    move: str
    reasons: tuple[str, ...]
    chosen: bool = False


class GoalScore(Struct, forbid_unknown_fields=True, frozen=True):
    """One soft goal: how far the plan misses it, the weight of a unit, and what that costs; baseline: the
    cost of the plan made greedily."""

    goal: str
    amount: float
    weight: int
    cost: float
    baseline: float


class Plan(Struct, forbid_unknown_fields=True, frozen=True):
    """The sessions of one trainee. objective, bound: what all soft goals cost, and what they cost at least;
    notes: what the coach must know (wishes that could not be met, pain that bars moves)."""

    trainee: str
    sessions: tuple[Session, ...]
    left_out: tuple[LeftOut, ...]
    goals: tuple[GoalScore, ...]
    objective: float
    bound: float
    notes: tuple[str, ...] = ()


class Pin(Struct, forbid_unknown_fields=True, frozen=True):
    """One edit by hand, kept with the cycle. session: number, 0 for all of the trainee's. what: ``keep`` the
    move there, ``drop`` it, ``swap`` it for ``other``, or ``dose`` it with the sets, reps or mark given."""

    trainee: str
    session: int
    what: Literal["keep", "drop", "swap", "dose"]
    move: str
    other: str = ""
    sets: Annotated[int, Meta(ge=0, le=10)] = 0
    reps: Annotated[int, Meta(ge=0, le=60)] = 0
    mark_m: float | None = None


class Cycle(Struct, forbid_unknown_fields=True, frozen=True):
    """A built cycle. uid: stable; revision: rises with each edit. squad_text: the squad file that it was
    built from, as written, so that it can be built again; pins: edits by hand, in order."""

    uid: str
    name: str
    squad: str
    squad_text: str
    zone: str
    starts: dt.date
    weeks: int
    seed: int
    plans: tuple[Plan, ...]
    pins: tuple[Pin, ...] = ()
    revision: int = 0
    form: int = field(default=CYCLE_FORM)
