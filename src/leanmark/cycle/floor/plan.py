"""The floor plan of a group session."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from leanmark.cycle.floor.bound import least_length
from leanmark.cycle.floor.check import check_ask
from leanmark.cycle.floor.clock import SECONDS_A_MINUTE, clock
from leanmark.cycle.floor.fit import misfit_notes
from leanmark.cycle.floor.form import FLOOR, FloorAsk, FloorPlan, Pair, Turn
from leanmark.cycle.floor.pairs import coach_twice, pairs_of
from leanmark.cycle.floor.score import amounts, anchor_uses, length_s, stints_at, waits_of
from leanmark.cycle.floor.search import Found, search
from leanmark.cycle.floor.simulate import Played
from leanmark.cycle.floor.solve import MOST_INTERVALS, intervals
from leanmark.cycle.floor.tasks import NOWHERE, Floor, floor_of
from leanmark.cycle.floor.weights import GoalName, usual_weights
from leanmark.cycle.form import GoalScore

HOPELESS_EFFORT: Final = 0.2
"""How much of the effort goes into a squad that no plan can fit into its minutes; own figure: it has to
change first."""


def plan_floor(
    ask: FloorAsk, weights: Mapping[GoalName, int] | None = None, effort: float = 1.0
) -> FloorPlan:
    """Who is where when: the cheapest session found, played set by set, never longer than the list schedule.

    weights: cost of a unit of each goal, those of ``weights.WEIGHTS`` where not given. effort: how long to
    search, 1 for a few seconds, 0 for the list schedule alone. The same ask gives the same plan.

    Raises:
        FieldError: the ask cannot be planned; see ``check.check_ask``.
    """
    check_ask(ask)
    floor = floor_of(ask)
    weighed = usual_weights() if weights is None else weights
    hopeless = least_length(floor).length_s > ask.minutes * SECONDS_A_MINUTE
    found = search(floor, weighed, effort * (HOPELESS_EFFORT if hopeless else 1.0))
    pairs = pairs_of(floor, found.turns)
    took_s = length_s(found.turns)
    fits = took_s <= ask.minutes * SECONDS_A_MINUTE
    return FloorPlan(
        ask=ask,
        turns=tuple(_turn(floor, turn) for turn in found.turns),
        stints=tuple(stint for anchor in floor.anchors for stint in stints_at(floor, found.turns, anchor)),
        waits=tuple(waits_of(floor, found.turns)),
        anchors=tuple(anchor_uses(floor, found.turns)),
        pairs=tuple(pairs),
        length_s=float(took_s),
        bound_s=float(found.bound.length_s),
        list_length_s=float(length_s(found.list_turns)),
        goals=_goals(floor, found, weighed),
        solved=found.solved,
        fits=fits,
        notes=tuple(_notes(floor, found, pairs, fits)),
    )


def _turn(floor: Floor, turn: Played) -> Turn:
    spell = floor.ask.spells[turn.task]
    anchor = FLOOR if turn.place == NOWHERE else floor.ask.anchors[turn.place]
    start_s, end_s = float(turn.start_s), float(turn.end_s)
    return Turn(spell.trainee, spell.line, spell.move, turn.number, anchor, spell.strap, start_s, end_s)


def _goals(floor: Floor, found: Found, weights: Mapping[GoalName, int]) -> tuple[GoalScore, ...]:
    listed = amounts(floor, found.list_turns)
    return tuple(
        GoalScore(
            goal,
            float(amount),
            weights[goal],
            float(weights[goal] * amount),
            float(weights[goal] * listed[goal]),
        )
        for goal, amount in amounts(floor, found.turns).items()
    )


def _notes(floor: Floor, found: Found, pairs: Sequence[Pair], fits: bool) -> list[str]:
    notes = [] if fits else misfit_notes(floor.ask, length_s(found.turns), found.bound)
    idle = [name for name, tasks in zip(floor.ask.who, floor.of_person, strict=True) if not tasks]
    if idle:
        notes.append(f"Nothing to do in this session: {', '.join(idle)}.")
    used = {turn.place for turn in found.turns}
    unused = [name for anchor, name in enumerate(floor.ask.anchors) if anchor not in used]
    if unused:
        notes.append(f"Not needed: {', '.join(unused)}.")
    if intervals(floor) > MOST_INTERVALS:
        notes.append(
            "The squad is too large for the solver: this is the list schedule, always who can start soonest."
        )
    return notes + _spotting_notes(floor, found, pairs)


def _spotting_notes(floor: Floor, found: Found, pairs: Sequence[Pair]) -> list[str]:
    clashes = coach_twice(floor, found.turns, pairs)
    if not clashes:
        return []
    one, other = clashes[0]
    names = [floor.ask.spells[turn.task].trainee for turn in (one, other)]
    return [
        f"The coach would have to spot {names[0]} and {names[1]} at the same time at {clock(other.start_s)}"
        + (f", and so {len(clashes)} times in all" if len(clashes) > 1 else "")
        + ": nobody else is free. Have a helper stand by, or let one of them do an easier rung."
    ]
