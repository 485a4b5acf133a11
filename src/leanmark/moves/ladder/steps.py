"""Whether a move's rungs run from easier to harder, and whether what the file says of them is true.

Each check reads rungs already solved (``demand.Solved``), easier to harder, and returns findings.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from leanmark.moves.ladder.declared import declared_reason_findings
from leanmark.moves.ladder.demand import Demand, Solved, action_shares, demand_of
from leanmark.moves.ladder.finding import Finding
from leanmark.moves.ladder.panel import listed, typical_in
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.schema import HarderBy

ORDER_SLACK: Final = 1e-6
"""Two rungs may share their hardest pose: then only the solver's closure is left between them [share]."""
WORKS_AT_LEAST: Final = 0.05
"""Least share of reference strength of an action named in ``works``, on every rung; own figure."""
HELPS_AT_LEAST: Final = 0.02
"""Likewise for ``helps``; own figure."""
LARGE_STEP_PERCENT: Final = 60.0
"""A step of load above this is called large; own figure: twice the usual steps of the library."""
OTHER_STEPS: Final[dict[HarderBy, str]] = {
    "base": "smaller base",
    "one limb": "fewer limbs",
    "speed": "faster",
    "lever": "other lever",
    "range": "longer range",
}
"""What a step is where load is not what makes a rung harder."""


@dataclass(frozen=True)
class Step:
    """From one rung to the next: what makes it harder, and the rise of demand [%] for each person."""

    easier: str
    harder: str
    harder_by: HarderBy
    percent: tuple[float, ...]

    def words(self, people: Sequence[int]) -> str:
        """The step for some of the people, ``+12 to +15 %``; of another kind, in words as well."""
        values = sorted({round(self.percent[person]) for person in people})
        shown = " to ".join(
            f"{value:+d}".replace("-", "−") for value in (values[0], values[-1])[: len(values)]
        )
        kind = "" if self.harder_by == "load" else f"{OTHER_STEPS[self.harder_by]}, "
        return f"{kind}{shown} %"


def steps_of(rungs: Sequence[Solved], demands: Sequence[Demand]) -> list[Step]:
    """The steps between rungs, from their demands."""
    return [
        Step(
            easier.rung.rung,
            harder.rung.rung,
            harder.rung.harder_by,
            tuple((100.0 * (above.share / below.share - 1.0)).tolist()),
        )
        for (easier, below), (harder, above) in pairwise(zip(rungs, demands, strict=True))
    ]


def ladder_findings(rungs: Sequence[Solved]) -> list[Finding]:
    """Everything that does not hold of one move's rungs."""
    return [*order_findings(rungs), *declared_reason_findings(rungs), *work_findings(rungs)]


def order_findings(rungs: Sequence[Solved]) -> list[Finding]:
    """Rungs said to be harder by load whose demand falls for anyone who can do both."""
    demands = [demand_of(one) for one in rungs]
    found = []
    for (easier, below), (harder, above) in pairwise(zip(rungs, demands, strict=True)):
        if harder.rung.harder_by != "load":
            continue
        falls = below.fine & above.fine & (above.share < below.share - ORDER_SLACK)
        if falls.any():
            worst = int(np.argmin(np.where(falls, above.share / below.share, np.inf)))
            whom = listed([harder.people.builds[worst]])
            wrong = (
                f"demand falls from {below.share[worst]:.1%} on '{easier.rung.rung}' to "
                f"{above.share[worst]:.1%} for {int(falls.sum())} of {len(falls)}, most for the {whom}"
            )
            remedy = "move the rung, change its mark or pose, or say in harder-by what makes it harder"
            found.append(_finding(harder, "order", wrong, remedy))
    return found


def work_findings(rungs: Sequence[Solved]) -> list[Finding]:
    """Where ``works`` and ``helps`` disagree with the engine, for the people of the 50th percentile."""
    found = []
    for one in rungs:
        shares = action_shares(one)[typical_in(one.people)].max(axis=0)
        by_action = dict(zip(ACTIONS, shares.tolist(), strict=True))
        found += _idle(one, by_action)
        hardest = max(by_action, key=lambda action: by_action[action])
        if hardest not in one.move.works and hardest not in one.move.helps:
            wrong = (
                f"{hardest}, worked hardest at {by_action[hardest]:.0%} of reference strength, is not named"
            )
            found.append(_finding(one, "works", wrong, "name it in works or helps, or change the pose"))
    return found


def _idle(one: Solved, by_action: dict[str, float]) -> list[Finding]:
    """Actions named although the net moment in their direction hardly differs from none."""
    named = [("works", action, WORKS_AT_LEAST) for action in one.move.works]
    named += [("helps", action, HELPS_AT_LEAST) for action in one.move.helps]
    return [
        _finding(
            one,
            entry,
            f"{entry} names {action}, which takes {by_action[action]:.1%} of reference strength here, "
            f"less than {least:.0%}",
            "leave it out, or change the pose; net joint moments decide",
        )
        for entry, action, least in named
        if action in by_action and by_action[action] < least
    ]


def _finding(one: Solved, check: str, wrong: str, remedy: str) -> Finding:
    return Finding(one.move.move, one.rung.rung, check, wrong, remedy)
