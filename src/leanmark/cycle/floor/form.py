"""What is asked of a floor plan and what it holds. Times are seconds from the start of the session.

A *spell* is one move of one trainee with all its sets and rests; a *turn* is one of its sets; a *stint* is
the time that an anchor's strap stays at one setting. An empty anchor name means the floor, away from the
straps.
"""

from __future__ import annotations

from typing import Final, Literal

from msgspec import Struct

from leanmark.cycle.form import GoalScore

COACH: Final = "coach"
"""Who spots when no trainee is free."""
FLOOR: Final = ""
"""The anchor of a move that needs none."""

SpottedFrom = Literal["same anchor", "near", "coach"]
SolvedHow = Literal["best possible", "good", "list schedule"]


class Spell(Struct, forbid_unknown_fields=True, frozen=True):
    """One move of one trainee with all its sets.

    trainee: by name; line: uid of the session's line, unique for the trainee. strap: setting by name, empty
    for a move that needs no anchor. sets, set_s, rest_s: as in ``cycle.form.Line``; the rest follows each
    set. order: class of order, low first: all of a trainee's spells of a class come before those of the
    next, within a class the plan is free. spotter: somebody stands by. anchor: the only anchor it may be
    done at, by name.
    """

    trainee: str
    line: str
    move: str
    rung: str
    strap: str
    sets: int
    set_s: float
    rest_s: float
    order: int = 0
    spotter: bool = False
    anchor: str | None = None


class FloorAsk(Struct, forbid_unknown_fields=True, frozen=True):
    """A group session to be planned.

    who: the trainees by name; spells: all they do; anchors: by name. people_per_anchor: how many may share an
    anchor in turns. change_s: to set a strap anew; walk_s: from one place to another; swap_s: from one
    person's set to the next person's on the same strap. minutes: how long the session may take. seed: of
    the solver.
    """

    who: tuple[str, ...]
    spells: tuple[Spell, ...]
    anchors: tuple[str, ...]
    people_per_anchor: int
    change_s: float
    walk_s: float
    swap_s: float
    minutes: float
    seed: int = 0


class Turn(Struct, forbid_unknown_fields=True, frozen=True):
    """One set: whose, of which spell, where, on which setting and when. number: of the set, from 1."""

    trainee: str
    line: str
    move: str
    number: int
    anchor: str
    strap: str
    start_s: float
    end_s: float


class Stint(Struct, forbid_unknown_fields=True, frozen=True):
    """One setting of one anchor's strap. change_from_s: when the strap begins to be set, equal to start_s for
    the first stint, whose strap is set before the session; start_s, end_s: first to last turn on it."""

    anchor: str
    strap: str
    change_from_s: float
    start_s: float
    end_s: float


class Wait(Struct, forbid_unknown_fields=True, frozen=True):
    """One trainee's time: first_s and last_s, when the first turn starts and the last one ends; wait_s, how
    long they stand idle up to then beyond prescribed rests and walks; walks: how often they go to another
    place."""

    trainee: str
    first_s: float
    last_s: float
    wait_s: float
    walks: int


class AnchorUse(Struct, forbid_unknown_fields=True, frozen=True):
    """One anchor: how often its strap is set anew in the session, how long somebody is on it, how many
    trainees use it, how many at most share it at a time."""

    anchor: str
    strap_changes: int
    busy_s: float
    trainees: int
    most_at_once: int


class Pair(Struct, forbid_unknown_fields=True, frozen=True):
    """Who spots whom through all sets of one spell. comes_from: where the spotter is found; ``coach`` where
    no trainee is free in all of its sets."""

    trainee: str
    line: str
    spotter: str
    comes_from: SpottedFrom


class Solved(Struct, forbid_unknown_fields=True, frozen=True):
    """What the solver says of its model, in which those who share a strap overlap by their shares of time.

    how: ``best possible`` where it proved that no order costs less in the model, of those no longer than the
    list schedule; ``good`` where it bettered the list schedule; ``list schedule`` where it did not, or was
    not asked. length_s, length_bound_s: of the session in the model, and the least that could be proven;
    cost, cost_bound: of all goals likewise. exact: the model is the floor itself, so that its least length
    binds every plan. The plan shown may be better than the solver's: it is bettered by trial too.
    """

    how: SolvedHow
    length_s: float
    length_bound_s: float
    cost: float
    cost_bound: float
    exact: bool


class FloorPlan(Struct, forbid_unknown_fields=True, frozen=True):
    """The session, set by set.

    ask: what was asked. turns: every set, by start; stints: by anchor, then start; waits: in the order of
    ``ask.who``; anchors: in the order of ``ask.anchors``. length_s: start of the first to end of the last
    set; bound_s: no plan is shorter; list_length_s: of the list schedule. goals: what each costs, with
    that plan as baseline. fits: within ``ask.minutes``. notes: what the coach must know, in plain words.
    """

    ask: FloorAsk
    turns: tuple[Turn, ...]
    stints: tuple[Stint, ...]
    waits: tuple[Wait, ...]
    anchors: tuple[AnchorUse, ...]
    pairs: tuple[Pair, ...]
    length_s: float
    bound_s: float
    list_length_s: float
    goals: tuple[GoalScore, ...]
    solved: Solved
    fits: bool
    notes: tuple[str, ...] = ()
