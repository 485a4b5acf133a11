"""From a squad to its stand cards: for every move the marks of the wanted loads, with figure and caution."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.each import Each
from leanmark.errors import FieldError
from leanmark.figures.draw import draw
from leanmark.figures.from_rep import rep_scenes
from leanmark.mechanics.arrays import Floats
from leanmark.moves.library import load_move, own_move_names
from leanmark.moves.of_rung import cautions_of, cues_of
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import MarkAnswer, Stand, marks, stand
from leanmark.moves.translate import mark_of, strap_setting
from leanmark.sheets.answers import CardAnswer, card_answers
from leanmark.sheets.card import Card, CardMove, CardRow
from leanmark.sheets.cards import FIGURE_FONT_PX, FIGURE_HEIGHT_PT, FIGURE_WIDTH_PT
from leanmark.squad.squad import NO_FILE, Squad, Trainee
from leanmark.units import UnitSystem, show_length, show_mass

GROUP: Final = 100
"""Trainees solved at once: enough to fill the arrays, few enough for 0.3 GB of memory; own figure."""


FIRST_SELECTION: Final = (
    "single-leg squat",
    "rear-foot split squat",
    "hip press",
    "hamstring curl",
    "row",
    "single-arm row",
    "chest press",
    "biceps curl",
    "triceps press",
    "standing trunk rotation",
    "knee tuck",
    "side plank",
    "sprint start",
    "Y raise",
)
"""What stands on a card where the squad file names no moves: about one a family, as many as fit on a page;
own choice. A coach's own moves on straps are added."""


def usual_moves() -> tuple[Move, ...]:
    """The first selection and the coach's own moves on straps, by family."""
    names = dict.fromkeys((*FIRST_SELECTION, *own_move_names()))
    found = [load_move(name) for name in names]
    return tuple(sorted((m for m in found if m.kit != "none"), key=lambda m: (m.family, m.move)))


@dataclass(frozen=True)
class CardSet:
    """The cards of a squad, and what they answer: by move, by trainee, by wanted load."""

    cards: tuple[Card, ...]
    answers: tuple[tuple[tuple[CardAnswer, ...], ...], ...]


def stand_cards(
    squad: Squad, date: str, progress: Callable[[], object] = lambda: None, each: Each = map
) -> CardSet:
    """Cards of every trainee for the squad's moves.

    progress is called after each job of ``jobs``; each maps over the jobs, here or on other processors.
    """
    cards: list[list[CardMove]] = [[] for _ in squad.trainees]
    answers: list[list[tuple[CardAnswer, ...]]] = []
    for (first, group, _), (made, answered) in zip(jobs(squad), each(_solved, jobs(squad)), strict=True):
        for number in range(len(group.trainees)):
            cards[first + number].append(made[number])
        if first == 0:
            answers.append([])
        answers[-1] += answered
        progress()
    made_cards = [
        Card(trainee.name, _build_line(trainee, squad.units), _rig_line(squad), date, tuple(own))
        for trainee, own in zip(squad.trainees, cards, strict=True)
    ]
    return CardSet(tuple(made_cards), tuple(tuple(by_trainee) for by_trainee in answers))


Job = tuple[int, Squad, Move]
"""The number of the first trainee of a group, the squad with this group alone, and the move."""


def jobs(squad: Squad) -> list[Job]:
    """The work cut into moves and groups of trainees, group by group within each move."""
    firsts = range(0, len(squad.trainees), GROUP)
    groups = [replace(squad, trainees=squad.trainees[at : at + GROUP], origin=NO_FILE) for at in firsts]
    return [
        (first, group, move)
        for move in card_moves(squad)
        for first, group in zip(firsts, groups, strict=True)
    ]


def card_moves(squad: Squad) -> tuple[Move, ...]:
    """The squad's own moves, or the usual ones, as far as the rig has their strap setting.

    Raises FieldError where that leaves none.
    """
    without = left_out(squad)
    moves = tuple(move for move in _wanted_moves(squad) if move.move not in without)
    if not moves:
        known = ", ".join(squad.rig.settings_m) or "none"
        remedy = f"measure {', '.join(dict.fromkeys(without.values()))} and add them to [rig.settings_m]"
        raise FieldError("moves", list(without), f"moves with a strap setting of the rig: {known}", remedy)
    return moves


def left_out(squad: Squad) -> dict[str, str]:
    """The wanted moves that the rig has no strap setting for, with the setting that they need."""
    needed = {move.move: strap_setting(move, _rung(move)) for move in _wanted_moves(squad)}
    return {move: setting for move, setting in needed.items() if setting not in squad.rig.settings_m}


def _wanted_moves(squad: Squad) -> tuple[Move, ...]:
    return tuple(load_move(name) for name in squad.moves) or usual_moves()


def _rung(move: Move) -> Rung:
    """The rung that stands on cards: the middle one."""
    return move.rungs[(len(move.rungs) - 1) // 2]


def wanted_loads(squad: Squad, move: Move) -> Floats:
    """Wanted loads [share]: the squad file's for moves measured by strap force, else the move's own."""
    own = tuple(percent / 100.0 for percent in move.loads_percent)
    return np.array(
        squad.wanted_load_fractions if move.load == "straps" and squad.wanted_load_fractions else own
    )


def _solved(job: Job) -> tuple[list[CardMove], tuple[tuple[CardAnswer, ...], ...]]:
    """One move of a group's cards, by trainee, and what they answer."""
    _, squad, move = job
    builds, known = zip(*((trainee.build, trainee.known) for trainee in squad.trainees), strict=True)
    people = people_of(builds, known)
    rung = _rung(move)
    standing = stand(move, rung, squad.rig, people)
    found = marks(standing, wanted_loads(squad, move))
    answers = card_answers(standing, found)
    drawn = _figures(standing, found, squad.units)
    setting = f"{strap_setting(move, rung)} ({show_length(standing.strap_m, squad.units)})"
    cards = []
    for figure, own in zip(drawn, answers, strict=True):
        rows, stretch = _one_stretch([_row(answer, squad.units) for answer in own])
        small_print = _small_print(move, stretch)
        title = f"{move.move}, {rung.rung}"
        caution, cues = " ".join(cautions_of(move, rung)), cues_of(move, rung)
        cards.append(CardMove(title, move.setup, setting, caution, figure, rows, cues, small_print))
    return cards, answers


def _row(answer: CardAnswer, units: UnitSystem) -> CardRow:
    wanted = f"{round(100.0 * answer.wanted, 1):g} %"
    if answer.mark_m is None:
        return CardRow(answer.rung, wanted, "", "", "", answer.reason)
    mark, low, high = (show_length(length_m, units) for length_m in (answer.mark_m, *answer.held_m))
    expected = f"{100 * answer.load:.0f} % ({100 * answer.low:.0f} to {100 * answer.high:.0f})"
    return CardRow(answer.rung, wanted, mark, f"{low} to {high}", expected, answer.reason)


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
    read = ", read with a scale" if trainee.known else ""
    return f"{show_length(build.stature_m, units)}, {show_mass(build.mass_kg, units)}, {sex}{read}"


def _rig_line(squad: Squad) -> str:
    rig = squad.rig
    return f"{rig.name}: anchor at {show_length(rig.anchor_height_m, squad.units)}, {rig.floor_name}"
