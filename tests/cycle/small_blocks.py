"""Random small blocks, and what is true of them by trying every choice: which rules and wishes a choice
breaks, which choices there are, what is the best, and which fewest wishes clash. Code of its own, from what
``cycle.block`` says of each field."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations, product
from random import Random

from hypothesis import strategies as st

from leanmark.cycle.block import Block, Frame, Option, Sets
from leanmark.cycle.model import ENOUGH, MINUTES, kept_words, must_words
from leanmark.cycle.score import cost

MOST_MOVES, MOST_OF_PATTERN, MOST_QUICK = 9, 3, 2
_FAMILIES = (("row", "pull"), ("chin", "pull"), ("press", "push"), ("squat", "knee"), ("stretch", "mobility"))
_GROUPS = ("chest", "back", "legs")
_MOST_PLACES = 7
"""Places of a drawn block at most, so that all choices can be tried."""


def _option(random: Random, number: int, frames: int) -> Option:
    family, pattern = random.choice(_FAMILIES)
    least = random.randint(1, 2)
    return Option(
        move=f"move {number}",
        family=family,
        pattern=pattern,
        setting=random.choice(("", "short", "long")),
        halves={group: random.randint(1, 2) for group in _GROUPS if random.random() < 0.4},
        set_s=tuple(random.randint(40, 200) for _ in range(frames)),
        misfit=tuple(random.choice((None, 0, 0, 3, 30)) for _ in range(frames)),
        least=least,
        most=least + random.randint(0, 1),
        setup_s=random.choice((0, 25)),
        like=random.choice((0, 0, 1, -1)),
        grips=random.random() < 0.5,
        one_sided=random.random() < 0.5,
        quick=random.random() < 0.3,
        barred=random.choice(((), (), (), ("avoid 'a'",), ("avoid 'b'", "pain in the hip"))),
    )


def small_block(number: int) -> Block:
    """The block of that number: up to three frames and seven places."""
    random = Random(number)
    frames = random.randint(1, 3)
    options = tuple(_option(random, n, frames) for n in range(random.randint(1, 7 // frames + 1)))
    places = [(f, o) for f in range(frames) for o, one in enumerate(options) if one.misfit[f] is not None]
    some = [place for place in places if random.random() < 0.25]
    pairs = [(a, b) for a in range(frames) for b in range(a + 1, frames)]
    share = random.randint(0, 100)
    return Block(
        frames=tuple(Frame((f + 1, f + 11), random.randint(0, 900)) for f in range(frames)),
        options=options,
        weeks=random.choice((
            ((tuple(range(frames)), 3),),
            ((tuple(range(frames)), 1), ((0,), 2)),
            (((0,), 1),),
            (),
        )),
        close={
            family: frozenset(pair for pair in pairs if random.random() < 0.5)
            for family, _ in _FAMILIES
            if random.random() < 0.6
        },
        bands={group: random.choice(((2, 4), (4, 8), (0, 2))) for group in _GROUPS if random.random() < 0.7},
        shares=random.choice(({}, {"pull": share, "push": 100 - share}, {"knee": 95, "pull": 5})),
        change_s=random.choice((0, 40)),
        least_moves=random.choice((0, 1, 1, 2, 3)),
        must=frozenset([random.randrange(len(options))] if random.random() < 0.3 else []),
        kept={place: random.randint(1, 4) for place in some[:2] if random.random() < 0.5},
        dropped=frozenset([*places[_MOST_PLACES:], *some[2:3]]),
        before={place: random.randint(1, 3) for place in some} if random.random() < 0.5 else None,
    )  # fmt: skip


small_blocks = st.integers(0, 2**32).map(small_block)


def choices(block: Block) -> Iterator[dict[tuple[int, int], int]]:
    """Every choice of sets that a place may have, whatever it breaks."""
    places = [
        (f, o)
        for f in range(len(block.frames))
        for o, one in enumerate(block.options)
        if one.misfit[f] is not None and (f, o) not in block.dropped
    ]
    for numbers in product(*(_numbers(block, place) for place in places)):
        yield {place: number for place, number in zip(places, numbers, strict=True) if number}


def _numbers(block: Block, place: tuple[int, int]) -> list[int]:
    option, kept = block.options[place[1]], block.kept.get(place)
    numbers = {0, *range(option.least, option.most + 1)}
    return sorted(numbers if kept is None else {n for n in numbers | {kept} if n <= kept})


def rules_broken(block: Block, sets: Sets) -> list[str]:
    """Hard rules that no wish lets go: families, patterns, quick moves, recovery, moves at most."""
    found = []
    for frame in range(len(block.frames)):
        here = [block.options[o] for f, o in sets if f == frame]
        fixed = [block.options[o] for f, o in block.kept if f == frame and _there(block, (f, o))]
        if len(here) > max(MOST_MOVES, sum(1 for f, _ in block.kept if f == frame)):
            found.append("too many moves")
        families = Counter(one.family for one in here)
        by_hand = Counter(one.family for one in fixed)
        found += [f"two of {name}" for name, n in families.items() if n > max(1, by_hand[name])]
        patterns = Counter(one.pattern for one in here)
        by_hand = Counter(one.pattern for one in fixed)
        found += [
            f"many of {name}" for name, n in patterns.items() if n > max(MOST_OF_PATTERN, by_hand[name])
        ]
        if sum(one.quick for one in here) > MOST_QUICK:
            found.append("too many quick moves")
    for family, pairs in block.close.items():
        for pair in pairs:
            done = [p for p in sets if p[0] in pair and block.options[p[1]].family == family]
            fixed_places = [
                p
                for p in block.kept
                if p[0] in pair and block.options[p[1]].family == family and _there(block, p)
            ]
            if len(done) > max(1, len(fixed_places)):
                found.append(f"{family} not recovered")
    return found


def _there(block: Block, place: tuple[int, int]) -> bool:
    return place not in block.dropped and block.options[place[1]].misfit[place[0]] is not None


def wishes_broken(block: Block, sets: Sets) -> frozenset[str]:
    """Wishes, in the words of the model, that a choice does not meet."""
    found = set()
    for frame, one in enumerate(block.frames):
        here = [(block.options[o], n) for (f, o), n in sets.items() if f == frame]
        hung = {(option.setting, _part(option)) for option, _ in here if option.setting}
        seconds = sum(option.set_s[frame] * n + option.setup_s for option, n in here)
        if seconds + block.change_s * max(len(hung) - 1, 0) > one.seconds:
            found.add(MINUTES)
        if len(here) < block.least_moves:
            found.add(ENOUGH)
    done = {o for _, o in sets}
    found |= {must_words(block.options[o]) for o in block.must - done}
    found |= {kept_words(block, place) for place, n in block.kept.items() if sets.get(place, 0) < n}
    found |= {words for o in done for words in block.options[o].barred}
    return frozenset(found)


def _part(option: Option) -> str:
    """Ballistic work comes first, stretches last, and a strap may have to be hung anew in each."""
    return "last" if option.pattern == "mobility" else "first" if option.quick else "middle"


def possible(block: Block) -> list[dict[tuple[int, int], int]]:
    """Every choice that keeps all rules and wishes."""
    return [c for c in choices(block) if not rules_broken(block, c) and not wishes_broken(block, c)]


def least_cost(block: Block) -> float | None:
    """What the best choice costs; None where there is none."""
    return min((cost(block, choice) for choice in possible(block)), default=None)


def meetable(block: Block) -> set[frozenset[str]]:
    """The wishes that choices which keep the rules leave unmet, each such set once."""
    return {wishes_broken(block, c) for c in choices(block) if not rules_broken(block, c)}


def smallest_clash(unmet: set[frozenset[str]]) -> int:
    """How many wishes the smallest clash has: as many as are needed to hold one of each unmet set."""
    names = sorted(set().union(*unmet))
    for size in range(len(names) + 1):
        for picked in combinations(names, size):
            if all(one & set(picked) for one in unmet):
                return size
    raise AssertionError("an unmet set is empty: there is no clash")
