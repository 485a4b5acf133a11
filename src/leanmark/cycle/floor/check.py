"""Whether an ask can be planned at all. Every refusal names the field and what to do."""

from __future__ import annotations

import math
from typing import Final

from leanmark.cycle.floor.form import FloorAsk, Spell
from leanmark.errors import FieldError

LONGEST_MINUTES: Final = 24 * 60
"""A session of more than a day is a slip of the pen; own figure."""
LONGEST_S: Final = 3600.0
"""Likewise a set, a rest, a change or a walk of more than an hour; own figure."""
MOST_SETS: Final = 50
"""Likewise sets of one spell; own figure."""


def check_ask(ask: FloorAsk) -> None:
    """Refuse what no plan can be made of.

    Raises:
        FieldError: nobody trains, a name is used twice or not known, a time is negative or not a number, a
        move needs an anchor and there is none, or a limit leaves no room.
    """
    _check_names("who", ask.who)
    _check_names("anchors", ask.anchors)
    if not ask.spells:
        raise FieldError("spells", ask.spells, "at least one", "name somebody who trains in this session")
    if not 0.0 < ask.minutes <= LONGEST_MINUTES:
        remedy = "give the minutes that the session may take"
        raise FieldError("minutes", ask.minutes, f"above 0, up to {LONGEST_MINUTES}", remedy)
    if ask.people_per_anchor < 1:
        remedy = "let at least one trainee use an anchor"
        raise FieldError("people_per_anchor", ask.people_per_anchor, "1 or more", remedy)
    for field in ("change_s", "walk_s", "swap_s"):
        _check_time(field, getattr(ask, field), 0.0)
    for spell in ask.spells:
        _check_spell(ask, spell)
    lines = [(spell.trainee, spell.line) for spell in ask.spells]
    if len(set(lines)) < len(lines):
        twice = next(line for line in lines if lines.count(line) > 1)
        remedy = f"give each line of {twice[0]} a uid of its own"
        raise FieldError("line", twice[1], "each once a trainee", remedy)


def _check_names(field: str, names: tuple[str, ...]) -> None:
    for name in names:
        if not name.strip():
            raise FieldError(field, name, "names that are not empty", "give every name")
    if len(set(names)) < len(names):
        twice = next(name for name in names if names.count(name) > 1)
        raise FieldError(field, twice, "each name once", "tell the two apart, or leave one out")


def _check_time(field: str, seconds: float, least_s: float) -> None:
    if not (math.isfinite(seconds) and least_s <= seconds <= LONGEST_S):
        raise FieldError(field, seconds, f"{least_s:g}–{LONGEST_S:g} s", "give the time in seconds")


def _check_spell(ask: FloorAsk, spell: Spell) -> None:
    if spell.trainee not in ask.who:
        remedy = "add the trainee to who, or correct the name"
        raise FieldError("trainee", spell.trainee, "a name of who", remedy)
    if not 1 <= spell.sets <= MOST_SETS:
        raise FieldError("sets", spell.sets, f"1–{MOST_SETS}", f"correct the sets of {spell.move}")
    _check_time("set_s", spell.set_s, 1.0)
    _check_time("rest_s", spell.rest_s, 0.0)
    if spell.anchor is not None and not spell.strap:
        remedy = f"give {spell.move} a strap setting, or no anchor"
        raise FieldError("anchor", spell.anchor, "none without a strap", remedy)
    if spell.anchor is not None and spell.anchor not in ask.anchors:
        remedy = "name one of the session's anchors"
        raise FieldError("anchor", spell.anchor, ", ".join(ask.anchors) or "none", remedy)
    if spell.strap and not ask.anchors:
        remedy = f"give an anchor, or leave out {spell.move}, which needs one"
        raise FieldError("anchors", ask.anchors, "at least one", remedy)
