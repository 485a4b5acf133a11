"""The squad and the cycle that sheets are tested with."""

from __future__ import annotations

from functools import cache

from msgspec.structs import replace
from tests.cycle.sample_cycle import DEMO_SQUAD, sample_cycle

from leanmark.cycle.form import Cycle, Line
from leanmark.squad.read import read_squad
from leanmark.squad.squad import Squad

CYCLE = sample_cycle()


@cache
def squad() -> Squad:
    return read_squad(DEMO_SQUAD)


def with_lines(lines: tuple[Line, ...]) -> Cycle:
    """A cycle of one session with these lines."""
    plan = CYCLE.plans[0]
    session = replace(plan.sessions[0], lines=lines)
    return replace(CYCLE, plans=(replace(plan, sessions=(session,)),))


def some_lines(count: int) -> tuple[Line, ...]:
    """Lines of the cycle's first trainee, over and over."""
    own = [line for session in CYCLE.plans[0].sessions for line in session.lines]
    return tuple(own[number % len(own)] for number in range(count))
