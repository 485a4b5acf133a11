"""Who spots whom: somebody resting at the same anchor if possible, else somebody free near, else the
coach."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from leanmark.cycle.floor.form import COACH, Pair, SpottedFrom
from leanmark.cycle.floor.simulate import Played
from leanmark.cycle.floor.tasks import Floor

Span = tuple[int, int]


@dataclass(frozen=True)
class _Stay:
    """A trainee's time at one place: from coming to leaving for the next [s]."""

    place: int
    from_s: int
    until_s: int


def pairs_of(floor: Floor, turns: Sequence[Played]) -> list[Pair]:
    """A spotter for each spell that needs one, through all of its sets. A trainee spots one spell at a
    time, and the least asked so far comes first."""
    people = range(len(floor.ask.who))
    of_person = [[turn for turn in turns if floor.tasks[turn.task].person == p] for p in people]
    busy = [[(turn.start_s, turn.end_s) for turn in own] for own in of_person]
    stays = [_stays(floor, own) for own in of_person]
    asked: Counter[int] = Counter()
    pairs = []
    for task, sets in _to_spot(floor, turns):
        spans = [(turn.start_s, turn.end_s) for turn in sets]
        others = [p for p in people if p != floor.tasks[task].person]
        others.sort(key=lambda p: (asked[p], p))
        spotter, comes_from = _spotter(floor, others, busy, stays, sets[0].place, spans)
        spell = floor.ask.spells[task]
        if spotter is not None:
            asked[spotter] += 1
            busy[spotter] = sorted(busy[spotter] + spans)
        name = COACH if spotter is None else floor.ask.who[spotter]
        pairs.append(Pair(spell.trainee, spell.line, name, comes_from))
    return pairs


def coach_twice(floor: Floor, turns: Sequence[Played], pairs: Sequence[Pair]) -> list[tuple[Played, Played]]:
    """Sets that the coach is asked to spot at the same time."""
    own = {(pair.trainee, pair.line) for pair in pairs if pair.comes_from == "coach"}
    spells = floor.ask.spells
    sets = [turn for turn in turns if (spells[turn.task].trainee, spells[turn.task].line) in own]
    return [(one, other) for one, other in pairwise(sets) if other.start_s < one.end_s]


def _to_spot(floor: Floor, turns: Sequence[Played]) -> list[tuple[int, list[Played]]]:
    """Tasks that need a spotter with their sets, by first start."""
    needed = [turn for turn in turns if floor.ask.spells[turn.task].spotter]
    by_task = groupby(sorted(needed, key=lambda turn: (turn.task, turn.number)), key=lambda turn: turn.task)
    found = [(task, list(sets)) for task, sets in by_task]
    return sorted(found, key=lambda pair: (pair[1][0].start_s, pair[0]))


def _spotter(
    floor: Floor,
    others: Sequence[int],
    busy: Sequence[Sequence[Span]],
    stays: Sequence[Sequence[_Stay]],
    place: int,
    spans: Sequence[Span],
) -> tuple[int | None, SpottedFrom]:
    for person in others:
        here = [stay for stay in stays[person] if stay.place == place]
        if _free(busy[person], spans, 0) and all(_within(span, here) for span in spans):
            return person, "same anchor"
    for person in others:
        if _free(busy[person], spans, floor.walk_s):
            return person, "near"
    return None, "coach"


def _free(busy: Sequence[Span], spans: Sequence[Span], walk_s: int) -> bool:
    """Whether nothing else is done in the spans, and there is time to come and go."""
    return all(
        end_s + walk_s <= from_s or start_s >= until_s + walk_s
        for from_s, until_s in spans
        for start_s, end_s in busy
    )


def _within(span: Span, stays: Sequence[_Stay]) -> bool:
    return any(stay.from_s <= span[0] and span[1] <= stay.until_s for stay in stays)


def _stays(floor: Floor, own: Sequence[Played]) -> list[_Stay]:
    """A trainee's places in order; at the last one the stay ends with the last set."""
    runs = [list(run) for _, run in groupby(own, key=lambda turn: turn.place)]
    stays = []
    for number, run in enumerate(runs):
        from_s = runs[number - 1][-1].end_s + floor.walk_s if number else 0
        until_s = runs[number + 1][0].start_s - floor.walk_s if number + 1 < len(runs) else run[-1].end_s
        stays.append(_Stay(run[0].place, from_s, until_s))
    return stays
