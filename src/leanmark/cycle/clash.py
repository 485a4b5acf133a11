"""When wishes cannot all be met: the fewest of them that clash, and the nearest question that has an
answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
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
_KEEP_MINUTES: Final = 40
_KEEP_PIN: Final = 20
_KEEP_MUST: Final = 5
_KEEP_ENOUGH: Final = 1
"""How dearly wishes are kept: time is what it is, then what was fixed by hand, then moves that have to be in,
then the number of moves. What bars a move for safety is never let go. Own figures."""


@dataclass(frozen=True)
class Clash:
    """wishes: the fewest that cannot be met together; given_up: those that the nearest plan lets go;
    minutes_needed: what a session would have to last to keep them all but for its minutes, 0 where that is no
    help."""

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


class _Oracle:
    """The wishes as literals of one model, asked again and again."""

    def __init__(self, block: Block, wishes: Sequence[str], seed: int) -> None:
        """Wishes that are not named hold in any case."""
        self._cp = cp_model.CpModel()
        self.literals = {words: self._cp.new_bool_var(words) for words in wishes}
        self._seed = seed
        model_of(block, self.literals.get, self._cp)

    def most(self, sure: Collection[str], weight: Mapping[str, int]) -> set[str] | None:
        """The dearest set of wishes that can be met with the sure ones; None where those clash themselves."""
        cp = self._cp
        cp.clear_assumptions()
        cp.add_assumptions([self.literals[words] for words in sure])
        cp.maximize(LinearExpr.sum([weight.get(w, 1) * lit for w, lit in self.literals.items()]))
        made = solver(self._seed, EFFORT)
        if made.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None
        return {words for words, literal in self.literals.items() if made.value(literal)}


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
    oracle = _Oracle(block, tuple(keepable), seed)
    return oracle.most((), keepable) or set()


def _smallest(block: Block, wishes: Sequence[str], seed: int) -> tuple[str, ...]:
    """A clash of the fewest wishes, by hitting sets: every set of wishes that can be met leaves some out,
    and a clash has one of each such rest (Reiter 1987, Artificial Intelligence 32:57, from memory)."""
    oracle = _Oracle(block, wishes, seed)
    rests: list[set[str]] = []
    while True:
        tried = _least_hitting(wishes, rests)
        met = oracle.most(tried, {})
        if met is None:
            return tuple(words for words in wishes if words in tried)
        rest = set(wishes) - met
        if not rest:
            return ()
        rests.append(rest)


def _least_hitting(wishes: Sequence[str], rests: Sequence[set[str]]) -> set[str]:
    """The fewest wishes of which each rest holds one, the first in order of equals."""
    useful = [words for words in wishes if any(words in rest for rest in rests)]
    for size in range(len(useful) + 1):
        for picked in combinations(useful, size):
            if all(rest & set(picked) for rest in rests):
                return set(picked)
    return set(useful)


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
