"""Why a line is as it is: the rules that led to rung, mark and dose, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from leanmark.cycle.block import MOBILITY
from leanmark.cycle.dosing import Ask
from leanmark.cycle.form import Part
from leanmark.cycle.offers import RungOffer
from leanmark.cycle.person import Person
from leanmark.dose.goals import pattern_of
from leanmark.dose.rules import RULES
from leanmark.moves.gates import gate_words


def why_of(
    person: Person,
    offer: RungOffer,
    ask: Ask,
    parts: tuple[Part, ...],
    demand: float,
    mark_m: float,
    start_m: float,
) -> tuple[str, ...]:
    """The rules that led to a line, in the order in which they act."""
    return (
        *_level(person, offer, ask),
        *_load(offer, ask, parts, demand),
        *_mark(mark_m, start_m),
        *_gates(offer),
        *_stages(ask, parts),
        *_sets(ask),
    )


def _level(person: Person, offer: RungOffer, ask: Ask) -> Iterator[str]:
    said = person.trainee.wishes
    given = said.levels.get(offer.move.family) or said.level
    told = (
        f"level '{ask.level.name}'"
        if given
        else f"no level is given, so '{ask.level.name}', the most careful"
    )
    yield (
        f"{told}: taken to manage {100.0 * ask.level.capacity:.0f} % of reference strength once in "
        f"{offer.move.family} ({ask.level.source})"
    )


def _load(offer: RungOffer, ask: Ask, parts: tuple[Part, ...], demand: float) -> Iterator[str]:
    if pattern_of(offer.move.family) == MOBILITY:
        yield "a stretch: held or moved slowly, the load does not count"
        return
    height = ask.point.height
    share = demand / ask.level.capacity
    reserve = ask.goal.reserve_at(height)
    what = f"goal '{ask.goal.name}', load wave at {100.0 * height:.0f} %"
    if parts[0].hold_s:
        yield (
            f"{what}: rung '{offer.rung.rung}' asks {100.0 * share:.0f} % of that; it is held for part of "
            "the time that it could be (Frey Law and Avin 2010)"
        )
        return
    wanted = 100.0 * ask.wanted / ask.level.capacity
    yield (
        f"{what}: {ask.goal.reps_at(height)} reps with {reserve:.0f} in reserve, so {wanted:.0f} % of that "
        "is wanted (Epley 1985)"
    )
    yield f"of the open rungs '{offer.rung.rung}' comes nearest; at this mark it asks {100.0 * share:.0f} %"


def _mark(mark_m: float, start_m: float) -> Iterator[str]:
    moved_m = mark_m - start_m
    if abs(moved_m) >= 0.005:
        yield f"the mark is moved {100.0 * abs(moved_m):.0f} cm from the rung's own to meet the load"


def _gates(offer: RungOffer) -> Iterator[str]:
    for gate in offer.rung.gates:
        yield f"gate passed: {gate_words(offer.move, gate)}"


def _stages(ask: Ask, parts: tuple[Part, ...]) -> Iterator[str]:
    for part in parts:
        rule = RULES.get(f"sessions before {part.stage}")
        if rule is not None:
            past = f"session {ask.number} is past the first {rule.values[0]:g}"
            yield f"{part.stage} reps are open: {past} ({rule.source})"


def _sets(ask: Ask) -> Iterator[str]:
    if ask.point.deload:
        rule = RULES["deload sets"]
        yield f"a deload: sets × {rule.values[0]:g} ({rule.source})"
