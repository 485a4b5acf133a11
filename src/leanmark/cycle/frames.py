"""A trainee's weeks as blocks to be solved: frames, options, bands, and what is too close in time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from leanmark.cycle.block import MOBILITY, Block, Frame, Option
from leanmark.cycle.dates import hours_between
from leanmark.cycle.dosing import Dosed, dosed, rest_s, sets_range
from leanmark.cycle.form import Part, Pin
from leanmark.cycle.muscle_groups import half_sets_of
from leanmark.cycle.offers import RungOffer
from leanmark.cycle.person import Person, Place, speeds
from leanmark.cycle.pins import BySession, fixed_move, fixed_reps, is_about, moves_of
from leanmark.dose.goals import pattern_of, recovery_h
from leanmark.dose.rules import middle
from leanmark.dose.times import SECONDS_A_MINUTE, set_time_s
from leanmark.moves.of_rung import tempo_s_of

Frames = Sequence[Sequence[Place]]
"""The sessions of each frame."""
WEEKS_A_BLOCK: Final = 4
"""Weeks that keep their moves, so that the load can climb on them; common practice, no published source."""
MARK_REACH_PERCENT: Final = 15.0
"""How much of a load's miss the floor mark is trusted to take up before marks are solved; own figure."""
HALVES: Final = 2


@dataclass(frozen=True)
class Planned:
    """A block with what stands behind its numbers: places by frame, moves by option."""

    block: Block
    places: tuple[tuple[Place, ...], ...]


