"""The squad's floor sheet: who is at which anchor when, on which strap setting, and who spots whom."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Final

from leanmark.cycle.floor.clock import clock
from leanmark.cycle.floor.form import FLOOR, FloorPlan, Stint, Turn
from leanmark.cycle.form import Cycle, Line, Session
from leanmark.figures.plots.floor_chart import SetSpell, floor_chart
from leanmark.figures.plots.floor_straps import StrapSpell
from leanmark.sheets.cycle.coach_sheet import Block, CoachSheet, Row, Table, coach_pdf, look_for
from leanmark.sheets.cycle.papers import SheetPaper
from leanmark.sheets.cycle.words import mark_words, start_words, tied
from leanmark.squad.squad import Squad
from leanmark.units import UnitSystem, show_length

ON_FLOOR: Final = "floor"
"""What the place away from the straps is called."""
_HEADS: Final[Row] = ("round", "strap", "who", "move", "sets start at", "floor mark", "spotted by")
_WIDE: Final = (0.0, 1.2, 1.0, 1.3, 1.4, 1.7, 0.9)
Spells = list[tuple[Turn, ...]]


def floor_sheet(plan: FloorPlan, cycle: Cycle, squad: Squad, paper: SheetPaper = "a4") -> bytes:
    """The floor sheet of a group session as PDF. cycle: that the plan's lines are of, for the floor marks;
    squad: for the rig's strap lengths and the units.

    Raises FieldError for an unknown paper and for a strap setting that the rig lacks.
    """
    lines = {
        line.uid: (session, line) for one in cycle.plans for session in one.sessions for line in session.lines
    }
    found = [lines[turn.line] for turn in plan.turns if turn.line in lines]
    when = start_words(found[0][0]) if found else cycle.name
    sheet = CoachSheet(
        f"Floor sheet, {when}",
        f"{cycle.name}. {squad.rig.name}: anchor at {show_length(squad.rig.anchor_height_m, squad.units)}",
        tuple(_blocks(plan, lines, squad, paper)),
    )
    return coach_pdf([sheet], paper, f"Floor sheet, {when}", cycle.name)


def _blocks(
    plan: FloorPlan, lines: dict[str, tuple[Session, Line]], squad: Squad, paper: SheetPaper
) -> Iterable[Block]:
    yield Block(words=_summary(plan), cautions=plan.notes)
    if not plan.turns:
        return
    spells, look, people = spells_of(plan.turns), look_for(paper), len(plan.ask.who)
    yield Block(
        head="Who is at which anchor when",
        words="Bars are sets; the line over them is the strap, hatched while it is set anew.",
        picture=floor_chart(_places(plan), _by_place(spells), _straps(plan.stints), look, "Anchors by time"),
        said=f"Floor chart by anchor: {_count(people, 'trainee')}, {_count(len(plan.ask.anchors), 'anchor')}",
    )
    yield Block(
        head="Where each trainee is when",
        picture=floor_chart(plan.ask.who, _by_trainee(spells), (), look, "Trainees by time"),
        said=f"Floor chart by trainee: {_count(people, 'trainee')}",
    )
    yield from _anchor_tables(plan, spells, lines, squad)
    yield from _people(plan, spells)


def _count(number: int, of: str) -> str:
    return f"{number} {of}{'' if number == 1 else 's'}"


def _summary(plan: FloorPlan) -> str:
    changes = sum(use.strap_changes for use in plan.anchors)
    waited = sum(wait.wait_s for wait in plan.waits) / 60.0
    fits = "fits into" if plan.fits else "does not fit into"
    return (
        f"{clock(plan.length_s)} min from the first set to the end of the last; "
        f"{fits} {plan.ask.minutes:g} min. Strap changes: {changes}. Waiting, all together: {waited:.0f} min."
    )


def spells_of(turns: Sequence[Turn]) -> Spells:
    """The sets of each trainee's line at one place, by start of the first set."""
    ordered = sorted(turns, key=lambda turn: (turn.trainee, turn.line, turn.anchor, turn.start_s))
    grouped = groupby(ordered, key=lambda turn: (turn.trainee, turn.line, turn.anchor))
    return sorted((tuple(own) for _, own in grouped), key=lambda own: (own[0].start_s, own[0].trainee))


def _place(anchor: str) -> str:
    return ON_FLOOR if anchor == FLOOR else anchor


def _places(plan: FloorPlan) -> tuple[str, ...]:
    on_floor = any(turn.anchor == FLOOR for turn in plan.turns)
    return (*plan.ask.anchors, *((ON_FLOOR,) if on_floor else ()))


