"""What a coach can do when a session does not fit into its minutes, found with the list schedule."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from msgspec.structs import replace

from leanmark.cycle.floor.bound import Bound, least_length
from leanmark.cycle.floor.clock import SECONDS_A_MINUTE, whole_minutes
from leanmark.cycle.floor.form import FloorAsk
from leanmark.cycle.floor.list_schedule import list_schedule
from leanmark.cycle.floor.score import length_s
from leanmark.cycle.floor.simulate import play
from leanmark.cycle.floor.tasks import floor_of

MOST_ANCHORS_MORE: Final = 8
"""More anchors than that are not offered; own figure."""


def misfit_notes(ask: FloorAsk, length: int, bound: Bound) -> list[str]:
    """Why the session does not fit, and the nearest plans that do, in plain words."""
    return [
        f"This squad does not fit into {ask.minutes:g} min: the plan takes {whole_minutes(length)}. "
        f"No plan can take less than {whole_minutes(bound.length_s)}; the bottleneck is {bound.because}.",
        *_ways_out(ask),
    ]


def _ways_out(ask: FloorAsk) -> list[str]:
    found = [note for note in (_fewer_sets(ask), _groups(ask), _more_anchors(ask)) if note]
    return found or ["Neither fewer sets nor groups nor more anchors make it fit; allow more minutes."]


def _fits(ask: FloorAsk) -> int | None:
    """The list schedule's length where it fits; what arithmetic rules out is not listed."""
    floor = floor_of(ask)
    if least_length(floor).length_s > ask.minutes * SECONDS_A_MINUTE:
        return None
    took_s = length_s(play(floor, list_schedule(floor), "at once"))
    return took_s if took_s <= ask.minutes * SECONDS_A_MINUTE else None


def _fewer_sets(ask: FloorAsk) -> str:
    most = max(spell.sets for spell in ask.spells)
    for fewer in range(1, most):
        cut = tuple(replace(spell, sets=max(1, spell.sets - fewer)) for spell in ask.spells)
        took_s = _fits(replace(ask, spells=cut))
        if took_s is not None:
            what = "one set less" if fewer == 1 else f"{fewer} sets less"
            return f"It fits with {what} of every move (at least one is left): {whole_minutes(took_s)}."
    return ""


def _groups(ask: FloorAsk) -> str:
    """The fewest groups, one after another, that each fit."""
    fewest, most = 2, len(ask.who)
    if most < 2 or _longest_group(ask, most) is None:
        return ""
    while fewest < most:
        middle = (fewest + most) // 2
        if _longest_group(ask, middle) is None:
            fewest = middle + 1
        else:
            most = middle
    took_s = _longest_group(ask, most)
    people = -(-len(ask.who) // most)
    each = "" if took_s is None else f"each takes up to {whole_minutes(took_s)}"
    return f"It fits in {most} groups of at most {people}, one after another: {each}." if each else ""


def _longest_group(ask: FloorAsk, groups: int) -> int | None:
    """The longest group's length, None as soon as one does not fit."""
    lengths_s = []
    for number in range(groups):
        who = ask.who[number::groups]
        took_s = _fits(_only(ask, who))
        if took_s is None:
            return None
        lengths_s.append(took_s)
    return max(lengths_s)


def _only(ask: FloorAsk, who: Iterable[str]) -> FloorAsk:
    names = frozenset(who)
    kept = tuple(spell for spell in ask.spells if spell.trainee in names)
    return replace(ask, who=tuple(name for name in ask.who if name in names), spells=kept)


def _more_anchors(ask: FloorAsk) -> str:
    if all(spell.anchor is not None or not spell.strap for spell in ask.spells):
        return ""
    for more in range(1, MOST_ANCHORS_MORE + 1):
        names = tuple(f"{ask.anchors[0]} + {number}" for number in range(1, more + 1))
        took_s = _fits(replace(ask, anchors=ask.anchors + names))
        if took_s is not None:
            what = "one anchor more" if more == 1 else f"{more} anchors more"
            return f"It fits with {what}: {whole_minutes(took_s)}."
    return ""
