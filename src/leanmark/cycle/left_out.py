"""Moves that a trainee does not do, and why."""

from __future__ import annotations

from collections.abc import Collection

from leanmark.cycle.form import LeftOut
from leanmark.cycle.offers import RungOffer
from leanmark.cycle.person import Person

BETTER_WITHOUT = "nothing bars it; the goals are met better without"


def left_out(person: Person, used: Collection[str]) -> tuple[LeftOut, ...]:
    """Every move of the library that is not in the plan, with its reasons."""
    return tuple(
        LeftOut(move, *reasons_of(person, move)) for move in sorted(person.ladders) if move not in used
    )


def reasons_of(person: Person, move: str) -> tuple[tuple[str, ...], bool]:
    """Why a move is not in the plan; and whether nothing bars it."""
    slow = [offer for offer in person.ladders[move] if "controlled" in offer.stages]
    open_rungs = [offer for offer in slow if not person.bars_of(offer)]
    if not open_rungs:
        least = min(slow or person.ladders[move], key=lambda offer: len(person.bars_of(offer)))
        words = [f"rung '{least.rung.rung}' {bar.reason}" for bar in person.bars_of(least)]
        return tuple(words or ["it has no rung at controlled speed"]), False
    possible = [place for place in person.places if person.pick_open(move, place)]
    if len(possible) == len(person.places):
        return (BETTER_WITHOUT,), True
    return (_out_of_reach(person, open_rungs),), False


def _out_of_reach(person: Person, rungs: list[RungOffer]) -> str:
    easiest, hardest = (pick(rungs, key=lambda offer: offer.demand) for pick in (min, max))
    family = easiest.move.family
    asks = [person.ask(family, place) for place in person.places]
    most = max(ask.wanted for ask in asks)
    capacity = person.level(family).capacity
    if easiest.demand > most:
        return (
            f"too hard: rung '{easiest.rung.rung}' asks {100.0 * easiest.demand:.0f} % of reference "
            f"strength, of which the level gives {100.0 * capacity:.0f} % once and the goal wants at most "
            f"{100.0 * most:.0f} %"
        )
    return (
        f"too easy: the hardest open rung, '{hardest.rung.rung}', asks {100.0 * hardest.demand:.0f} % of "
        f"reference strength, the goal wants up to {100.0 * most:.0f} %"
    )