def blocks(person: Person, pins: Sequence[Pin]) -> list[tuple[tuple[Place, ...], ...]]:
    """The places of every frame, block by block: sessions of a block on the same day of the week go together,
    unless a session has pins of its own. Sessions of a frame are so a week apart at least."""
    alone = {pin.session for pin in pins if pin.session}
    kept: dict[tuple[int, int, int], list[Place]] = {}
    for place in person.places:
        day = place.day
        key = ((day.week - 1) // WEEKS_A_BLOCK, day.weekday_number, day.number if day.number in alone else 0)
        kept.setdefault(key, []).append(place)
    numbers = dict.fromkeys(key[0] for key in kept)
    return [tuple(tuple(kept[key]) for key in sorted(kept) if key[0] == number) for number in numbers]


def planned(
    person: Person,
    frames: tuple[tuple[Place, ...], ...],
    pins: Sequence[Pin],
    before: BySession | None,
    done: Mapping[int, Collection[str]],
) -> Planned:
    """One block as a question. before: moves and sets by session of the plan that an edit starts from; done:
    families by session of the blocks already planned."""
    options = tuple(option(person, move, frames, pins) for move in person.ladders)
    at = {one.move: number for number, one in enumerate(options)}
    return Planned(
        Block(
            frames=tuple(
                Frame(tuple(place.day.number for place in places), seconds(person)) for places in frames
            ),
            options=options,
            weeks=_weeks(frames),
            close=_close(frames, {one.family for one in options}),
            bands=_bands(person, options),
            shares=_shares(person, options),
            change_s=ceil(middle("strap change")),
            must=frozenset(at[move] for move in person.trainee.wishes.must if move in at),
            kept=_kept(frames, at, pins, before, options),
            dropped=_dropped(frames, at, pins, before) | _not_recovered(person, frames, options, done),
            before=None if before is None else _before(frames, at, before),
        ),
        frames,
    )


def seconds(person: Person) -> int:
    """Time for sets, rests and strap changes."""
    around = middle("warm-up") + middle("cool-down")
    return max(int((person.minutes - around) * SECONDS_A_MINUTE), 0)


def option(person: Person, move: str, frames: Frames, pins: Sequence[Pin] = ()) -> Option:
    """One move as an option; where all its rungs are barred, by the rung with the fewest bars."""
    ladder = person.ladders[move]
    rungs = person.open_rungs(move)
    barred: tuple[str, ...] = ()
    if not any("controlled" in rung.stages for rung in rungs):
        rungs, barred = _least_barred(person, ladder)
    if barred:
        picks = [[person.pick(rungs, place) for place in places] for places in frames]
    else:
        picks = [[person.pick_open(move, place) for place in places] for places in frames]
    unasked = bool(barred) and not rungs[0].solved
    done = [pick[0] for row in picks for pick in row if pick] or [ladder[0]]
    first = next((offer for offer in done if offer.setting), done[0])
    one, wishes = first.move, person.trainee.wishes
    least, most = sets_range(one.family, person.goal, person.level(one.family))
    return Option(
        move=move,
        family=one.family,
        pattern=pattern_of(one.family),
        setting=first.setting,
        halves={} if pattern_of(one.family) == MOBILITY else half_sets_of(one),
        set_s=tuple(
            _usual_s(person, rungs[0]) if unasked else _longest_s(person, one.family, row, places, pins)
            for row, places in zip(picks, frames, strict=True)
        ),
        misfit=tuple(0 if unasked else _misfit(row) for row in picks),
        least=least,
        most=most,
        setup_s=_setup_s({offer.setting for offer in done}),
        like=(move in wishes.likes) - (move in wishes.dislikes),
        grips=any(offer.grips for offer in done),
        one_sided=first.each_side,
        quick=any(
            part.stage == "ballistic" for row in picks for pick in row if pick for part in pick[1].parts
        ),
        barred=barred,
    )


def _setup_s(settings: Collection[str]) -> int:
    """Seconds to walk to the floor and back where a session's rung needs no strap, and of one strap change
    more where sessions hang the strap differently."""
    walks = 2.0 * middle("walk") if "" in settings else 0.0
    changes = middle("strap change") if len(set(settings) - {""}) > 1 else 0.0
    return ceil(walks + changes)


def _usual_s(person: Person, offer: RungOffer) -> int:
    """Seconds of a set with its rest on a rung that the engine was not asked about, being closed: the goal's
    reps at its typical tempo."""
    sides = HALVES if offer.each_side else 1
    reps_s = max(person.goal.reps) * sum(tempo_s_of(offer.move, offer.rung))
    return ceil(sides * reps_s + rest_s(offer.move.family, person.goal))


def _least_barred(
    person: Person, ladder: Sequence[RungOffer]
) -> tuple[tuple[RungOffer, ...], tuple[str, ...]]:
    slow = [offer for offer in ladder if "controlled" in offer.stages] or list(ladder)
    least = min(slow, key=lambda offer: len(person.bars_of(offer)))
    return (least,), tuple(dict.fromkeys(bar.wish for bar in person.bars_of(least)))


def _misfit(picks: Sequence[tuple[RungOffer, Dosed] | None]) -> int | None:
    """The mean over a frame's sessions; None where a session cannot have the move."""
    if any(pick is None for pick in picks):
        return None
    return round(sum(_missed(*pick) for pick in picks if pick) / max(len(picks), 1))


def _missed(offer: RungOffer, dose: Dosed) -> float:
    mark = offer.rung.mark or offer.move.mark
    movable = bool(offer.setting) and mark.high_m > mark.low_m
    return max(dose.misfit - (MARK_REACH_PERCENT if movable else 0.0), 0.0)


def _longest_s(
    person: Person,
    family: str,
    picks: Sequence[tuple[RungOffer, Dosed] | None],
    places: Sequence[Place],
    pins: Sequence[Pin],
) -> int:
    """The longest that a set with its rest takes in a frame's sessions: at its own mark's dose, at the one
    that is wanted where the mark is moved, or as fixed by hand."""
    times = [
        set_time_s(parts, offer.each_side)
        for pick, place in zip(picks, places, strict=True)
        if pick
        for offer, dose in (pick,)
        for parts in (
            dose.parts,
            longest_parts(person, offer, dose, place),
            wanted_parts(dose.parts, fixed_reps([pin for pin in pins if fixed_move(pin) == offer.move.move])),
        )
    ]
    return ceil(max(times, default=0.0) + rest_s(family, person.goal))


def longest_parts(person: Person, offer: RungOffer, dose: Dosed, place: Place) -> list[Part]:
    """The longest that a set may become when the mark is moved: no fewer reps than the goal wants, a hold as
    long as the wanted load allows."""
    if not offer.hold:
        return wanted_parts(dose.parts, person.goal.reps_at(place.point.height))
    ask = person.ask(offer.move.family, place)
    rungs = speeds(offer, person.open_rungs(offer.move.move))
    at_wanted = dosed(rungs, ask.wanted, offer.action, ask) or dose
    longer = at_wanted.parts[0].hold_s > dose.parts[0].hold_s
    return list(at_wanted.parts if longer else dose.parts)


def wanted_parts(parts: Sequence[Part], reps: int) -> list[Part]:
    """Parts with at least so many reps together, the more in the first."""
    short = reps - sum(part.reps for part in parts)
    if short <= 0 or not parts[0].reps:
        return list(parts)
    first = parts[0]
    return [Part(first.stage, first.rung, first.tempo_s, first.reps + short), *parts[1:]]


def _weeks(frames: Frames) -> tuple[tuple[tuple[int, ...], int], ...]:
    by_week: dict[int, list[int]] = {}
    for number, places in enumerate(frames):
        for place in places:
            if not place.point.deload:
                by_week.setdefault(place.day.week, []).append(number)
    kinds = Counter(tuple(sorted(numbers)) for numbers in by_week.values())
    return tuple(sorted(kinds.items()))


def _close(frames: Frames, families: Iterable[str]) -> dict[str, frozenset[tuple[int, int]]]:
    """Per family the pairs of frames of which two sessions are nearer than it needs to recover."""
    nearest = {
        (a, b): min(hours_between(p.starts, q.starts) for p in frames[a] for q in frames[b])
        for a in range(len(frames))
        for b in range(a + 1, len(frames))
    }
    return {
        family: frozenset(pair for pair, hours in nearest.items() if _too_near(hours, family))
        for family in sorted(families)
    }


def _too_near(hours: float, family: str) -> bool:
    """A change to summer time takes an hour from two days; that does not count."""
    return hours < recovery_h(family) - 1.5


def _not_recovered(
    person: Person,
    frames: Frames,
    options: Sequence[Option],
    done: Mapping[int, Collection[str]],
) -> frozenset[tuple[int, int]]:
    """Frames and options too near to a session of the block before."""
    last = [place for place in person.places if place.day.number in done][-MOST_NEAR:]
    return frozenset(
        (frame, number)
        for frame, places in enumerate(frames)
        for number, one in enumerate(options)
        for place in last
        if one.family in done[place.day.number]
        and any(_too_near(hours_between(place.starts, other.starts), one.family) for other in places)
    )


MOST_NEAR: Final = 2
"""Sessions of the block before that can be within two days of this one."""


def _bands(person: Person, options: Sequence[Option]) -> dict[str, tuple[int, int]]:
    """Least and most weekly half sets of the groups that an open move trains."""
    trained = {
        group
        for one in options
        if not one.barred and any(miss is not None for miss in one.misfit)
        for group in one.halves
    }
    least, most = person.goal.weekly_sets
    return dict.fromkeys(sorted(trained), (HALVES * least, HALVES * most))


def _shares(person: Person, options: Sequence[Option]) -> dict[str, int]:
    """Wanted per cent of the week's sets by pattern, over the patterns that an open move trains; they sum to
    100."""
    can = {one.pattern for one in options if not one.barred and any(m is not None for m in one.misfit)}
    wanted = {p: share for p, share in person.goal.pattern_shares.items() if p in can}
    whole = sum(wanted.values())
    if not whole:
        return {}
    found = {pattern: round(100.0 * share / whole) for pattern, share in wanted.items()}
    largest = max(found, key=lambda pattern: found[pattern])
    return found | {largest: found[largest] + 100 - sum(found.values())}


def _pinned_places(
    frames: Frames, at: Mapping[str, int], pins: Sequence[Pin], before: BySession | None
) -> Iterator[tuple[int, Pin]]:
    """Frames and the pins that are about them. A frame of several sessions is pinned as its first one is."""
    for pin in pins:
        if all(move in at for move in moves_of(pin)):
            for frame, places in enumerate(frames):
                if is_about(pin, places[0].day.number, before):
                    yield frame, pin


def _kept(
    frames: Frames,
    at: Mapping[str, int],
    pins: Sequence[Pin],
    before: BySession | None,
    options: Sequence[Option],
) -> dict[tuple[int, int], int]:
    """Sets fixed by hand; a later pin stands over an earlier one."""
    kept: dict[tuple[int, int], int] = {}
    for frame, pin in _pinned_places(frames, at, pins, before):
        if pin.what in ("drop", "swap"):
            kept.pop((frame, at[pin.move]), None)
        name = fixed_move(pin)
        if name:
            held = (before or {}).get(frames[frame][0].day.number, {}).get(name, 0)
            usual = kept.get((frame, at[name])) or held or options[at[name]].least
            kept[frame, at[name]] = pin.sets or usual
    return kept


def _dropped(
    frames: Frames, at: Mapping[str, int], pins: Sequence[Pin], before: BySession | None
) -> frozenset[tuple[int, int]]:
    dropped: set[tuple[int, int]] = set()
    for frame, pin in _pinned_places(frames, at, pins, before):
        if pin.what in ("drop", "swap"):
            dropped.add((frame, at[pin.move]))
        if fixed_move(pin):
            dropped.discard((frame, at[fixed_move(pin)]))
    return frozenset(dropped)


def _before(frames: Frames, at: Mapping[str, int], before: BySession) -> dict[tuple[int, int], int]:
    """What the earlier plan held in each frame: the sets of the session with the most, which is no deload."""
    found: dict[tuple[int, int], int] = {}
    for frame, places in enumerate(frames):
        for place in places:
            for move, sets in before.get(place.day.number, {}).items():
                if move in at:
                    found[frame, at[move]] = max(sets, found.get((frame, at[move]), 0))
    return found
