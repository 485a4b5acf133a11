"""A plan made one move at a time, without looking ahead: where the solver starts, and what it is measured
against."""

from __future__ import annotations

from leanmark.cycle.block import Block, Sets
from leanmark.cycle.score import cost
from leanmark.cycle.weights import MOST_MOVES, MOST_OF_PATTERN, MOST_QUICK

Place = tuple[int, int]


def greedy(block: Block) -> dict[Place, int]:
    """Frame by frame, add the move that lowers the cost most for its usual number of sets, while it fits and
    the cost falls, or the session is still short of moves. Sets fixed by hand and moves that have to be in
    come first. It may leave a wish unmet."""
    sets = dict(block.kept)
    for number in sorted(block.must):
        if not any(option == number for _, option in sets):
            places = [place for place in block.places() if place[1] == number and fits(block, sets, place)]
            if places:
                sets[places[0]] = _usual(block, places[0])
    for frame in range(len(block.frames)):
        _fill(block, sets, frame)
    return sets


def _usual(block: Block, place: Place) -> int:
    return block.options[place[1]].least


def _fill(block: Block, sets: dict[Place, int], frame: int) -> None:
    now = cost(block, sets)
    while True:
        places = [p for p in block.places() if p[0] == frame and fits(block, sets, p)]
        if not places:
            return
        found = min((cost(block, {**sets, p: _usual(block, p)}), p) for p in places)
        enough = sum(1 for f, _ in sets if f == frame) >= block.least_moves
        if enough and found[0] >= now:
            return
        now, place = found
        sets[place] = _usual(block, place)


def fits(block: Block, sets: Sets, place: Place) -> bool:
    """Whether a move may be added without breaking a hard rule."""
    frame, number = place
    option = block.options[number]
    here = [block.options[o] for f, o in sets if f == frame]
    if place in sets or option.barred or (option.quick and sum(o.quick for o in here) >= MOST_QUICK):
        return False
    if len(here) >= MOST_MOVES or option.family in {other.family for other in here}:
        return False
    if sum(1 for other in here if other.pattern == option.pattern) >= MOST_OF_PATTERN:
        return False
    return (
        _recovered(block, sets, place)
        and seconds(block, {**sets, place: _usual(block, place)}, frame) <= block.frames[frame].seconds
    )


def keeps_rules(block: Block, sets: Sets) -> bool:
    """Whether a whole choice breaks no hard rule and meets the wishes."""
    built: dict[Place, int] = {}
    places = set(block.places())
    for place, number in sorted(sets.items()):
        if place not in places or not fits(block, built, place):
            return False
        built[place] = number
    if any(built.get(place) != number for place, number in block.kept.items()):
        return False
    frames = range(len(block.frames))
    return (
        all(seconds(block, built, frame) <= block.frames[frame].seconds for frame in frames)
        and all(sum(1 for f, _ in built if f == frame) >= block.least_moves for frame in frames)
        and block.must <= {option for _, option in built}
    )


def _recovered(block: Block, sets: Sets, place: Place) -> bool:
    frame, number = place
    family = block.options[number].family
    near = {f for pair in block.close.get(family, ()) if frame in pair for f in pair}
    return not any(f in near and block.options[o].family == family for f, o in sets)


def seconds(block: Block, sets: Sets, frame: int) -> int:
    """How long a frame's sets, rests and strap changes take."""
    here = [(o, number) for (f, o), number in sets.items() if f == frame and number]
    work = sum(block.options[o].set_s[frame] * number + block.options[o].setup_s for o, number in here)
    used = {block.options[o].hangs for o, _ in here if block.options[o].setting}
    return work + block.change_s * max(len(used) - 1, 0)
