"""Why a move is in a session, or is not: the rules that led there, and what the plan would cost otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.build import persons_of
from leanmark.cycle.edit import plan_of, session_of, squad_of
from leanmark.cycle.form import Cycle, Plan
from leanmark.cycle.frames import Planned, blocks, planned
from leanmark.cycle.greedy import greedy
from leanmark.cycle.left_out import reasons_of
from leanmark.cycle.person import Person
from leanmark.cycle.score import amounts, cost
from leanmark.cycle.solve import EFFORT, solve
from leanmark.cycle.weights import CHOICE_WEIGHTS

THOROUGH: Final = 2.0 * EFFORT
"""How long the solver works at the question what else there could be; own figure."""
_SHOWN: Final = 0.05


@dataclass(frozen=True)
class Otherwise:
    """One soft goal: what it costs in the plan, and in the best plan found that does otherwise."""

    goal: str
    weight: int
    unit: str
    now: float
    otherwise: float


@dataclass(frozen=True)
class Why:
    """rules: in plain words, in the order in which they act. goals: those whose cost would change, if the
    move were not there, or were; comes, goes: moves that would come and go; cost, cost_otherwise: of all
    goals; words: what that means. No goals where rules alone decide."""

    rules: tuple[str, ...]
    goals: tuple[Otherwise, ...] = ()
    comes: tuple[str, ...] = ()
    goes: tuple[str, ...] = ()
    cost: float = 0.0
    cost_otherwise: float = 0.0
    words: str = ""


def why_move(cycle: Cycle, trainee: str, move: str, session: int = 0) -> Why:
    """Why a move is, or is not, in a trainee's session; session 0: the first that has it, or the first of
    all.

    Raises FieldError for a trainee, a session or a move that is not there.
    """
    plan = plan_of(cycle, trainee)
    squad = squad_of(cycle)
    number = next(n for n, one in enumerate(squad.trainees) if one.name == trainee)
    person = persons_of(squad, [number])[0]
    at = session or _first_with(plan, move)
    line = next((line for line in session_of(plan, at).lines if line.move == move), None)
    if line is None:
        return _why_not(cycle, person, plan, move, at)
    question, frame, sets = _question(cycle, person, plan, at)
    block, place = question.block, (frame, _number(question.block, move))
    if place in block.kept:
        return Why(("the coach fixed it by hand", *line.why))
    return _compared(line.why, block, sets, replace(block, dropped=block.dropped | {place}), cycle.seed)


def _first_with(plan: Plan, move: str) -> int:
    numbers = [s.number for s in plan.sessions if any(line.move == move for line in s.lines)]
    return min(numbers, default=min((s.number for s in plan.sessions), default=0))


def _number(block: Block, move: str) -> int:
    return next(number for number, option in enumerate(block.options) if option.move == move)


def _why_not(cycle: Cycle, person: Person, plan: Plan, move: str, session: int) -> Why:
    reasons, open_to = _reasons(person, move)
    if not open_to:
        return Why(reasons)
    question, frame, sets = _question(cycle, person, plan, session)
    block = question.block
    place = (frame, _number(block, move))
    if place in block.dropped:
        return Why(("the coach dropped it by hand, or its family is trained too near in time",))
    least = block.options[place[1]].least
    return _compared(reasons, block, sets, replace(block, kept={**block.kept, place: least}), cycle.seed)


def _reasons(person: Person, move: str) -> tuple[tuple[str, ...], bool]:
    if move in person.ladders:
        return reasons_of(person, move)
    return ("no rung of it hangs on a strap setting that the rig has",), False


def _question(cycle: Cycle, person: Person, plan: Plan, session: int) -> tuple[Planned, int, Sets]:
    """The block that holds a session, the session's frame, and the sets as planned."""
    pins = tuple(pin for pin in cycle.pins if pin.trainee == plan.trainee)
    before = {s.number: {line.move: line.sets for line in s.lines} for s in plan.sessions}
    families = {s.number: {line.family for line in s.lines} for s in plan.sessions}
    for frames in blocks(person, pins):
        numbers = [[place.day.number for place in places] for places in frames]
        if not any(session in own for own in numbers):
            continue
        first = min(min(own) for own in numbers)
        done = {number: own for number, own in families.items() if number < first}
        question = planned(person, frames, pins, before if cycle.revision else None, done)
        at = next(frame for frame, own in enumerate(numbers) if session in own)
        return question, at, _sets(question, plan)
    raise AssertionError(f"session {session} is in no block")


def _sets(question: Planned, plan: Plan) -> dict[tuple[int, int], int]:
    """The usual sets of each frame: those of its session with the most, which is no deload."""
    found: dict[tuple[int, int], int] = {}
    for frame, places in enumerate(question.places):
        for place in places:
            session = next((s for s in plan.sessions if s.number == place.day.number), None)
            for line in session.lines if session else ():
                key = (frame, _number(question.block, line.move))
                found[key] = max(found.get(key, 0), line.sets)
    return found


def _compared(rules: Sequence[str], block: Block, sets: Sets, other_block: Block, seed: int) -> Why:
    """What it would cost to do otherwise."""
    choice = solve(other_block, greedy(other_block), seed, THOROUGH)
    if choice is None:
        return Why((*rules, "there is no plan otherwise that keeps all rules and wishes"))
    now, then = amounts(block, sets), amounts(block, choice.sets)
    goals = tuple(
        Otherwise(goal, row.weight, row.unit, row.weight * now[goal], row.weight * then[goal])
        for goal, row in CHOICE_WEIGHTS.items()
        if abs(row.weight * (now[goal] - then[goal])) > _SHOWN
    )
    had, has = ({block.options[o].move for _, o in places} for places in (sets, choice.sets))
    price, other = cost(block, sets), cost(block, choice.sets)
    return Why(
        tuple(rules),
        goals,
        tuple(sorted(has - had)),
        tuple(sorted(had - has)),
        price,
        other,
        _words(price, other),
    )


def _words(price: float, other: float) -> str:
    if other >= price:
        return f"otherwise missing the goals would cost {other:.0f} instead of {price:.0f}"
    return (
        f"a longer search found a plan otherwise that costs {price - other:.0f} less: this plan is not "
        "proved to be the best"
    )
