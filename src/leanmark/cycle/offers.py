"""What the library offers each trainee: every rung at its own mark, as the engine finds it for that body on
that rig."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import nan

from leanmark.errors import FieldError
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.moves.base import contacts_of, holds_of
from leanmark.moves.ladder.demand import Demand, Solved, action_shares, demand_of, solved_together
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.of_rung import is_hold, stages_of
from leanmark.moves.people import People
from leanmark.moves.restrictions import asks_by_position
from leanmark.moves.schema import Move, Rung, Stage
from leanmark.moves.sides import one_sided
from leanmark.moves.translate import strap_setting
from leanmark.rig.rig import Rig

PARTNER = "partner"
BOX = "box"
NONE = "none"


@dataclass(frozen=True)
class RungOffer:
    """One rung for one person at the rung's own mark.

    demand: largest joint moment, share of reference strength; action: the joint action that takes it;
    shares: of every joint action, in the order of ``muscles.ACTIONS``. strap_share: largest force of all
    straps, share of body weight. reason: why it cannot be held, empty where it can. asks: restrictions that
    it touches."""

    move: Move
    rung: Rung
    demand: float = nan
    action: str = ""
    shares: tuple[float, ...] = ()
    strap_share: float = nan
    reason: str = ""
    asks: frozenset[str] = frozenset()

    @property
    def solved(self) -> bool:
        """Whether the engine was asked; it is not where the rung is closed in any case."""
        return bool(self.shares)

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        """Speed stages that the rung allows."""
        return stages_of(self.move, self.rung)

    @cached_property
    def hold(self) -> bool:
        """Whether it is held instead of repeated."""
        return is_hold(self.move, self.rung)

    @cached_property
    def each_side(self) -> bool:
        """Whether it is done on one side, then on the other."""
        return one_sided(self.move, self.rung)

    @cached_property
    def setting(self) -> str:
        """The strap setting by name; empty where no strap is used."""
        return strap_setting(self.move, self.rung) if holds_of(self.move, self.rung) else ""

    @cached_property
    def kit(self) -> frozenset[str]:
        """What has to be at hand."""
        straps = {self.move.kit} - {NONE} if self.setting else set()
        raised = (
            {BOX} if any(contact.height_m > 0.0 for contact in contacts_of(self.move, self.rung)) else set()
        )
        return frozenset(straps | raised | ({PARTNER} if self.rung.pushes else set()))

    @property
    def grips(self) -> bool:
        """Whether hands hold the straps."""
        return any(hold.end == "handle" for hold in holds_of(self.move, self.rung))

    def joint_share(self, word: str) -> float:
        """Largest share of strength asked of a joint, or of one joint action; 0 where the engine was not
        asked."""
        if not self.solved:
            return 0.0
        named = [
            share
            for action, share in zip(ACTIONS, self.shares, strict=True)
            if word in (action, action.split()[0])
        ]
        return max(named, default=0.0)


Closed = Callable[[int, RungOffer], bool]
"""Whether a rung is closed to a person, by number, whatever the engine would say."""


def offers(
    moves: Sequence[Move], people: People, rig: Rig, closed: Closed = lambda _, __: False
) -> list[list[RungOffer]]:
    """Every rung of the moves whose strap setting the rig has, for each person: a list by person, rungs in
    order. The engine is not asked about rungs that are closed."""
    rungs = [(move, rung) for move in moves for rung in move.rungs if _has_setting(rig, move, rung)]
    bare = [RungOffer(move, rung) for move, rung in rungs]
    shut = [[closed(person, offer) for offer in bare] for person in range(len(people))]
    asked = [n for n in range(len(rungs)) if not all(own[n] for own in shut)]
    solved = solved_together([rungs[n] for n in asked], people, rig)
    answers = dict(zip(asked, (_by_person(one) for one in solved), strict=True))
    return [
        [offer if own[n] else answers[n][person] for n, offer in enumerate(bare)]
        for person, own in enumerate(shut)
    ]


def _has_setting(rig: Rig, move: Move, rung: Rung) -> bool:
    try:
        rig.strap_length_m(strap_setting(move, rung))
    except FieldError:
        return False
    return True


def _by_person(one: Solved) -> list[RungOffer]:
    demand, shares, asks = demand_of(one), action_shares(one), asks_by_position(one)
    return [_offer(one, demand, tuple(shares[at].tolist()), asks[at], at) for at in range(one.count)]


def _offer(
    one: Solved, demand: Demand, shares: tuple[float, ...], asks: frozenset[str], at: int
) -> RungOffer:
    code = int(demand.reason[at])
    return RungOffer(
        one.move,
        one.rung,
        float(demand.share[at]),
        demand.action[at],
        shares,
        float(demand.strap_share[at]),
        "" if code == FINE else REASONS[code],
        asks,
    )
