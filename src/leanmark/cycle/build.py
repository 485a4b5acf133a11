"""Build a cycle: offers, choice of moves, marks, lines and their order."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import ceil
from typing import Final

from leanmark.cycle.bars import closed_in_words
from leanmark.cycle.choose import Chosen, choose
from leanmark.cycle.dosing import Dosed
from leanmark.cycle.form import Cycle, Line, Pin, Plan, Session
from leanmark.cycle.left_out import left_out
from leanmark.cycle.lines import Draft, Key, draft, finished
from leanmark.cycle.marks import At, Reach, Wanted, reaches, solved_marks
from leanmark.cycle.notes import notes_of
from leanmark.cycle.offers import RungOffer, offers
from leanmark.cycle.order import Item, ordered, strap_changes
from leanmark.cycle.person import Person, Place
from leanmark.cycle.pins import BySession, fixing
from leanmark.cycle.solve import EFFORT
from leanmark.dose.goals import pattern_of, wanted_share
from leanmark.dose.stages import STAGES
from leanmark.dose.times import session_minutes
from leanmark.each import Each
from leanmark.errors import FieldError
from leanmark.moves.library import load_move, move_names
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move, Rung
from leanmark.squad.squad import Squad

_SPACE: Final = uuid.UUID("8c6f7d0a-5a3e-5d61-9a0b-6f1d3c2b4e57")
"""Namespace of the names of cycles, sessions and lines; drawn once."""
TOGETHER: Final = 15
"""Trainees at most who are solved side by side, which is quicker than one by one and keeps memory small; own
figure."""
GROUPS: Final = 4
"""Groups at least that a squad is parted into, so that every processor has work; own figure."""


@dataclass(frozen=True)
class Request:
    """What is built for some trainees. pins: all edits by hand; before: moves and sets by trainee and
    session of the cycle that an edit starts from; seed, effort: of the solver; today: sessions before it are
    noted."""

    squad: Squad
    uid: str
    pins: tuple[Pin, ...] = ()
    before: Mapping[str, BySession] | None = None
    seed: int = 1
    effort: float = EFFORT
    today: dt.date | None = None


def build(
    squad: Squad,
    *,
    pins: Sequence[Pin] = (),
    before: Cycle | None = None,
    names: Sequence[str] | None = None,
    seed: int | None = None,
    today: dt.date | None = None,
    each: Each = map,
    done: Callable[[int], None] = lambda _: None,
) -> Cycle:
    """The cycle of a squad that asks for one.

    before: the cycle that an edit starts from, whose other moves are kept where that costs little. names: of
    trainees to build; the others' plans are taken from ``before``. each: maps over groups of trainees, here
    or on other processors; done: told how many trainees are built.

    Raises FieldError for a squad file without a cycle.
    """
    if squad.cycle is None:
        raise FieldError("cycle", "nothing", "a table [cycle]", "add [cycle] with starts, weeks and days")
    uid = before.uid if before else cycle_uid(squad)
    request = Request(
        squad,
        uid,
        tuple(pins),
        None if before is None else {plan.trainee: _sets_of(plan) for plan in before.plans},
        squad.cycle.seed if seed is None else seed,
        today=today,
    )
    wanted = [n for n, trainee in enumerate(squad.trainees) if names is None or trainee.name in names]
    size = max(min(TOGETHER, ceil(len(wanted) / GROUPS)), 1)
    groups = [wanted[at : at + size] for at in range(0, len(wanted), size)]
    built: dict[str, Plan] = {plan.trainee: plan for plan in before.plans} if before else {}
    for plans in each(partial(plans_of, request), groups):
        built |= {plan.trainee: plan for plan in plans}
        done(len(plans))
    return Cycle(
        uid=uid,
        name=squad.cycle.name,
        squad=squad.name,
        squad_text=squad.text,
        zone=squad.cycle.zone,
        starts=squad.cycle.starts,
        weeks=squad.cycle.weeks,
        seed=request.seed,
        plans=tuple(built[trainee.name] for trainee in squad.trainees if trainee.name in built),
        pins=tuple(pins),
        revision=before.revision + 1 if before else 0,
    )


def cycle_uid(squad: Squad) -> str:
    """The cycle's name for calendars: the same each time that it is built."""
    cycle = squad.cycle
    return str(
        uuid.uuid5(_SPACE, f"{squad.name}\n{cycle.name if cycle else ''}\n{cycle.starts if cycle else ''}")
    )


def _sets_of(plan: Plan) -> dict[int, dict[str, int]]:
    return {session.number: {line.move: line.sets for line in session.lines} for session in plan.sessions}


def persons_of(squad: Squad, numbers: Sequence[int]) -> list[Person]:
    """Trainees of a squad with everything that the library offers them."""
    if squad.cycle is None:
        return []
    trainees = [squad.trainees[number] for number in numbers]
    people = people_of([one.build for one in trainees], [one.known for one in trainees])
    moves = [load_move(name) for name in move_names()]

    def closed(number: int, offer: RungOffer) -> bool:
        return closed_in_words(offer, trainees[number].wishes, squad.kit)

    return [
        Person(trainee, squad.cycle, squad.kit, own)
        for trainee, own in zip(trainees, offers(moves, people, squad.rig, closed), strict=True)
    ]


