"""Why a spell is where it is and when it is, in plain words, read off the plan itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from leanmark.cycle.floor.clock import clock
from leanmark.cycle.floor.form import COACH, FLOOR, FloorPlan, Spell, Turn
from leanmark.errors import FieldError


def why(plan: FloorPlan, trainee: str, line: str) -> tuple[str, ...]:
    """What led to the place, the start and the spotter of one trainee's spell, and what it waits for.

    Raises:
        FieldError: the plan has no such trainee, or the trainee no such line.
    """
    spell = _spell(plan, trainee, line)
    own = [turn for turn in plan.turns if (turn.trainee, turn.line) == (trainee, line)]
    return (
        *_place(plan, spell, own),
        *_order(plan, spell),
        *_start(plan, spell, own[0]),
        *_between(plan, spell, own),
        *_spotting(plan, spell),
    )


def _spell(plan: FloorPlan, trainee: str, line: str) -> Spell:
    if trainee not in plan.ask.who:
        raise FieldError("trainee", trainee, ", ".join(plan.ask.who), "name a trainee of the session")
    lines = {spell.line: spell for spell in plan.ask.spells if spell.trainee == trainee}
    if line not in lines:
        raise FieldError("line", line, ", ".join(lines) or "none", f"name a line of {trainee}")
    return lines[line]


def _place(plan: FloorPlan, spell: Spell, own: Sequence[Turn]) -> Iterator[str]:
    anchor = own[0].anchor
    if anchor == FLOOR:
        yield f"{spell.move} needs no anchor: it is done on the floor, and waits for nobody's strap."
        return
    stint = next(
        one for one in plan.stints if one.anchor == anchor and one.start_s <= own[0].start_s <= one.end_s
    )
    if spell.anchor is not None:
        yield f"It is at {anchor} because the ask ties it to that anchor."
    yield f"The strap of {anchor} is at {spell.strap} from {clock(stint.start_s)} to {clock(stint.end_s)}."
    used = _sharers(plan, own)
    if used:
        yield f"It shares the strap in turns with {', '.join(used)}."


def _sharers(plan: FloorPlan, own: Sequence[Turn]) -> list[str]:
    """Who else has a turn on the strap between the spell's first and last set."""
    there = (turn for turn in plan.turns if turn.anchor == own[0].anchor)
    between = (turn for turn in there if own[0].start_s < turn.start_s < own[-1].start_s)
    return list(dict.fromkeys(turn.trainee for turn in between if turn.trainee != own[0].trainee))


def _order(plan: FloorPlan, spell: Spell) -> Iterator[str]:
    others = [one for one in plan.ask.spells if one.trainee == spell.trainee and one.line != spell.line]
    before = [one.move for one in others if one.order < spell.order]
    after = [one.move for one in others if one.order > spell.order]
    if before:
        yield f"The order of the session puts it after {', '.join(before)}."
    if after:
        yield f"The order of the session puts it before {', '.join(after)}."
    if any(one.order == spell.order for one in others):
        yield "Within its class of order the plan was free to choose."


def _start(plan: FloorPlan, spell: Spell, first: Turn) -> Iterator[str]:
    """What held the first set: the trainee's own rest, the strap, or the plan."""
    ready_s, ready_why = _ready(plan, spell, first)
    free_s, free_why = _strap_free(plan, first)
    starts = f"It starts at {clock(first.start_s)}"
    if first.start_s <= max(ready_s, free_s):
        reason = free_why if free_s > ready_s else ready_why
        yield f"{starts}: {reason}." if reason else f"{starts}, as soon as the session begins."
    else:
        yield f"{starts} though it could at {clock(max(ready_s, free_s))}: all goals together cost less so."
    wait_s = first.start_s - ready_s
    if wait_s > 0:
        yield f"{spell.trainee} waits {wait_s:g} s for it."


def _ready(plan: FloorPlan, spell: Spell, first: Turn) -> tuple[float, str]:
    """When the trainee could start, and why not sooner."""
    earlier = [turn for turn in plan.turns if turn.trainee == spell.trainee and turn.start_s < first.start_s]
    if not earlier:
        return 0.0, ""
    last = earlier[-1]
    rest_s = next(
        one.rest_s for one in plan.ask.spells if (one.trainee, one.line) == (last.trainee, last.line)
    )
    walks = last.anchor != first.anchor and plan.ask.walk_s > rest_s
    gap_s = plan.ask.walk_s if walks else rest_s
    what = "walks" if walks else "rests"
    return last.end_s + gap_s, f"until then {spell.trainee} {what} {gap_s:g} s after {last.move}"


def _strap_free(plan: FloorPlan, first: Turn) -> tuple[float, str]:
    """When the strap could be used, and why not sooner."""
    earlier = [turn for turn in plan.turns if turn.anchor == first.anchor and turn.start_s < first.start_s]
    if first.anchor == FLOOR or not earlier:
        return 0.0, ""
    last = earlier[-1]
    if last.strap != first.strap:
        change_s = max(plan.ask.change_s, plan.ask.swap_s)
        done = f"the strap is set from {last.strap} to {first.strap}"
        return last.end_s + change_s, f"after {last.trainee}'s set until {clock(last.end_s)} {done}"
    swap_s = plan.ask.swap_s if last.trainee != first.trainee else 0.0
    return last.end_s + swap_s, f"the strap is {last.trainee}'s until {clock(last.end_s)}, then handed over"


def _between(plan: FloorPlan, spell: Spell, own: Sequence[Turn]) -> Iterator[str]:
    longer_s = own[-1].end_s - own[0].start_s - spell.sets * spell.set_s - (spell.sets - 1) * spell.rest_s
    if longer_s >= 1.0:
        yield f"Its rests come to {longer_s:g} s more than prescribed in all, since the strap is shared."


def _spotting(plan: FloorPlan, spell: Spell) -> Iterator[str]:
    pair = next((one for one in plan.pairs if (one.trainee, one.line) == (spell.trainee, spell.line)), None)
    if pair is None:
        return
    reasons = {
        "same anchor": "who rests at the same anchor in all of its sets",
        "near": "who is free in all of its sets",
        COACH: "since no trainee is free in all of its sets",
    }
    who = "The coach" if pair.comes_from == "coach" else pair.spotter
    yield f"{who} spots, {reasons[pair.comes_from]}."
