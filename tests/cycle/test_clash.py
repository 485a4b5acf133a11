"""What clashes, against trying every choice: the clash is one, none is smaller, and each of its wishes is
needed; the nearest question has an answer, and gives up as little as can be."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from tests.cycle.pool import person
from tests.cycle.small_blocks import meetable, possible, small_blocks, smallest_clash

from leanmark.cycle.block import Block, Frame
from leanmark.cycle.clash import clash_of, nearest
from leanmark.cycle.greedy import greedy
from leanmark.cycle.model import ENOUGH, MINUTES
from leanmark.cycle.notes import clash_words
from leanmark.cycle.solve import solve

WEIGHTS = {MINUTES: 40, ENOUGH: 1}
"""How dearly wishes are kept, by ``clash``: others are 20 where fixed by hand, 5 for a must."""
AROUND_S = 630.0


@settings(max_examples=120)
@given(small_blocks)
def test_the_clash_is_one_of_the_smallest_and_each_of_its_wishes_is_needed(block: Block) -> None:
    unmet = meetable(block)
    assume(unmet and frozenset() not in unmet)
    wishes = set(clash_of(block, AROUND_S, seed=1).wishes)
    assert all(one & wishes for one in unmet), "these can be met together"
    for words in wishes:
        assert any(not one & (wishes - {words}) for one in unmet), f"{words} is not needed"
    assert len(wishes) == smallest_clash(unmet)


@settings(max_examples=120)
@given(small_blocks)
def test_the_nearest_question_has_an_answer_that_gives_up_as_little_as_can_be(block: Block) -> None:
    unmet = meetable(block)
    barred = {words for option in block.options for words in option.barred}
    kept_safe = [one for one in unmet if not one & barred]
    assume(kept_safe and frozenset() not in unmet)
    clash = clash_of(block, AROUND_S, seed=1)
    assert not set(clash.given_up) & barred
    assert weight(clash.given_up) == min(weight(one) for one in kept_safe)
    if MINUTES not in clash.given_up:
        relaxed = nearest(block, clash)
        assert solve(relaxed, greedy(relaxed), seed=1) is not None


def weight(wishes: tuple[str, ...] | frozenset[str]) -> int:
    return sum(WEIGHTS.get(words, 20 if "kept by hand" in words else 5) for words in wishes)


@settings(max_examples=60)
@given(small_blocks)
def test_the_minutes_that_are_said_to_be_needed_are_enough_and_not_much_more(block: Block) -> None:
    alike = tuple(Frame(frame.sessions, block.frames[0].seconds) for frame in block.frames)
    block = replace(block, frames=alike)
    unmet = meetable(block)
    assume(unmet and frozenset() not in unmet)
    minutes = clash_of(block, AROUND_S, seed=1).minutes_needed
    if minutes:
        assert possible(with_minutes(block, minutes))
        assert not possible(with_minutes(block, minutes - 6)), "steps are of five minutes"
    else:
        assert not possible(with_minutes(block, 180 + AROUND_S / 60.0))


def with_minutes(block: Block, minutes: float) -> Block:
    seconds = int(60 * minutes - AROUND_S)
    frames = tuple(Frame(frame.sessions, max(frame.seconds, seconds)) for frame in block.frames)
    return replace(block, frames=frames)


@settings(max_examples=60)
@given(small_blocks)
def test_a_clash_is_told_in_plain_words(block: Block) -> None:
    unmet = meetable(block)
    assume(unmet and frozenset() not in unmet)
    words = clash_words(clash_of(block, AROUND_S, seed=1), person())
    assert words[0].startswith("these wishes cannot all be met: ")
    assert not any(sign in " ".join(words) for sign in "_{}[]()")
