"""From a squad to its stand cards: for every move the marks of the wanted loads, with figure and caution."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from leanmark.figures.draw import draw
from leanmark.figures.from_rep import rep_scenes
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.moves.library import load_move, move_names
from leanmark.moves.people import People, people_of
from leanmark.moves.schema import Move
from leanmark.moves.stand import Held, MarkAnswer, Stand, held_loads, marks, stand
from leanmark.moves.translate import mark_of, strap_setting
from leanmark.sheets.card import Card, CardMove, CardRow
from leanmark.sheets.cards import FIGURE_FONT_PX, FIGURE_HEIGHT_PT, FIGURE_WIDTH_PT
from leanmark.sheets.each import Each
from leanmark.squad.squad import Squad, Trainee
from leanmark.units import UnitSystem, show_length, show_mass


def strap_moves() -> tuple[Move, ...]:
    """The library's moves on straps, by family."""
    found = [load_move(name) for name in move_names()]
    return tuple(sorted((m for m in found if m.kit != "none"), key=lambda m: (m.family, m.move)))


@dataclass(frozen=True)
class CardSet:
    """The cards of a squad, and one row per trainee and move for a summary: trainee number, move, mark [m]
    of the middle wanted load or None, reason."""

    cards: tuple[Card, ...]
    summary: tuple[tuple[int, str, float | None, str], ...]


def stand_cards(
    squad: Squad, date: str, progress: Callable[[], object] = lambda: None, each: Each = map
) -> CardSet:
    """Cards of every trainee for the squad's moves.

    progress is called after each move; each maps over the moves, here or on other processors.
    """
    people = people_of(
        [trainee.build for trainee in squad.trainees], [trainee.known for trainee in squad.trainees]
    )
    by_move: list[list[CardMove]] = []
    summary: list[tuple[int, str, float | None, str]] = []
    for made, told in each(partial(_card_moves, squad, people), card_moves(squad)):
        by_move.append(made)
        summary += told
        progress()
    cards = [
        Card(
            trainee.name,
            _build_line(trainee, squad.units),
            _rig_line(squad),
            date,
            tuple(rows[number] for rows in by_move),
        )
        for number, trainee in enumerate(squad.trainees)
    ]
    return CardSet(tuple(cards), tuple(summary))


def card_moves(squad: Squad) -> tuple[Move, ...]:
    """The squad's own moves, or every strap move of the library."""
    return tuple(load_move(name) for name in squad.moves) or strap_moves()


def wanted_loads(squad: Squad, move: Move) -> Floats:
    """Wanted loads [share]: the squad file's for moves measured by strap force, else the move's own."""
    own = tuple(percent / 100.0 for percent in move.loads_percent)
    return np.array(
        squad.wanted_load_fractions if move.load == "straps" and squad.wanted_load_fractions else own
    )


