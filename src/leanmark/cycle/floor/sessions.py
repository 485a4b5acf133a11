"""The ask of a group session from the sessions of a cycle."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import Final

from leanmark.cycle.floor.form import FloorAsk, Spell
from leanmark.cycle.form import Cycle, Line, Session
from leanmark.dose.goals import pattern_of
from leanmark.dose.rules import middle
from leanmark.errors import FieldError

SHARING: Final = 3
"""How many share an anchor in turns: one works, one rests, one gets ready; own figure."""
SWAP_S: Final = 10.0
"""From one person's set to the next's on the same strap [s]; own figure."""
FAST_FIRST, FREE, TRUNK_LAST = 0, 1, 2
"""Classes of order: fast and ballistic work, everything else, trunk; common practice, no published source."""


def from_sessions(
    cycle: Cycle,
    date: dt.date,
    names: Sequence[str],
    *,
    anchors: Sequence[str],
    minutes: float,
    people_per_anchor: int = SHARING,
) -> FloorAsk:
    """The ask for the sessions of a date. names: who comes, all who train that day where empty. anchors: by
    name; minutes: how long the session may take, without warm-up and cool-down. Changing a strap and walking
    take the middle of their rules in ``dose.rules``; seed: the cycle's.

    Raises:
        FieldError: a name is not of the cycle or does not train that day, or nobody does.
    """
    today = {plan.trainee: _on(plan.sessions, date) for plan in cycle.plans}
    _check_names(cycle, date, names, today)
    who = tuple(dict.fromkeys(names)) or tuple(name for name, sessions in today.items() if sessions)
    return FloorAsk(
        who=who,
        spells=tuple(_spell(name, line) for name in who for session in today[name] for line in session.lines),
        anchors=tuple(anchors),
        people_per_anchor=people_per_anchor,
        change_s=middle("strap change"),
        walk_s=middle("walk"),
        swap_s=SWAP_S,
        minutes=minutes,
        seed=cycle.seed,
    )


def _on(sessions: Sequence[Session], date: dt.date) -> list[Session]:
    return [session for session in sessions if session.starts.date() == date]


def _check_names(cycle: Cycle, date: dt.date, names: Sequence[str], today: dict[str, list[Session]]) -> None:
    for name in names:
        if name not in today:
            remedy = "name a trainee of the cycle"
            raise FieldError("names", name, ", ".join(today) or "none", remedy)
        if not today[name]:
            training = [other for other, sessions in today.items() if sessions]
            remedy = f"leave the name out, or choose a date on which {name} trains"
            raise FieldError(
                "names", name, f"who trains on {date}: {', '.join(training) or 'nobody'}", remedy
            )
    if not any(today.values()):
        days = sorted(set(_dates(cycle)))
        span = f"{days[0]} to {days[-1]}" if days else "none: the cycle has no sessions"
        raise FieldError(
            "date", date, f"a day with sessions, {span}", "choose a day on which somebody trains"
        )


def _dates(cycle: Cycle) -> Iterator[dt.date]:
    return (session.starts.date() for plan in cycle.plans for session in plan.sessions)


def _spell(trainee: str, line: Line) -> Spell:
    return Spell(
        trainee=trainee,
        line=line.uid,
        move=line.move,
        rung=line.rung,
        strap=line.strap,
        sets=line.sets,
        set_s=line.set_s,
        rest_s=line.rest_s,
        order=order_class(line),
        spotter=line.spotter,
    )


def order_class(line: Line) -> int:
    """The class of order of a line: fast and ballistic work comes first, the trunk last."""
    if any(part.stage != "controlled" for part in line.parts):
        return FAST_FIRST
    return TRUNK_LAST if pattern_of(line.family) == "trunk" else FREE
