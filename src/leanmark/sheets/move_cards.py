"""From the library to move cards: two pages a move, the front for the trainee, the back for the coach."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from itertools import pairwise
from typing import Final

from leanmark.mechanics.arrays import Floats
from leanmark.moves.base import base_words
from leanmark.moves.gates import gate_words
from leanmark.moves.ladder.demand import demand_of, solved
from leanmark.moves.ladder.finer import finer_steps
from leanmark.moves.ladder.steps import steps_of
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.of_rung import cautions_of, cues_of, is_hold, lever_of, stages_of, tempo_s_of
from leanmark.moves.people import People, people_of
from leanmark.moves.schema import Fault, Move, Rung
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of, strap_setting
from leanmark.rig.rig import Rig
from leanmark.sheets.cards import PAPER_NAMES, SAFETY, Paper
from leanmark.sheets.move_card import MoveCard, RungLine
from leanmark.sheets.move_figures import FIGURE_PT, phase_figures, thumb
from leanmark.sheets.typeset import typeset
from leanmark.units import UnitSystem, show_length

TEMPLATE: Final = "move_card.typ"
_ALWAYS: Final = ("Pain, dizziness or numbness:", "Marks")
_WHERE: Final = {"straps": "Anchor:", "cradles": "Feet in cradles:", "ballistic": "Ballistic reps"}


@dataclass(frozen=True)
class CardJob:
    """One card to be made, as ``move_card`` takes it; moves and rungs by name, to be sent to other
    processors."""

    move: str
    shown: str | None
    rig: Rig
    people: People
    about: str
    units: UnitSystem


def solved_card(job: CardJob) -> MoveCard:
    """The card of a job; the middle rung is shown large where none is named."""
    move = load_move(job.move)
    shown = find_rung(move, job.shown) if job.shown else move.rungs[(len(move.rungs) - 1) // 2]
    return move_card(move, shown, job.rig, job.people, job.about, job.units)


def move_card(move: Move, shown: Rung, rig: Rig, people: People, about: str, units: UnitSystem) -> MoveCard:
    """One move's card, its numbers for some people on a rig, its figures of the first of them. shown: the
    rung of the large figures; about: who and where, in words.

    Raises FieldError for a strap setting that the rig lacks.
    """
    standing = stand(move, shown, rig, people)
    rungs = _rung_lines(move, rig, people, units)
    mark = mark_of(move, shown)
    return MoveCard(
        title=move.move,
        kind=" · ".join((move.family, f"{move.plane} plane", _kit_words(move))),
        purpose=_sentence(move.purpose),
        shown=shown.rung,
        about=about,
        figures=phase_figures(standing, units),
        setup=move.setup,
        setting=""
        if not standing.task.holds
        else f"{strap_setting(move, shown)} ({show_length(standing.strap_m, units)})",
        mark=f"{mark.of} at {_mark_words(move, shown, units)}",
        tempo=_tempo_words(move, shown),
        stages=", then ".join(stages_of(move, shown)),
        breathing=move.breathing,
        cues=cues_of(move, shown),
        faults=_pairs(move.faults),
        cautions=cautions_of(move, shown),
        stop=move.stop,
        not_for=move.not_for,
        works=tuple((action, ", ".join(names)) for action, names in move.works.items()),
        helps=tuple((action, ", ".join(names)) for action, names in move.helps.items()),
        rungs=rungs,
        finer=_finer_words(move, rig, people, units),
        safety=_safety(move),
    )


def _rung_lines(move: Move, rig: Rig, people: People, units: UnitSystem) -> tuple[RungLine, ...]:
    rungs = [solved(move, rung, people, rig) for rung in move.rungs]
    demands = [demand_of(one) for one in rungs]
    everyone = range(len(people))
    steps = ["", *(step.words(everyone) for step in steps_of(rungs, demands))]
    lines = []
    for number, (rung, demand, step) in enumerate(zip(move.rungs, demands, steps, strict=True), start=1):
        standing = stand(move, rung, rig, people)
        on_straps = bool(standing.task.holds)
        lines.append(
            RungLine(
                number=number,
                name=rung.rung,
                note=rung.note,
                thumb_svg=thumb(standing, units),
                demand=_percents(demand.share),
                step=step,
                straps=_percents(demand.strap_share) if on_straps else "–",
                floor=_percents(demand.floor_share),
                mark=_mark_words(move, rung, units),
                setting=strap_setting(move, rung) if on_straps else "–",
                base=base_words(move, rung),
                lever=lever_of(move, rung),
                stages=", ".join(rung.stages or ()),
                opens=tuple(gate_words(move, gate) for gate in rung.gates),
                cues=rung.cues or (),
                faults=_pairs(rung.faults or ()),
                caution=rung.caution or "",
            )
        )
    return tuple(lines)


def _finer_words(move: Move, rig: Rig, people: People, units: UnitSystem) -> tuple[str, ...]:
    """The floor marks between rungs for the first of the people, where there are any."""
    first = people_of(people.builds[:1], people.known[:1])
    lines = []
    for easier, harder in pairwise(move.rungs):
        if harder.harder_by != "load":
            continue
        found = finer_steps(move, easier, harder, first, rig)
        if found.steps:
            places = ", ".join(show_length(step.mark_m, units) for step in found.steps)
            each = f"{100.0 * (found.ratio - 1.0):.0f} % a step"
            lines.append(f"{easier.rung} towards {harder.rung}: {places} ({each})")
    return tuple(lines)


def _percents(shares: Floats) -> str:
    """Every person's share, in order."""
    return " / ".join(f"{100.0 * share:.0f}" for share in shares.tolist()) + " %"