def _card_moves(
    squad: Squad, people: People, move: Move
) -> tuple[list[CardMove], list[tuple[int, str, float | None, str]]]:
    rung = move.rungs[(len(move.rungs) - 1) // 2]
    standing = stand(move, rung, squad.rig, people)
    wanted = wanted_loads(squad, move)
    answers = marks(standing, wanted)
    who, place = _places(answers)
    held = held_loads(standing, place, who) if len(who) else None
    drawn = _figures(standing, answers, squad.units)
    cards, summary, first = [], [], 0
    for person, rows in enumerate(answers):
        found = [row for row in rows if row.answers]
        shown, stretch = _one_stretch(_rows(standing, rows, held, first, squad.units))
        first += len(found)
        cards.append(
            CardMove(
                f"{move.move}, {rung.rung}",
                move.setup,
                f"{strap_setting(move, rung)} ({show_length(standing.strap_m, squad.units)})",
                move.caution,
                drawn[person],
                shown,
                move.cues,
                _small_print(move, stretch),
            )
        )
        middle = rows[len(rows) // 2]
        mark = middle.answers[0].mark_m if middle.answers else None
        summary.append((person, move.move, mark, "" if mark is not None else not_reached(middle)))
    return cards, summary


def _places(answers: Sequence[Sequence[MarkAnswer]]) -> tuple[np.ndarray, Floats]:
    pairs = [
        (person, row.answers[0].mark_m) for person, rows in enumerate(answers) for row in rows if row.answers
    ]
    return np.array([p for p, _ in pairs], dtype=np.intp), np.array([m for _, m in pairs])


def _rows(
    standing: Stand, rows: Sequence[MarkAnswer], held: Held | None, first: int, units: UnitSystem
) -> list[CardRow]:
    """The card rows of one person; ``first`` is where the person's answers start in ``held``."""
    shown = []
    for row in rows:
        wanted = f"{100.0 * row.wanted:.0f} %"
        if not row.answers or held is None:
            shown.append(CardRow(standing.rung.rung, wanted, "", "", "", not_reached(row)))
            continue
        answer = row.answers[0]
        low, high = answer.interval.low_m, answer.interval.high_m
        expected = (
            f"{100 * held.load[first]:.0f} % ({100 * held.low[first]:.0f} to {100 * held.high[first]:.0f})"
        )
        note = "" if held.reason[first] == FINE else REASONS[int(held.reason[first])]
        span = f"{show_length(low, units)} to {show_length(high, units)}"
        shown.append(
            CardRow(standing.rung.rung, wanted, show_length(answer.mark_m, units), span, expected, note)
        )
        first += 1
    return shown


def _small_print(move: Move, stretch: str) -> str:
    """Where the position holds, and whose share the loads are where not the straps'."""
    held = f"holds from {stretch}" if stretch else ""
    of_strength = "loads of strength" if move.load == "largest share" else ""
    return " · ".join(filter(None, (held, of_strength)))


def _one_stretch(rows: list[CardRow]) -> tuple[tuple[CardRow, ...], str]:
    """The rows without their range of marks, and that range, where it is the same for all of them."""
    ranges = {row.mark_range for row in rows if row.floor_mark}
    if len(ranges) != 1:
        return tuple(rows), ""
    return tuple(replace(row, mark_range="") for row in rows), ranges.pop()


def not_reached(row: MarkAnswer) -> str:
    """Why a wanted load has no mark, short enough for a card."""
    if not row.feasible:
        return REASONS[row.scan_reason]
    least = 100.0 * min(i.least_load for i in row.feasible)
    most = 100.0 * max(i.greatest_load for i in row.feasible)
    return f"out of reach here: {least:.0f} to {most:.0f} % can be had"


def _figures(standing: Stand, answers: Sequence[Sequence[MarkAnswer]], units: UnitSystem) -> list[str]:
    """Each person's rep drawn at the mark of the middle wanted load that can be had."""
    at = mark_of(standing.move, standing.rung).start_m
    middles = []
    for rows in answers:
        found = [row.answers[0].mark_m for row in rows if row.answers]
        middles.append(found[len(found) // 2] if found else at)
    count = len(middles)
    rep, position = standing.rep(np.array(middles), np.arange(count), nodes=3)
    drawn = []
    for person in range(count):
        row = int(np.flatnonzero(position == person)[0])
        if not rep.solution.met.reshape(rep.count, -1)[row].all():
            drawn.append("")
            continue
        scenes = rep_scenes(standing, rep, row)
        drawn.append(
            draw(
                scenes,
                "front" if standing.task.mark_across else "side",
                FIGURE_WIDTH_PT,
                FIGURE_HEIGHT_PT,
                theme="print",
                units=units,
                font_px=FIGURE_FONT_PX,
                forces=False,
            )
        )
    return drawn


def _build_line(trainee: Trainee, units: UnitSystem) -> str:
    build = trainee.build
    sex = build.sex or "sex not stated: loads span both tables"
    return f"{show_length(build.stature_m, units)}, {show_mass(build.mass_kg, units)}, {sex}"


def _rig_line(squad: Squad) -> str:
    rig = squad.rig
    return f"{rig.name}: anchor at {show_length(rig.anchor_height_m, squad.units)}, {rig.floor_name}"