def _sets_s(own: Sequence[Turn]) -> tuple[tuple[float, float], ...]:
    return tuple((turn.start_s, turn.end_s) for turn in own)


def _by_place(spells: Spells) -> list[SetSpell]:
    return [
        SetSpell(_place(own[0].anchor), f"{own[0].trainee}: {own[0].move}", _sets_s(own)) for own in spells
    ]


def _by_trainee(spells: Spells) -> list[SetSpell]:
    return [
        SetSpell(own[0].trainee, f"{_place(own[0].anchor)}: {own[0].move}", _sets_s(own)) for own in spells
    ]


def _straps(stints: Sequence[Stint]) -> list[StrapSpell]:
    return [StrapSpell(one.anchor, one.strap, one.change_from_s, one.start_s, one.end_s) for one in stints]


def _anchor_tables(
    plan: FloorPlan, spells: Spells, lines: dict[str, tuple[Session, Line]], squad: Squad
) -> Iterable[Block]:
    """Round by round: what is done at each anchor, its strap settings, marks and spotters."""
    spotters = {(pair.trainee, pair.line): pair.spotter for pair in plan.pairs}
    for place in _places(plan):
        own = [spell for spell in spells if _place(spell[0].anchor) == place]
        stints = [one for one in plan.stints if one.anchor == place]
        rounds = [_round(spell[0], stints) for spell in own]
        firsts = [at == 0 or rounds[at] != rounds[at - 1] for at in range(len(own))]
        rows = [
            (
                str(number + 1) if first and stints else "",
                _strap_words(stints[number], squad) if first and stints else "",
                spell[0].trainee,
                spell[0].move,
                ", ".join(clock(one.start_s) for one in spell),
                _mark(lines.get(spell[0].line), squad.units),
                spotters.get((spell[0].trainee, spell[0].line), ""),
            )
            for spell, number, first in zip(own, rounds, firsts, strict=True)
        ]
        if rows:
            yield Block(head=f"{place[0].upper()}{place[1:]}, round by round", table=_table(rows))


def _table(rows: Sequence[Row]) -> Table:
    """The rows under their heads, without columns that would be empty."""
    filled = [column for column in range(len(_HEADS)) if any(row[column] for row in rows)]

    def kept(row: Row) -> Row:
        return tuple(row[column] for column in filled)

    wide = tuple(_WIDE[column] for column in filled)
    return Table(kept(_HEADS), tuple(kept(row) for row in rows), wide)


def _round(turn: Turn, stints: Sequence[Stint]) -> int:
    """The stint that a set falls into, the last that has started."""
    started = [at for at, one in enumerate(stints) if one.start_s <= turn.start_s + 1e-6]
    return started[-1] if started else 0


def _strap_words(stint: Stint, squad: Squad) -> str:
    length = show_length(squad.rig.strap_length_m(stint.strap), squad.units)
    if stint.start_s > stint.change_from_s:
        return f"{stint.strap} ({length}), set at {clock(stint.change_from_s)}"
    return f"{stint.strap} ({length}), set before the session"


def _mark(found: tuple[Session, Line] | None, units: UnitSystem) -> str:
    return tied(mark_words(found[1], units)) if found else ""


def _people(plan: FloorPlan, spells: Spells) -> Iterable[Block]:
    """Who spots whom, and how long each trainee is there."""
    sets = {(own[0].trainee, own[0].line): own for own in spells}
    rows = tuple(
        (
            pair.trainee,
            sets[pair.trainee, pair.line][0].move if (pair.trainee, pair.line) in sets else "",
            clock(sets[pair.trainee, pair.line][0].start_s) if (pair.trainee, pair.line) in sets else "",
            pair.spotter,
            pair.comes_from if pair.comes_from != pair.spotter else "",
        )
        for pair in plan.pairs
    )
    if rows:
        heads = ("trainee", "move", "from", "spotted by", "who comes from")
        words = "Who spots stands close, watches the whole set and helps out of the straps."
        yield Block(head="Who spots whom", words=words, table=Table(heads, rows, (1.4, 1.4, 0.6, 1.4, 1)))
    waits = tuple(
        (one.trainee, clock(one.first_s), clock(one.last_s), f"{one.wait_s / 60.0:.1f} min", str(one.walks))
        for one in plan.waits
    )
    heads = ("trainee", "first set", "done at", "waits beyond rests", "walks")
    yield Block(head="Each trainee's time", table=Table(heads, waits, (2, 1, 1, 1.3, 0.7)))