def _pairs(faults: Sequence[Fault]) -> tuple[tuple[str, str], ...]:
    return tuple((fault.fault, fault.remedy) for fault in faults)


def _kit_words(move: Move) -> str:
    return "no straps" if move.kit == "none" else move.kit


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}." if text else ""


def _mark_words(move: Move, rung: Rung, units: UnitSystem) -> str:
    mark = mark_of(move, rung)
    start = show_length(mark.start_m, units)
    if mark.low_m == mark.high_m:
        return start
    return f"{start}, from {show_length(mark.low_m, units)} to {show_length(mark.high_m, units)}"


def _tempo_words(move: Move, rung: Rung) -> str:
    """The tempo as the trade writes it; nothing for a hold."""
    if is_hold(move, rung):
        return "a hold"
    written = "-".join(f"{seconds:g}" for seconds in tempo_s_of(move, rung))
    return f"{written} s (eccentric, pause, concentric, pause)"


def _safety(move: Move) -> tuple[tuple[str, str], ...]:
    """The safety lines that this move calls for."""
    stages = {stage for rung in move.rungs for stage in stages_of(move, rung)}
    wanted = {*_ALWAYS}
    if move.kit != "none":
        wanted.add(_WHERE["straps"])
    if move.kit == "cradles":
        wanted.add(_WHERE["cradles"])
    if "ballistic" in stages:
        wanted.add(_WHERE["ballistic"])
    return tuple((head, words) for head, words in SAFETY if head in wanted)


def render_move_cards(cards: Sequence[MoveCard], paper: Paper, date: str) -> bytes:
    """One PDF with every move's two pages.

    Raises:
        ValueError: there is no card.
    """
    if not cards:
        raise ValueError("there is no card to typeset; give at least one move")
    title = f"Card: {cards[0].title}" if len(cards) == 1 else f"Cards of {len(cards)} moves"
    data = {
        "title": title,
        "date": date,
        "paper": PAPER_NAMES[paper],
        "figure_height_pt": FIGURE_PT[1],
        "cards": [asdict(card) for card in cards],
    }
    return typeset(TEMPLATE, "cards", data)
