"""Choose a trainee's moves and sets, block after block."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.clash import Clash, clash_of, nearest
from leanmark.cycle.form import GoalScore, Pin
from leanmark.cycle.frames import Planned, blocks, planned
from leanmark.cycle.greedy import greedy, keeps_rules
from leanmark.cycle.person import Person
from leanmark.cycle.pins import BySession
from leanmark.cycle.score import amounts, cost
from leanmark.cycle.solve import EFFORT, Choice, solve
from leanmark.cycle.weights import CHOICE_WEIGHTS
from leanmark.dose.rules import middle
from leanmark.dose.times import SECONDS_A_MINUTE


@dataclass(frozen=True)
class Solved:
    """One block with its answer. clash: where its wishes could not all be met."""

    planned: Planned
    choice: Choice
    baseline: Sets
    clash: Clash | None = None


@dataclass(frozen=True)
class Chosen:
    """All blocks of a trainee."""

    solved: tuple[Solved, ...] = ()
    pins: tuple[Pin, ...] = field(default=())

    @property
    def sets(self) -> dict[int, dict[str, int]]:
        """Moves and their usual sets of every session."""
        found: dict[int, dict[str, int]] = {}
        for one in self.solved:
            for number, frame in enumerate(one.planned.block.frames):
                here = {
                    one.planned.block.options[o].move: n
                    for (f, o), n in one.choice.sets.items()
                    if f == number
                }
                found |= dict.fromkeys(frame.sessions, here)
        return dict(sorted(found.items()))

    @property
    def objective(self) -> float:
        """What all soft goals cost, the mean over the blocks."""
        return _mean([one.choice.cost for one in self.solved])

    @property
    def bound(self) -> float:
        """What they cost at least, each block given the ones before."""
        return _mean([one.choice.bound for one in self.solved])

    @property
    def goals(self) -> tuple[GoalScore, ...]:
        """Every soft goal, the mean over the blocks, beside the plan made greedily."""
        ours = [amounts(one.planned.block, one.choice.sets) for one in self.solved]
        greedily = [amounts(one.planned.block, one.baseline) for one in self.solved]
        return tuple(
            GoalScore(goal, amount, row.weight, row.weight * amount, row.weight * base)
            for goal, row in CHOICE_WEIGHTS.items()
            for amount, base in ((_mean([a[goal] for a in ours]), _mean([a[goal] for a in greedily])),)
        )


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values) if values else 0.0


def choose(
    person: Person,
    pins: Sequence[Pin] = (),
    before: BySession | None = None,
    seed: int = 1,
    effort: float = EFFORT,
) -> Chosen:
    """The moves and sets of all sessions. before: those of the plan that an edit starts from."""
    own = tuple(pin for pin in pins if pin.trainee == person.trainee.name)
    done: dict[int, Collection[str]] = {}
    found: list[Solved] = []
    for frames in blocks(person, own):
        question = planned(person, frames, own, before, done)
        start = _carried(found[-1], question.block) if found else {}
        solved = _solved(person, question, start, seed, effort)
        found.append(solved)
        block = solved.planned.block
        for number, frame in enumerate(block.frames):
            families = {block.options[o].family for f, o in solved.choice.sets if f == number}
            done |= dict.fromkeys(frame.sessions, families)
    return Chosen(tuple(found), own)


def _carried(last: Solved, block: Block) -> Sets:
    """The choice of the block before, where frames match it and no rule bars it; else nothing."""
    if len(last.planned.block.frames) != len(block.frames):
        return {}
    places = set(block.places())
    kept = {
        place: min(max(sets, block.options[place[1]].least), block.options[place[1]].most)
        for place, sets in last.choice.sets.items()
    }
    return kept if places >= set(kept) and keeps_rules(block, kept) else {}


def _solved(person: Person, question: Planned, start: Sets, seed: int, effort: float) -> Solved:
    baseline = greedy(question.block)
    better = start if start and cost(question.block, start) < cost(question.block, baseline) else baseline
    choice = solve(question.block, better, seed, effort)
    if choice is not None:
        return Solved(question, choice, baseline)
    around_s = (middle("warm-up") + middle("cool-down")) * SECONDS_A_MINUTE
    clash = clash_of(question.block, around_s, seed)
    relaxed = nearest(question.block, clash)
    eased = Planned(relaxed, question.places)
    baseline = greedy(relaxed)
    return Solved(eased, solve(relaxed, baseline, seed, effort) or _nothing(relaxed), baseline, clash)


def _nothing(block: Block) -> Choice:
    return Choice({}, 0.0, 0.0)
