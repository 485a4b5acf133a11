"""Every hard rule of a cycle checked from scratch: from the wishes, the move files and what the engine says
of the body, by code of its own. ``broken`` lists what a plan breaks in words, so that a test can say it."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations, pairwise
from typing import Final
from zoneinfo import ZoneInfo

from leanmark.cycle.form import Line, Part, Pin, Plan, Session
from leanmark.cycle.offers import RungOffer
from leanmark.cycle.person import Person
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.schema import Gate
from leanmark.rig.rig import Rig
from leanmark.squad.wishes import GatePassed

LEFT_ALONE: Final = 0.15
"""Share of reference strength up to which a sore joint may be asked, by ``bars.SORE_SHARE``."""
QUICK: Final = frozenset(
    {
        "front of trunk", "side of trunk", "back of trunk", "rotation", "calf and foot", "shoulder care",
        "mobility",
    }
)  # fmt: skip
"""Families that recover in a day; all others take two."""
CAPACITY: Final = {"new": 0.8, "used to straps": 1.0, "trained": 1.2, "strong": 1.4}
BALLISTIC_GOALS: Final = ("power", "sport emphasis")
FAST_GOALS: Final = (*BALLISTIC_GOALS, "general strength", "strength-endurance", "trunk")
FAST_AFTER, BALLISTIC_AFTER, MOST_BALLISTIC = 3, 6, 40
SPEEDS: Final = ("controlled", "fast", "ballistic")
WARM_AND_COOL_MIN: Final = (5 + 8) / 2 + (3 + 5) / 2
CHANGE_S, WALK_S, TURN_S = (20 + 60) / 2, (5 + 20) / 2, 5.0
"""Middles of the table of rules: strap change, walk, change of sides."""


def broken(person: Person, plan: Plan, rig: Rig, pins: Sequence[Pin] = ()) -> list[str]:
    """Every breach. Pins are the coach's own word and may go beyond what a session lasts or families bear."""
    found = [*_whole(person, plan), *_dates(person, plan)]
    if not pins:
        found += _recovery(plan)
    for session in plan.sessions:
        found += [f"session {session.number}: {words}" for words in _session(person, session, rig, pins)]
    return found


def _whole(person: Person, plan: Plan) -> Iterator[str]:
    uids = [one.uid for one in plan.sessions] + [line.uid for one in plan.sessions for line in one.lines]
    yield from (f"uid {uid} comes {count} times" for uid, count in Counter(uids).items() if count > 1)
    used = {line.move for one in plan.sessions for line in one.lines}
    left = {one.move for one in plan.left_out}
    offered = {one.move.move for one in person.offers}
    if used & left or used | left != offered:
        yield f"moves neither done nor left out, or both: {used & left or offered - used - left}"
    if plan.bound > plan.objective + 1e-6:
        yield f"bound {plan.bound} above the objective {plan.objective}"
    if plan.trainee != person.trainee.name:
        yield "another trainee's plan"


