"""From chosen moves to what is done: rung, floor mark, load, reps, rest, and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Final

from leanmark.cycle.block import MOBILITY
from leanmark.cycle.dosing import Ask, Dosed, dosed, most_ballistic_reps, rest_s
from leanmark.cycle.form import Line, Part, Pin, Step
from leanmark.cycle.frames import longest_parts
from leanmark.cycle.marks import At, Reach
from leanmark.cycle.offers import RungOffer
from leanmark.cycle.person import Person, Place, speeds
from leanmark.cycle.pins import fixed_mark_m, fixed_reps, fixed_sets
from leanmark.cycle.reasons import why_of
from leanmark.dose.goals import pattern_of
from leanmark.dose.times import set_time_s
from leanmark.dose.work import set_work
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig

STEP: Final = 1.05
"""How much more, or less, the next mark asks: between the 2 and 10 % of the rule "load rise"."""
SPOTTED: Final = ("cradles", "under the arms")
"""Kit from which nobody steps off in a moment: somebody stands by until the rung is known; common practice,
no published source."""

SIDES: Final = 2
Key = tuple[int, str, str]
"""Person by number, move, rung."""


@dataclass(frozen=True)
class Draft:
    """A line before the engine has been asked at its mark."""

    person: int
    place: Place
    sets: int
    offer: RungOffer
    own: Dosed
    ask: Ask
    reach: Reach
    mark_m: float
    pins: tuple[Pin, ...]

    @property
    def key(self) -> Key:
        """Whose rung it is."""
        return self.person, self.offer.move.move, self.offer.rung.rung


def draft(
    person: Person,
    number: int,
    place: Place,
    picked: tuple[RungOffer, Dosed],
    usual: int,
    reaches: Mapping[Key, Reach],
    pins: Sequence[Pin],
) -> Draft:
    """A line with its mark: the one whose demand is nearest to what the session wants. usual: sets of a
    session that is no deload; what pins fix stands over all of it."""
    offer, own = picked
    ask = person.ask(offer.move.family, place)
    reach = reaches[number, offer.move.move, offer.rung.rung]
    mark_m = fixed_mark_m(pins)
    if mark_m is None:
        stretch = pattern_of(offer.move.family) == MOBILITY
        mark_m = reach.start_m if stretch else reach.mark_for(ask.wanted)
    sets = fixed_sets(pins) or max(round(usual * place.point.sets_factor), 1)
    return Draft(number, place, sets, offer, own, ask, reach, mark_m, tuple(pins))


def finished(
    person: Person,
    plan: Draft,
    at: Mapping[tuple[int, str, str, float], At],
    rig: Rig,
    uid: str,
) -> Line:
    """The line, from what the engine says at its mark; at the rung's own mark where the other cannot be
    dosed."""
    offer, ask = plan.offer, plan.ask
    rungs = speeds(offer, person.open_rungs(offer.move.move))
    mark_m, answer = plan.mark_m, at[(*plan.key, plan.mark_m)]
    dose = dosed(rungs, answer.demand, answer.action, ask) if answer.fine else None
    if dose is None:
        mark_m = plan.reach.start_m
        answer, dose = at[(*plan.key, mark_m)], plan.own
    parts = _within(dose.parts, plan, person, fixed_reps(plan.pins))
    done = set_work(answer.work, parts, offer.each_side)
    mark = mark_of(offer.move, offer.rung)
    return Line(
        uid=uid,
        move=offer.move.move,
        rung=offer.rung.rung,
        family=offer.move.family,
        strap=offer.setting,
        strap_m=rig.strap_length_m(offer.setting) if offer.setting else 0.0,
        mark_of=mark.of,
        mark_m=mark_m,
        tolerance_m=plan.reach.tolerance_m(mark_m),
        each_side=offer.each_side,
        sets=plan.sets,
        parts=parts,
        reps_in_reserve=round(2.0 * dose.reserve) / 2.0,
        rest_s=rest_s(offer.move.family, ask.goal),
        set_s=set_time_s(parts, offer.each_side),
        load_is=answer.load_is,
        load=answer.load,
        strap_n=answer.strap_n,
        demand=answer.demand,
        capacity=ask.level.capacity,
        action=answer.action,
        under_load_s=done.under_load_s,
        work_j=float(done.work_j[0]),
        impulse_ns=float(done.impulse_ns[0]),
        easier=_step(person, plan, mark_m, answer.demand, -1),
        harder=_step(person, plan, mark_m, answer.demand, 1),
        spotter=_spotted(offer, parts),
        pinned=bool(plan.pins),
        why=why_of(person, offer, ask, parts, answer.demand, mark_m, mark.start_m),
    )


def _within(parts: tuple[Part, ...], plan: Draft, person: Person, pinned_reps: int) -> tuple[Part, ...]:
    """Parts with no more reps and no longer hold than the session has time for, and no more ballistic reps
    than the rule allows; or with the reps that the coach fixed."""
    longest = longest_parts(person, plan.offer, plan.own, plan.place)
    most = pinned_reps or sum(part.reps for part in longest)
    reps = sum(part.reps for part in parts)
    if not reps:
        hold_s = min(parts[0].hold_s, longest[0].hold_s)
        return (Part(parts[0].stage, parts[0].rung, parts[0].tempo_s, hold_s=hold_s),)
    wanted = pinned_reps or min(reps, most)
    shares = [floor(part.reps * wanted / reps) for part in parts]
    shares[0] += wanted - sum(shares)
    ballistic = most_ballistic_reps() // (plan.sets * (SIDES if plan.offer.each_side else 1))
    kept = [min(n, ballistic) if p.stage == "ballistic" else n for p, n in zip(parts, shares, strict=True)]
    return tuple(
        Part(part.stage, part.rung, part.tempo_s, count)
        for part, count in zip(parts, kept, strict=True)
        if count
    )


def _step(person: Person, plan: Draft, mark_m: float, demand: float, way: int) -> Step | None:
    """The next mark that asks a step more (1) or less (-1), on this rung; else the next open rung whose own
    mark asks more, or less. demand: at the line's mark, which the reach is set to."""
    reach = plan.reach
    scale = demand / reach.demand_at(mark_m)
    wanted = reach.demand_at(mark_m) * STEP**way
    if reach.demand.min() <= wanted <= reach.demand.max():
        other_m = reach.mark_for(wanted)
        found = scale * reach.demand_at(other_m)
        if (found - demand) * way > 0.0:
            return Step(plan.offer.rung.rung, other_m, found)
    ladder = [one for one in person.open_rungs(plan.offer.move.move) if "controlled" in one.stages]
    number = next(n for n, one in enumerate(ladder) if one is plan.offer)
    others = ladder[number + 1 :] if way > 0 else ladder[:number][::-1]
    other = next((one for one in others if one.solved and (one.demand - demand) * way > 0.0), None)
    if other is None:
        return None
    return Step(other.rung.rung, mark_of(other.move, other.rung).start_m, other.demand)


def _spotted(offer: RungOffer, parts: Sequence[Part]) -> bool:
    return (
        (offer.move.kit in SPOTTED and bool(offer.setting))
        or any(p.stage == "ballistic" for p in parts)
        or "partner" in offer.kit
    )
