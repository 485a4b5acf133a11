"""When wishes cannot all be met: the fewest of them that clash, and the nearest question that has an
answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from ortools.sat.python import cp_model
from ortools.sat.python.cp_model import LinearExpr

from leanmark.cycle.block import Block, Frame
from leanmark.cycle.model import ENOUGH, MINUTES, kept_words, model_of, must_words, wishes_of
from leanmark.cycle.solve import solver
from leanmark.dose.times import SECONDS_A_MINUTE

EFFORT: Final = 1.0
"""Deterministic time of the solver for one question about wishes; such questions take a fraction of it."""
MORE_EFFORT: Final = 10.0
"""The same for whether there is any answer at all, where the dearest was not found in time."""
_ROUNDS: Final = 60
"""Rounds of the search for the smallest clash; own figure."""
_KEEP_MINUTES: Final = 40
_KEEP_PIN: Final = 20
_KEEP_MUST: Final = 5
_KEEP_ENOUGH: Final = 1
"""How dearly wishes are kept: time is what it is, then what was fixed by hand, then moves that have to be in,
then the number of moves. What bars a move for safety is never let go. Own figures."""


@dataclass(frozen=True)
class Clash:
    """wishes: the fewest that cannot be met together, or in a large clash a set of which each is needed;
    given_up: those that the nearest plan lets go; minutes_needed: what a session would have to last to keep
    them all but for its minutes, 0 where that is no help."""

    wishes: tuple[str, ...]
    given_up: tuple[str, ...]
    minutes_needed: float


def clash_of(block: Block, around_s: float, seed: int) -> Clash:
    """Explain why a block has no plan. around_s: warm-up and cool-down."""
    wishes = wishes_of(block)
    given_up = tuple(sorted(set(_keepable(block)) - _most_kept(block, seed)))
    needed = _seconds_needed(block, seed)
    minutes = ceil((needed + around_s) / SECONDS_A_MINUTE) if needed else 0
    return Clash(_smallest(block, wishes, seed), given_up, minutes)


def nearest(block: Block, clash: Clash) -> Block:
    """The block without the wishes that are given up."""
    gone = set(clash.given_up)
    return replace(
        block,
        must=frozenset(o for o in block.must if must_words(block.options[o]) not in gone),
        kept={p: n for p, n in block.kept.items() if kept_words(block, p) not in gone},
        least_moves=0 if ENOUGH in gone else block.least_moves,
    )


def _most_met(
    block: Block, wishes: Sequence[str], sure: Collection[str], weight: Mapping[str, int], seed: int
) -> set[str] | None:
    """The dearest set of wishes that can be met together with the sure ones; None where those clash
    themselves. What is neither a wish nor sure holds in any case."""
    cp = cp_model.CpModel()
    free = {words: cp.new_bool_var(words) for words in wishes if words not in sure}
    model_of(block, free.get, cp)
    cp.maximize(LinearExpr.sum([weight.get(words, 1) * literal for words, literal in free.items()]))
    made = solver(seed, EFFORT)
    status = made.solve(cp)
    if status == cp_model.UNKNOWN:
        cp.maximize(0)
        made = solver(seed, MORE_EFFORT)
        status = made.solve(cp)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {*sure, *(words for words, literal in free.items() if made.value(literal))}


def _keepable(block: Block) -> dict[str, int]:
    """Wishes that a plan may let go, and how dearly they are kept."""
    return {
        MINUTES: _KEEP_MINUTES,
        ENOUGH: _KEEP_ENOUGH,
        **{must_words(block.options[o]): _KEEP_MUST for o in block.must},
        **{kept_words(block, place): _KEEP_PIN for place in block.kept},
    }


def _most_kept(block: Block, seed: int) -> set[str]:
    keepable = _keepable(block)
    return _most_met(block, tuple(keepable), (), keepable, seed) or set()


def _smallest(block: Block, wishes: Sequence[str], seed: int) -> tuple[str, ...]:
    """A clash of the fewest wishes, by hitting sets: every set of wishes that can be met leaves some out, and
    a clash has one of each such rest (Reiter 1987, Artificial Intelligence 32:57, from memory). After many
    rounds, a clash of which each wish is needed."""
    rests: list[set[str]] = []
    for _ in range(_ROUNDS):
        tried = _least_hitting(wishes, rests, seed)
        met = _most_met(block, wishes, tried, {}, seed)
        if met is None:
            return tuple(words for words in wishes if words in tried)
        rest = set(wishes) - met
        if not rest:
            return ()
        rests.append(rest)
    return _needed(block, wishes, seed)


def _least_hitting(wishes: Sequence[str], rests: Sequence[set[str]], seed: int) -> set[str]:
    """The fewest wishes of which each rest holds one."""
    cp = cp_model.CpModel()
    picked = {words: cp.new_bool_var(words) for words in wishes}
    for rest in rests:
        cp.add_bool_or([picked[words] for words in wishes if words in rest])
    cp.minimize(LinearExpr.sum([*picked.values()]))
    made = solver(seed, EFFORT)
    made.solve(cp)
    return {words for words, literal in picked.items() if made.value(literal)}


def _needed(block: Block, wishes: Sequence[str], seed: int) -> tuple[str, ...]:
    """The wishes without those that the rest clashes without, tried one by one."""
    kept = list(wishes)
    for words in wishes:
        without = [other for other in kept if other != words]
        if _most_met(block, wishes, without, {}, seed) is None:
            kept = without
    return tuple(kept)


def _seconds_needed(block: Block, seed: int) -> float:
    """Least seconds for sets in every session with which all other wishes can be met; 0 where none is
    enough."""
    longest = max((frame.seconds for frame in block.frames), default=0)
    for seconds in range(longest, longest + _FURTHEST_S + 1, _STEP_S):
        longer = replace(
            block, frames=tuple(Frame(f.sessions, max(f.seconds, seconds)) for f in block.frames)
        )
        made = solver(seed, EFFORT)
        if made.solve(model_of(longer).cp) in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return float(seconds)
    return 0.0


_FURTHEST_S: Final = 3 * 3600
_STEP_S: Final = 300
