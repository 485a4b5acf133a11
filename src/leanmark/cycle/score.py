"""What a choice of moves and sets costs by each soft goal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Final

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.weights import (
    CHOICE_WEIGHTS,
    MAIN_SHARE,
    MOST_GRIPS,
    MOST_TIMES,
    ONE_SIDED,
    TIME_USED,
)

PER_CENT: Final = 100
MINUTE_S: Final = 60


def amounts(block: Block, sets: Sets) -> dict[str, float]:
    """How far the choice misses each goal of ``CHOICE_WEIGHTS``, a week's figures being the mean over the
    block's weeks."""
    chosen = {place: number for place, number in sets.items() if number}
    weeks = [
        ({place: n for place, n in chosen.items() if place[0] in frames}, count)
        for frames, count in block.weeks
    ]
    total = max(sum(count for _, count in weeks), 1)

    def by_week(goal: Iterable[float]) -> float:
        return sum(amount * count for amount, (_, count) in zip(goal, weeks, strict=True)) / total

    return {
        "sets by muscle group": by_week(_outside_bands(block, week) for week, _ in weeks),
        "balance of patterns": by_week(_off_balance(block, week) for week, _ in weeks),
        "whole body": float(sum(_missing(block, chosen, f) for f in range(len(block.frames)))),
        "time used": float(sum(_idle_minutes(block, chosen, f) for f in range(len(block.frames)))),
        "load as wanted": float(sum(block.options[o].misfit[f] or 0 for f, o in chosen)),
        "liked moves": float(_against_likes(block, chosen)),
        "strap changes": float(sum(_changes(block, chosen, f) for f in range(len(block.frames)))),
        "grip": float(sum(_too_many_grips(block, chosen, f) for f in range(len(block.frames)))),
        "variety": by_week(_too_often(week) for week, _ in weeks),
        "one side at a time": by_week(_few_one_sided(block, week) for week, _ in weeks),
        "little changed": float(_changed(block, chosen)),
    }


def cost(block: Block, sets: Sets) -> float:
    """The cost of all goals."""
    return sum(CHOICE_WEIGHTS[goal].weight * amount for goal, amount in amounts(block, sets).items())


def half_sets(block: Block, sets: Sets) -> Counter[str]:
    """Half sets by muscle group."""
    counted: Counter[str] = Counter()
    for (_, option), number in sets.items():
        for group, halves in block.options[option].halves.items():
            counted[group] += halves * number
    return counted


def _outside_bands(block: Block, week: Sets) -> float:
    done = half_sets(block, week)
    return float(
        sum(max(least - done[group], done[group] - most, 0) for group, (least, most) in block.bands.items())
    )


def _off_balance(block: Block, week: Sets) -> float:
    by_pattern: Counter[str] = Counter()
    for (_, option), number in week.items():
        by_pattern[block.options[option].pattern] += number
    total = sum(by_pattern[pattern] for pattern in block.shares)
    return sum(abs(PER_CENT * by_pattern[p] - share * total) for p, share in block.shares.items()) / PER_CENT


def main_patterns(block: Block) -> list[str]:
    """Patterns that belong in every session."""
    return [pattern for pattern, share in block.shares.items() if share >= MAIN_SHARE]


def _missing(block: Block, chosen: Sets, frame: int) -> int:
    here = {block.options[o].pattern for f, o in chosen if f == frame}
    return len(set(main_patterns(block)) - here)


def least_used_s(block: Block, frame: int) -> int:
    """Seconds that sets and rests of a frame are to take at least."""
    return int(TIME_USED * block.frames[frame].seconds)


def _idle_minutes(block: Block, chosen: Sets, frame: int) -> int:
    """Whole minutes, a begun one counted, by which a frame's sets and rests fall short."""
    used_s = sum(block.options[o].set_s[frame] * number for (f, o), number in chosen.items() if f == frame)
    return max(-((used_s - least_used_s(block, frame)) // MINUTE_S), 0)


def _against_likes(block: Block, chosen: Sets) -> int:
    used = {option for _, option in chosen}
    open_liked = {o for o, option in enumerate(block.options) if option.like > 0 and not option.barred}
    disliked = sum(1 for _, option in chosen if block.options[option].like < 0)
    return len(open_liked - used) + disliked


def _changes(block: Block, chosen: Sets, frame: int) -> int:
    """Strap changes at most needed: settings less one, counted by parts of the session."""
    used = {block.options[o].hangs for f, o in chosen if f == frame and block.options[o].setting}
    return max(len(used) - 1, 0)


def _too_many_grips(block: Block, chosen: Sets, frame: int) -> int:
    return max(sum(1 for f, o in chosen if f == frame and block.options[o].grips) - MOST_GRIPS, 0)


def _too_often(week: Sets) -> int:
    times = Counter(option for _, option in week)
    return sum(max(number - MOST_TIMES, 0) for number in times.values())


def _few_one_sided(block: Block, week: Sets) -> int:
    return max(ONE_SIDED - sum(1 for _, o in week if block.options[o].one_sided), 0)


def _changed(block: Block, chosen: Sets) -> int:
    before = block.before
    if before is None:
        return 0
    return sum(abs(chosen.get(place, 0) - before.get(place, 0)) for place in block.places())