def _dates(person: Person, plan: Plan) -> Iterator[str]:
    wishes, cycle = person.trainee.wishes, person.cycle
    days = cycle.days if wishes.days is None else wishes.days
    most = cycle.sessions if wishes.sessions is None else wishes.sessions
    off = set(cycle.days_off) | set(wishes.days_off)
    for one in plan.sessions:
        date = one.starts.date()
        since = (date - cycle.starts).days
        yield from (
            f"session {one.number} on {date}: {what}"
            for what, wrong in (
                ("not a day of training", date.weekday() not in days),
                ("a day off", date in off),
                ("outside the cycle", not 0 <= since < 7 * cycle.weeks),
                (f"not in week {one.week}", since // 7 + 1 != one.week),
                (f"starts at {one.starts}", not _right_time(one.starts, cycle.time, cycle.zone)),
            )
            if wrong
        )
    if any(b.starts.date() <= a.starts.date() or b.number <= a.number for a, b in pairwise(plan.sessions)):
        yield "sessions out of order, or two on a day"
    if any(count > most for count in Counter(one.week for one in plan.sessions).values()):
        yield f"more than {most} sessions in a week"


def _right_time(starts: dt.datetime, wanted: dt.time, zone: str) -> bool:
    """The wanted local time with the offset that the zone has then; a time that the clocks skip may be moved
    by the skip."""
    local = dt.datetime.combine(starts.date(), wanted, ZoneInfo(zone))
    skipped = local.astimezone(dt.UTC).astimezone(ZoneInfo(zone)).time() != wanted
    return skipped or (starts.time() == wanted and starts.utcoffset() == local.utcoffset())


def _recovery(plan: Plan) -> Iterator[str]:
    """Two days, or one, by the calendar: a change of clocks takes an hour from them and no more."""
    for first, second in combinations(plan.sessions, 2):
        days = (second.starts.date() - first.starts.date()).days
        both = {line.family for line in first.lines} & {line.family for line in second.lines}
        for family in sorted(both):
            if days < (1 if family in QUICK else 2):
                yield f"{family} in sessions {first.number} and {second.number}, {days} days apart"
    for first, second in pairwise(plan.sessions):
        if (second.starts - first.starts) < dt.timedelta(hours=22.5):
            yield f"sessions {first.number} and {second.number} within a day"


def _session(person: Person, session: Session, rig: Rig, pins: Sequence[Pin]) -> Iterator[str]:
    lines = session.lines
    if not lines:
        yield "no line"
    for line in lines:
        yield from (f"{line.move}: {words}" for words in _line(person, session, line, rig, pins))
    if not pins:
        wished = person.trainee.wishes.minutes or person.cycle.minutes
        if session.minutes.value > wished + 1e-9:
            yield f"{session.minutes.value:.2f} min of {wished:g}"
        families = Counter(line.family for line in lines)
        yield from (f"{count} moves of {family}" for family, count in families.items() if count > 1)
    if abs(session.minutes.value - _minutes(session)) > 1e-6:
        yield f"says {session.minutes.value:.2f} min, takes {_minutes(session):.2f}"
    if not session.minutes.low <= session.minutes.value <= session.minutes.high:
        yield f"minutes out of their interval: {session.minutes}"
    hanging = [line.strap for line in lines if line.strap]
    if session.strap_changes != sum(a != b for a, b in pairwise(hanging)):
        yield f"says {session.strap_changes} strap changes"
    yield from _ballistic_first_stretches_last(lines)
    ballistic = sum(_ballistic_reps(line) for line in lines)
    if ballistic > MOST_BALLISTIC:
        yield f"{ballistic} ballistic reps"
    if {part.stage for line in lines for part in line.parts} != set(session.stages):
        yield f"stages {session.stages} are not those of its lines"


def _minutes(session: Session) -> float:
    lines = session.lines
    work_s = sum(line.sets * (line.set_s + line.rest_s) for line in lines) - lines[-1].rest_s
    walks = sum((a.strap == "") != (b.strap == "") for a, b in pairwise(lines))
    moved_s = CHANGE_S * session.strap_changes + WALK_S * walks
    return WARM_AND_COOL_MIN + (work_s + moved_s) / 60.0


def _ballistic_reps(line: Line) -> int:
    """Reps of both sides: each is a landing."""
    reps = sum(part.reps for part in line.parts if part.stage == "ballistic")
    return line.sets * reps * (2 if line.each_side else 1)


def _ballistic_first_stretches_last(lines: Sequence[Line]) -> Iterator[str]:
    kinds = [2 if line.family == "mobility" else 0 if _ballistic_reps(line) else 1 for line in lines]
    if kinds != sorted(kinds):
        yield f"order: {[line.move for line in lines]} is not ballistic first, stretches last"


def _line(person: Person, session: Session, line: Line, rig: Rig, pins: Sequence[Pin]) -> Iterator[str]:
    offer = _offer(person, line.move, line.rung)
    mark = offer.rung.mark or offer.move.mark
    level = _level(person, line.family)
    marked = any(pin.mark_m is not None for pin in pins)
    checks: list[tuple[str, bool]] = [
        ("no set", line.sets < 1),
        ("no part", not line.parts),
        ("a part without reps or hold", any((part.reps > 0) == (part.hold_s > 0.0) for part in line.parts)),
        ("stages out of order", [p.stage for p in line.parts] != sorted(
            {p.stage for p in line.parts}, key=SPEEDS.index)),
        (f"mark {line.mark_m}", not marked and not mark.low_m - 1e-9 <= line.mark_m <= mark.high_m + 1e-9),
        (f"strap {line.strap} of {line.strap_m}", line.strap_m != _strap_m(offer, line, rig)),
        (f"asks {line.demand:.3f} of {line.capacity}", not marked and line.demand > line.capacity + 1e-9),
        (f"capacity of level {level}", line.capacity != CAPACITY[level]),
        (f"load {line.load}", not line.load.low <= line.load.value <= line.load.high),
        ("negative reserve", line.reps_in_reserve < 0.0 and not pins),
        ("cannot be held", bool(offer.reason)),
        ("set's time", abs(line.set_s - _set_s(line)) > 1e-6),
        ("dropped by hand", any(_drops(pin, session, line) for pin in pins)),
        ("nobody stands by ballistic reps", _ballistic_reps(line) > 0 and not line.spotter),
    ]  # fmt: skip
    yield from (words for words, wrong in checks if wrong)
    for part in line.parts:
        yield from _part(person, session, line, part)


def _drops(pin: Pin, session: Session, line: Line) -> bool:
    about = pin.session in (0, session.number) and pin.move == line.move
    return about and pin.what == "drop" and not line.pinned


def _set_s(line: Line) -> float:
    one_side = sum(part.hold_s + part.reps * sum(part.tempo_s) for part in line.parts)
    return 2.0 * one_side + TURN_S if line.each_side else one_side


def _strap_m(offer: RungOffer, line: Line, rig: Rig) -> float:
    holds = offer.rung.holds if offer.rung.holds is not None else offer.move.holds
    if not holds:
        return 0.0 if not line.strap else -1.0
    return rig.settings_m[offer.rung.strap or offer.move.strap]


def _offer(person: Person, move: str, rung: str) -> RungOffer:
    return next(one for one in person.offers if (one.move.move, one.rung.rung) == (move, rung))


def _level(person: Person, family: str) -> str:
    wishes = person.trainee.wishes
    return wishes.levels.get(family) or wishes.level or "new"


def _part(person: Person, session: Session, line: Line, part: Part) -> Iterator[str]:
    offer = _offer(person, line.move, part.rung)
    stages = offer.rung.stages or offer.move.stages
    if part.stage not in stages:
        yield f"rung {part.rung} allows no {part.stage} reps"
    yield from (f"rung {part.rung}: {words}" for words in closed(person, offer))
    goal, level = person.trainee.wishes.goal or person.cycle.goal, _level(person, line.family)
    slow = session.number <= FAST_AFTER or level == "new" or goal not in FAST_GOALS
    if part.stage == "fast" and slow:
        yield f"fast reps in session {session.number}, level {level}, {goal}"
    if part.stage == "ballistic":
        barred = session.deload or level == "new" or goal not in BALLISTIC_GOALS
        if session.number <= BALLISTIC_AFTER or barred or _after_another(person, session):
            yield f"ballistic reps in session {session.number} ({session.starts}), level {level}, {goal}"


def _after_another(person: Person, session: Session) -> bool:
    """Whether there was a session on the day before."""
    before = session.starts.date() - dt.timedelta(days=1)
    return any(place.day.date == before for place in person.places)


def closed(person: Person, offer: RungOffer) -> Iterator[str]:
    """Why a rung is closed to a trainee: gates, kit, what is to be avoided, pain."""
    wishes = person.trainee.wishes
    for gate in offer.rung.gates:
        if not any(_passes(gate, offer, test) for test in wishes.gates):
            yield f"gate on {gate.move or offer.move.move} not passed"
    yield from (f"needs {one}" for one in _needs(offer) if one not in person.kit)
    for word in wishes.avoid:
        if word in (offer.move.move, offer.move.family) or word in offer.asks or _loads(offer, word):
            yield f"'{word}' is to be avoided"
    for note in wishes.pain:
        words = [word for word in note.place.split() if word not in ("left", "right")]
        joint = "trunk" if words == ["low", "back"] else " ".join(words)
        if _loads(offer, joint):
            yield f"pain in the {note.place}"


def _passes(gate: Gate, offer: RungOffer, test: GatePassed) -> bool:
    if (test.move, test.rung) != (gate.move or offer.move.move, gate.rung):
        return False
    if SPEEDS.index(test.stage) < SPEEDS.index(gate.stage):
        return False
    if gate.hold_s is not None:
        return test.hold_s is not None and test.hold_s >= gate.hold_s
    return test.reps is not None and gate.reps is not None and test.reps >= gate.reps


def _needs(offer: RungOffer) -> Iterator[str]:
    holds = offer.rung.holds if offer.rung.holds is not None else offer.move.holds
    contacts = offer.rung.contacts if offer.rung.contacts is not None else offer.move.contacts
    if holds and offer.move.kit != "none":
        yield offer.move.kit
    if any(contact.height_m > 0.0 for contact in contacts):
        yield "box"
    if offer.rung.pushes:
        yield "partner"


def _loads(offer: RungOffer, word: str) -> bool:
    """Whether a joint, or one of its actions, is what the move trains or is asked for more than standing
    takes."""
    fits: Callable[[str], bool] = lambda action: action == word or action.split()[0] == word  # noqa: E731
    shares = [share for action, share in zip(ACTIONS, offer.shares, strict=True) if fits(action)]
    trained = bool(shares) and any(fits(action) for action in offer.move.works)
    return trained or max(shares, default=0.0) > LEFT_ALONE
