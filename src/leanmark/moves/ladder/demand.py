"""What a rung asks of people: the largest joint moment as a share of reference strength, over the rep."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import kind_of
from leanmark.mechanics.arrays import Bools, Floats, Ints
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.measure import peak_over_rep
from leanmark.mechanics.moments import MOMENT_AXES
from leanmark.mechanics.position import Rep, static_loads
from leanmark.mechanics.reasons import FINE
from leanmark.mechanics.rep import interpolation_weights, lobatto_nodes
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.people import People
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import Stand, reps_of, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig

DEMAND_NODES: Final = 5
"""Poses of a rep that demand is looked for at: start, three on the way, end; own figure."""


COURSE: Final = np.linspace(0.0, 1.0, 17)
"""Places on the way at which shares are read besides the poses', from their polynomial: the largest share
then lies within 2 % of that of 25 poses, against 6 % from five poses alone (regression, over 63 rungs)."""
PHASES: Final = ("start", "after the start", "middle", "before the end", "end")


@dataclass(frozen=True)
class Solved:
    """One rung solved once for some people at one mark each: the reps (R rows of K nodes), their held loads,
    and the person or mark, by number, that each rep belongs to (R,). All that is asked of the rung is read
    from here."""

    move: Move
    rung: Rung
    people: People
    rep: Rep
    loads: Loads
    position: Ints

    @property
    def steps(self) -> int:
        """K, poses of the rep."""
        return len(self.rep.nodes)

    @property
    def count(self) -> int:
        """N, positions: persons, or marks of one person."""
        return int(self.position[-1]) + 1


def solved(move: Move, rung: Rung, people: People, rig: Rig, nodes: int = DEMAND_NODES) -> Solved:
    """Solve a rung at its own mark for everyone.

    Raises FieldError for a strap setting that the rig lacks and for what ``task_of`` cannot read.
    """
    return solved_together([(move, rung)], people, rig, nodes)[0]


def solved_together(
    rungs: Sequence[tuple[Move, Rung]], people: People, rig: Rig, nodes: int = DEMAND_NODES
) -> list[Solved]:
    """``solved`` for many rungs side by side, which is quicker than one after another."""
    stands = [stand(move, rung, rig, people) for move, rung in rungs]
    marks = [np.full(len(people), mark_of(move, rung).start_m) for move, rung in rungs]
    found = reps_of(stands, marks, [np.arange(len(people))] * len(rungs), nodes)
    loads = static_loads([rep for rep, _ in found])
    return [
        Solved(move, rung, people, rep, own, position)
        for (move, rung), (rep, position), own in zip(rungs, found, loads, strict=True)
    ]


def solved_ladders(moves: Sequence[Move], people: People, rig: Rig) -> list[list[Solved]]:
    """All rungs of several moves, solved side by side: a list by move, easier to harder."""
    every = iter(solved_together([(move, rung) for move in moves for rung in move.rungs], people, rig))
    return [[next(every) for _ in move.rungs] for move in moves]


def solved_at(standing: Stand, mark_m: Floats, who: Ints, nodes: int = DEMAND_NODES) -> Solved:
    """Solve a stand at marks (N,) of the people ``who`` (N,)."""
    rep, position = standing.rep(mark_m, who, nodes)
    return Solved(standing.move, standing.rung, standing.people, rep, rep.static_loads(), position)


@dataclass(frozen=True)
class Demand:
    """What a rung asks at N positions, those of people or those of marks.

    share: (N,) largest joint moment over the rep as a share of reference strength, the larger of both
    tables for a person whose sex is not stated; action: the joint action that takes it; course: (N,) where on
    the way it does, 0 start to 1 end. strap_share, floor_share: (N,) largest force
    of all straps, of floor and boxes, as shares of body weight. friction_needed: (N,). reason: (N,) code
    of the first reason against it.
    """

    share: Floats
    action: tuple[str, ...]
    course: Floats
    strap_share: Floats
    floor_share: Floats
    friction_needed: Floats
    reason: Ints
    steps: int

    @property
    def fine(self) -> Bools:
        """Whether the rep can be held all along, (N,)."""
        fine: Bools = self.reason == FINE
        return fine

    def phase(self, position: int) -> str:
        """The phase in which the largest share comes, in words."""
        if self.steps == 1:
            return "hold"
        return PHASES[round(float(self.course[position]) * (len(PHASES) - 1))]


def demand_of(one: Solved) -> Demand:
    """The demand of a solved rung."""
    steps, loads = one.steps, one.loads
    course, shares = _along(one)
    size = np.abs(shares).reshape(len(one.position), -1)
    row = _largest_row(size.max(axis=1), one)
    place, flat = np.divmod(size.argmax(axis=1)[row], shares.shape[2])
    floor_n = np.linalg.norm(loads.contact_force_n.sum(axis=1), axis=-1)
    sign = np.sign(shares[row, place, flat])
    return Demand(
        share=size.max(axis=1)[row],
        action=tuple(_action(int(at), float(s)) for at, s in zip(flat, sign, strict=True)),
        course=course[place],
        strap_share=peak_over_rep(loads.total_tension_share, steps)[row],
        floor_share=peak_over_rep(floor_n / loads.body_weight_n, steps)[row],
        friction_needed=peak_over_rep(loads.friction_needed, steps)[row],
        reason=_first_reasons(one),
        steps=steps,
    )


def _first_reasons(one: Solved) -> Ints:
    """The first reason against each position (N,), by any table."""
    by_row = one.rep.reasons(one.loads)
    first = np.take_along_axis(by_row, (by_row != FINE).argmax(axis=1)[:, None], axis=1)[:, 0]
    reason = np.full(one.count, FINE, dtype=np.intp)
    reason[one.position[first != FINE]] = first[first != FINE]
    return reason


def _along(one: Solved) -> tuple[Floats, Floats]:
    """Places on the way (C,), and the strength shares there (R, C, 54), from the polynomial through the
    poses; at the start alone for a hold."""
    share = one.loads.strength_share.reshape(len(one.position), one.steps, -1)
    if one.steps == 1:
        return np.zeros(1), share
    course, weights = _weights(one.steps)
    return course, np.einsum("ck,rkf->rcf", weights, share)


@cache
def _weights(steps: int) -> tuple[Floats, Floats]:
    """Places on the way (C,), the poses' own among them, and weights (C, K) of the poses' values there."""
    nodes = lobatto_nodes(steps)
    course = np.union1d(COURSE, nodes)
    return course, np.stack([interpolation_weights(nodes, float(at)) for at in course])


def _largest_row(share: Floats, one: Solved) -> Ints:
    """Per position the row of the table by which the share is larger."""
    order = np.lexsort((share, one.position))
    last = np.searchsorted(one.position[order], np.arange(one.count), side="right") - 1
    rows: Ints = order[last]
    return rows


def action_shares(one: Solved) -> Floats:
    """Per position and joint action (N, A), in the order of ``muscles.ACTIONS``: the largest moment over the
    rep in that action's own direction, on either side, as a share of reference strength; never below 0."""
    _, share = _along(one)
    most, least = share.max(axis=1), share.min(axis=1)
    by_row = np.stack([_in_direction(most, least, entries) for entries in _ENTRIES], axis=1)
    found = np.zeros((one.count, len(ACTIONS)))
    np.maximum.at(found, one.position, by_row)
    return found


