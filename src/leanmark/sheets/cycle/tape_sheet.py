"""The tape-mark sheet: what to tape under each anchor, as a ruled strip to scale and as a list."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Sequence
from typing import Final

from leanmark.cycle.form import Cycle
from leanmark.errors import FieldError
from leanmark.figures.plots.tape_strip import tape_strip
from leanmark.sheets.cycle.coach_sheet import Block, CoachSheet, Row, Table, coach_pdf, look_for
from leanmark.sheets.cycle.papers import SheetPaper
from leanmark.sheets.cycle.sessions import chosen_sessions
from leanmark.sheets.cycle.tapes import MarkUse, Tape, mark_uses, tapes
from leanmark.sheets.cycle.words import day_words, tied
from leanmark.squad.squad import Squad
from leanmark.units import UnitSystem, show_length

STRIP_PT: Final = (190.0, 540.0)
_PHONE_STRIP_PT: Final = 420.0
_PER_STRIP: Final = 36
"""Tapes on one strip, so that each label is read; own figure."""
_LISTED: Final = 8
"""Uses of a tape that are listed one by one; own figure."""
_ENDS: Final = {
    False: ("behind, where the back is", "ahead, the way one faces"),
    True: ("to the right", "to the left"),
}


def tape_sheet(
    cycle: Cycle,
    squad: Squad,
    paper: SheetPaper = "a4",
    *,
    days: Collection[dt.date] = (),
    trainees: Collection[str] = (),
    numbers: Collection[int] = (),
) -> bytes:
    """One PDF of the tapes that the cycle's sessions need, or those of some local dates, trainees or session
    numbers. All anchors of a rig are alike, so one strip serves each.

    Raises FieldError where no session is left or none has a floor mark, for a move that the library lacks,
    and for an unknown paper.
    """
    chosen = chosen_sessions(cycle, trainees, days, numbers)
    made = tapes(mark_uses(chosen, squad.units))
    if not made:
        raise FieldError(
            "sessions", "no floor mark", "sessions with moves on straps", "ask for other sessions"
        )
    when = ", ".join(day_words(day) for day in sorted(days)) or f"all sessions of {cycle.name}"
    rig, count = squad.rig, squad.rig.anchor_count
    about = (
        f"{rig.name}: {count} anchor{'' if count == 1 else 's'} at "
        f"{show_length(rig.anchor_height_m, squad.units)}. {cycle.name}"
    )
    blocks = tuple(_blocks(made, squad.units, paper, count))
    return coach_pdf([CoachSheet(f"Tapes: {when}", about, blocks)], paper, f"Tapes: {when}", cycle.name)


def _blocks(made: Sequence[Tape], units: UnitSystem, paper: SheetPaper, anchors: int) -> Iterable[Block]:
    alike = "under the anchor" if anchors == 1 else "under each of the anchors alike"
    yield Block(
        words=f"Hang a line from the anchor for the plumb point, then tape {alike}: {len(made)} "
        f"tape{'' if len(made) == 1 else 's'}. Distances are from the plumb point. "
        "A tape that serves several marks is within the tolerance of each.",
        cautions=("Press the tapes down flat and use a kind that does not slip underfoot.",),
    )
    yield Block(head="Which way one faces", words=_faces_words(made))
    numbered = list(enumerate(made, start=1))
    for across in (False, True):
        own = [(number, tape) for number, tape in numbered if tape.across == across]
        for first in range(0, len(own), _PER_STRIP):
            some = own[first : first + _PER_STRIP]
            yield _strip(some, across, units, paper, new_page=across or first > 0)


def _faces_words(made: Sequence[Tape]) -> str:
    """``The anchor: row, squat. Away from the anchor: chest press.``"""
    moves: dict[str, set[str]] = {}
    for use in (use for tape in made for use in tape.uses):
        moves.setdefault(use.faces, set()).add(use.move)
    return " ".join(
        f"{way[0].upper()}{way[1:]}: {', '.join(sorted(names, key=str.lower))}."
        for way, names in sorted(moves.items())
    )


def _strip(
    some: Sequence[tuple[int, Tape]], across: bool, units: UnitSystem, paper: SheetPaper, new_page: bool
) -> Block:
    """A strip with its list; positive numbers lie ahead, or to the left across."""
    look = look_for(paper, STRIP_PT[0] if paper != "phone" else None)
    height = _PHONE_STRIP_PT if paper == "phone" else STRIP_PT[1]
    labels = [f"{number}   {show_length(tape.place_m, units)}" for number, tape in some]
    svg = tape_strip([tape.place_m for _, tape in some], labels, _ENDS[across], look, height, units)
    rows = tuple(_row(number, tape, units) for number, tape in reversed(some))
    side = "Across, side-on to the anchor" if across else "Along the way one faces"
    heads = ("tape", "place", "used by, with the mark asked")
    return Block(
        head=f"{side}: tapes {some[0][0]} to {some[-1][0]}",
        picture=svg,
        said=f"Ruled strip with {len(some)} tapes, {_ENDS[across][0]} to {_ENDS[across][1]}",
        table=Table(heads, rows, (0, 1, 2.6)),
        new_page=new_page,
    )


def _row(number: int, tape: Tape, units: UnitSystem) -> Row:
    place = f"{show_length(tape.place_m, units)}: {side_words(tape.place_m, tape.across, units)}"
    several = any(len(use.sessions) > 1 for use in tape.uses) or len(tape.uses) > _LISTED
    uses = _short_uses(tape.uses, units) if several else (_use_words(use, units) for use in tape.uses)
    return str(number), tied(place), tied("; ".join(uses))


def _short_uses(uses: Sequence[MarkUse], units: UnitSystem) -> Iterable[str]:
    """Who uses a tape in which moves, trainee by trainee, where a whole list would be too long."""
    for trainee in dict.fromkeys(use.trainee for use in uses):
        own = [use for use in uses if use.trainee == trainee]
        moves = [
            f"{move} {' and '.join(show_length(use.mark_m, units) for use in own if use.move == move)}"
            for move in dict.fromkeys(use.move for use in own)
        ]
        yield f"{trainee}: {', '.join(moves)}"


def side_words(place_m: float, across: bool, units: UnitSystem) -> str:
    """``62 cm behind``, seen by the one who stands there."""
    shown = show_length(abs(place_m), units)
    if shown == show_length(0.0, units):
        return "on the plumb point"
    ways = ("to the right", "to the left") if across else ("behind", "ahead")
    return f"{shown} {ways[place_m > 0.0]}"


def _use_words(use: MarkUse, units: UnitSystem) -> str:
    sessions = f"session{'' if len(use.sessions) == 1 else 's'} {_numbers(use.sessions)}"
    return f"{use.trainee}, {use.move}, {use.contact} {show_length(use.mark_m, units)} ({sessions})"


def _numbers(numbers: Sequence[int]) -> str:
    """``1, 3 to 5``."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" if len(run) > 2 else f"{run[0]}, {run[1]}"
        for run in runs
    )
