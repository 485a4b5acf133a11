"""A move's ladder for some people on a rig, rung by rung: what is printed, and written as JSON."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

from leanmark.mechanics.reasons import REASONS
from leanmark.moves.base import base_words
from leanmark.moves.gates import gate_words
from leanmark.moves.ladder.demand import Demand, Solved, demand_of, solved_together
from leanmark.moves.ladder.finer import FinerSteps, finer_steps
from leanmark.moves.ladder.steps import steps_of
from leanmark.moves.people import People, people_of
from leanmark.moves.restrictions import asks_of
from leanmark.moves.schema import HarderBy, Move
from leanmark.moves.translate import mark_of, strap_setting
from leanmark.rig.rig import Rig


class RungLine(Struct):
    """One rung for P people: lists run over them.

    demand: largest joint moment over the rep, share of reference strength; action and phase: whose it is and
    when; step_percent: rise of demand over the rung before, empty on the first. strap_share, floor_share:
    largest force of all straps, of the floor, shares of body weight. reason: what is against it, empty where
    it can be held. base: what bears and holds; asks: restrictions that it touches; opens: its gates in words.
    """

    rung: str
    harder_by: HarderBy
    demand: list[float]
    action: list[str]
    phase: list[str]
    step_percent: list[float]
    strap_share: list[float]
    floor_share: list[float]
    friction_needed: list[float]
    reason: list[str]
    mark_of: str
    mark_m: float
    low_m: float
    high_m: float
    strap: str
    base: str
    asks: list[str]
    opens: list[str]


def ladder_table(move: Move, people: People, rig: Rig) -> list[RungLine]:
    """The ladder of a move.

    Raises FieldError for a strap setting that the rig lacks and for what ``task_of`` cannot read.
    """
    return lines_of(solved_together([(move, rung) for rung in move.rungs], people, rig))


def lines_of(rungs: list[Solved]) -> list[RungLine]:
    """The same from rungs already solved, easier to harder."""
    demands = [demand_of(one) for one in rungs]
    rises: list[list[float]] = [[], *([*step.percent] for step in steps_of(rungs, demands))]
    return [_line(one, demand, rise) for one, demand, rise in zip(rungs, demands, rises, strict=True)]


def _line(one: Solved, demand: Demand, rise: list[float]) -> RungLine:
    move, rung = one.move, one.rung
    mark = mark_of(move, rung)
    return RungLine(
        rung=rung.rung,
        harder_by=rung.harder_by,
        demand=demand.share.tolist(),
        action=[*demand.action],
        phase=[demand.phase(person) for person in range(one.count)],
        step_percent=rise,
        strap_share=demand.strap_share.tolist(),
        floor_share=demand.floor_share.tolist(),
        friction_needed=demand.friction_needed.tolist(),
        reason=[REASONS[int(code)] for code in demand.reason],
        mark_of=mark.of,
        mark_m=mark.start_m,
        low_m=mark.low_m,
        high_m=mark.high_m,
        strap=strap_setting(move, rung) if one.rep.task.holds else "",
        base=base_words(move, rung),
        asks=[*asks_of(one)],
        opens=[gate_words(move, gate) for gate in rung.gates],
    )


def finer_table(move: Move, people: People, rig: Rig, only: int | None = None) -> dict[int, list[FinerSteps]]:
    """Finer steps from each rung, by its number from 0, to the next: one for each person. only: from this
    rung alone."""
    each = [people_of([build], [known]) for build, known in zip(people.builds, people.known, strict=True)]
    return {
        number: [finer_steps(move, easier, harder, person, rig) for person in each]
        for number, (easier, harder) in enumerate(pairwise(move.rungs))
        if only in (None, number)
    }