def plans_of(request: Request, numbers: Sequence[int]) -> list[Plan]:
    """The plans of some trainees of the squad."""
    persons = persons_of(request.squad, numbers)
    return plans_for(request, persons)


def plans_for(request: Request, persons: Sequence[Person]) -> list[Plan]:
    """The plans of trainees whose offers are known."""
    before = request.before or {}
    chosen = [
        choose(
            person,
            request.pins,
            before.get(person.trainee.name) if request.before is not None else None,
            request.seed,
            request.effort,
        )
        for person in persons
    ]
    marked = _Marked(request, persons, chosen)
    return [
        _plan(request, person, own, marked.lines(number))
        for number, (person, own) in enumerate(zip(persons, chosen, strict=True))
    ]


class _Marked:
    """The lines of several trainees with their marks, solved side by side."""

    def __init__(self, request: Request, persons: Sequence[Person], chosen: Sequence[Chosen]) -> None:
        self._request, self._persons = request, persons
        people = people_of(
            [person.trainee.build for person in persons], [person.trainee.known for person in persons]
        )
        rig = request.squad.rig
        picked = [*_picked(persons, chosen)]
        wanted: list[Wanted] = [(n, offer.move, offer.rung) for n, _, _, (offer, _) in picked]
        found: Mapping[Key, Reach] = reaches(rig, people, wanted) if wanted else {}
        self._drafts = [
            draft(persons[n], n, place, pick, sets, found, self._pins(n, place.day.number, pick[0].move.move))
            for n, place, sets, pick in picked
        ]
        asked: dict[Key, tuple[Move, Rung, dict[float, None]]] = {}
        for one in self._drafts:
            marks = asked.setdefault(one.key, (one.offer.move, one.offer.rung, {}))[2]
            marks |= {one.mark_m: None, one.reach.start_m: None}
        self._at: Mapping[tuple[int, str, str, float], At] = solved_marks(
            rig,
            people,
            {key: (move, rung, list(marks)) for key, (move, rung, marks) in asked.items()},
        )

    def _pins(self, number: int, session: int, move: str) -> list[Pin]:
        name, before = self._persons[number].trainee.name, self._request.before
        held = None if before is None else before.get(name, {})
        return fixing(self._request.pins, name, session, move, held)

    def lines(self, number: int) -> dict[int, list[tuple[Draft, Line]]]:
        """A trainee's lines by session."""
        found: dict[int, list[tuple[Draft, Line]]] = {}
        person = self._persons[number]
        for one in self._drafts:
            if one.person != number:
                continue
            session = one.place.day.number
            uid = _uid(self._request.uid, person.trainee.name, session, one.offer.move.move)
            line = finished(person, one, self._at, self._request.squad.rig, uid)
            found.setdefault(session, []).append((one, line))
        return found


def _picked(
    persons: Sequence[Person], chosen: Sequence[Chosen]
) -> Iterator[tuple[int, Place, int, tuple[RungOffer, Dosed]]]:
    """Every line: person, session, usual sets, and the rung with its dose at its own mark."""
    for number, (person, own) in enumerate(zip(persons, chosen, strict=True)):
        sets = own.sets
        for place in person.places:
            for move, usual in sets.get(place.day.number, {}).items():
                pick = person.pick_open(move, place)
                if pick:
                    yield number, place, usual, pick


def _uid(cycle: str, trainee: str, session: int, move: str = "") -> str:
    return str(uuid.uuid5(_SPACE, f"{cycle}\n{trainee}\n{session}\n{move}"))


def _plan(
    request: Request, person: Person, chosen: Chosen, lines: Mapping[int, Sequence[tuple[Draft, Line]]]
) -> Plan:
    sessions = tuple(
        _session(request, person, place, lines[place.day.number])
        for place in person.places
        if place.day.number in lines
    )
    used = {line.move for session in sessions for line in session.lines}
    return Plan(
        trainee=person.trainee.name,
        sessions=sessions,
        left_out=left_out(person, used),
        goals=chosen.goals,
        objective=chosen.objective,
        bound=chosen.bound,
        notes=notes_of(person, chosen, request.today),
    )


def _session(request: Request, person: Person, place: Place, lines: Sequence[tuple[Draft, Line]]) -> Session:
    items = [_item(one, line) for one, line in lines]
    order = ordered(items, request.seed)
    in_order = tuple(lines[number][1] for number in order)
    changes = strap_changes([items[number] for number in order])
    walks = sum(bool(a.strap) != bool(b.strap) for a, b in pairwise(in_order))
    opened = {part.stage for line in in_order for part in line.parts}
    return Session(
        uid=_uid(request.uid, person.trainee.name, place.day.number),
        number=place.day.number,
        week=place.day.week,
        starts=place.starts,
        minutes=session_minutes([(line.set_s, line.sets, line.rest_s) for line in in_order], changes, walks),
        wave=place.point.height,
        wanted=wanted_share(person.goal, place.point.height),
        deload=place.point.deload,
        stages=tuple(stage for stage in STAGES if stage in opened),
        strap_changes=changes,
        lines=in_order,
    )


def _item(one: Draft, line: Line) -> Item:
    pattern = pattern_of(line.family)
    return Item(
        line.move,
        round(line.demand / line.capacity, 1),
        max(STAGES.index(part.stage) for part in line.parts),
        line.strap,
        one.offer.grips,
        pattern == "trunk",
        pattern == "mobility",
    )