def _in_direction(most: Floats, least: Floats, entries: Sequence[tuple[int, float]]) -> Floats:
    """The largest share (R,) in the direction of any entry."""
    forward = [most[:, flat] for flat, sign in entries if sign >= 0.0]
    backward = [-least[:, flat] for flat, sign in entries if sign <= 0.0]
    largest: Floats = np.max([*forward, *backward], axis=0)
    return largest


def _entries() -> tuple[tuple[tuple[int, float], ...], ...]:
    """Per action: number of the joint's axis among the (18, 3), and the sign that counts (0: both)."""
    return tuple(
        tuple(
            (3 * number + MOMENT_AXES[kind].index(axis), sign)
            for kind, axis, sign in readings
            for number, joint in enumerate(JOINTS)
            if kind_of(joint) == kind
        )
        for readings in ACTIONS.values()
    )


_ENTRIES: Final = _entries()
_ACTION_OF: Final[dict[tuple[int, float], str]] = {
    (flat, own): action
    for action, entries in zip(ACTIONS, _ENTRIES, strict=True)
    for flat, sign in entries
    for own in ((sign,) if sign else (1.0, -1.0))
}


def _action(flat: int, sign: float) -> str:
    """The action that a moment about one of the (18, 3) axes is; none where nothing is asked at all."""
    return _ACTION_OF.get((flat, sign), "none")
