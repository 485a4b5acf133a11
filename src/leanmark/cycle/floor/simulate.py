"""An order of spells played out set by set: one person at a time on a strap, no rest cut short.

At every step the set that can start soonest is done next, at an equal time the one whose spell was meant to
start first. Spells come to an anchor in the order given; who has come shares the strap in turns.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, Literal

from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.tasks import NOWHERE, Floor, Task

Entry = Literal["at once", "as meant"]
ENTRIES: Final[tuple[Entry, ...]] = ("at once", "as meant")
"""When the next trainee joins those at an anchor: as soon as there is a place, or not before the start that
the order means."""


Coming = tuple[int, int, int]
"""What may be done next: start, start meant of its spell, task."""


@dataclass(frozen=True)
class Played:
    """One set as played: the task, the number of the set from 1, where and when [s]."""

    task: int
    number: int
    place: int
    start_s: int
    end_s: int


@dataclass
class _Anchor:
    queue: list[int]
    at: list[int] = field(default_factory=list)
    setting: int = NOWHERE
    free_s: int = 0
    last_person: int = NOWHERE


@dataclass
class _Trainee:
    tasks: list[Task]
    done: int = 0
    sets_done: int = 0
    last: Task | None = None
    last_end_s: int = 0


class _Play:
    def __init__(self, floor: Floor, order: Order, entry: Entry) -> None:
        self.floor, self.order, self.entry = floor, order, entry
        self.anchors = [_Anchor(self._by_start(floor.on_straps, place)) for place in floor.anchors]
        self.people = [_Trainee(sorted(tasks, key=self._meant)) for tasks in floor.of_person]
        self.turns: list[Played] = []

    def _meant(self, task: Task) -> tuple[int, int]:
        return self.order.starts_s[task.index], task.index

    def _by_start(self, tasks: list[Task], place: int) -> list[int]:
        here = [task for task in tasks if self.order.places[task.index] == place]
        return [task.index for task in sorted(here, key=self._meant)]

    def run(self) -> list[Played]:
        """Do the soonest set until none is left. What may come next is found anew only where a set changes
        it: at the anchor used, and where the trainee goes next."""
        soonest_at: dict[int, Coming] = {}
        for place in self.floor.anchors:
            self._find(place, soonest_at)
        for person in range(len(self.people)):
            self._find_next(person, soonest_at)
        while soonest_at:
            start_s, _, index = min(soonest_at.values())
            task = self.floor.tasks[index]
            place = self.order.places[index]
            self._do(task, place, start_s)
            self._find(place if task.places else self._corner(task.person), soonest_at)
            self._find_next(task.person, soonest_at)
        return self.turns

    def _corner(self, person: int) -> int:
        """The floor beside the straps, as a place of each trainee's own."""
        return -1 - person

    def _find_next(self, person: int, soonest_at: dict[int, Coming]) -> None:
        trainee = self.people[person]
        if trainee.done < len(trainee.tasks):
            task = trainee.tasks[trainee.done]
            self._find(self.order.places[task.index] if task.places else self._corner(person), soonest_at)

    def _find(self, place: int, soonest_at: dict[int, Coming]) -> None:
        """What can be done soonest at a place: start, start meant of the spell, task."""
        coming = self._on_strap(self.anchors[place]) if place >= 0 else self._on_floor(-1 - place)
        if coming is None:
            soonest_at.pop(place, None)
        else:
            soonest_at[place] = coming

    def _on_floor(self, person: int) -> Coming | None:
        trainee = self.people[person]
        if trainee.done == len(trainee.tasks) or trainee.tasks[trainee.done].places:
            return None
        task = trainee.tasks[trainee.done]
        return self._ready_s(trainee, task), self.order.starts_s[task.index], task.index

    def _on_strap(self, anchor: _Anchor) -> Coming | None:
        soonest: Coming | None = None
        coming = self._coming(anchor)
        for index in [*anchor.at, *coming]:
            task = self.floor.tasks[index]
            meant_s = self.order.starts_s[index]
            start_s = max(self._ready_s(self.people[task.person], task), self._strap_s(anchor, task))
            if index in coming and self.entry == "as meant":
                start_s = max(start_s, meant_s)
            if soonest is None or (start_s, meant_s, index) < soonest:
                soonest = (start_s, meant_s, index)
        return soonest

    def _coming(self, anchor: _Anchor) -> list[int]:
        """The next of the queue, where there is room and it is the trainee's turn for it."""
        if not anchor.queue:
            return []
        task = self.floor.tasks[anchor.queue[0]]
        trainee = self.people[task.person]
        here = [self.floor.tasks[index] for index in anchor.at]
        full = len(here) >= self.floor.sharing or (here and anchor.setting != task.setting)
        return [] if full or trainee.tasks[trainee.done] != task else [task.index]

    def _ready_s(self, trainee: _Trainee, task: Task) -> int:
        """When the trainee has rested, and walked where the place is another."""
        last = trainee.last
        if last is None:
            return 0
        same_place = self.order.places[last.index] == self.order.places[task.index]
        return trainee.last_end_s + self.floor.gap_s(last, same_place)

    def _strap_s(self, anchor: _Anchor, task: Task) -> int:
        """When the strap is the trainee's: handed over, or set anew."""
        if anchor.setting == NOWHERE:
            return 0
        if anchor.setting != task.setting:
            return anchor.free_s + self.floor.change_s
        return anchor.free_s + (self.floor.swap_s if anchor.last_person != task.person else 0)

    def _do(self, task: Task, place: int, start_s: int) -> None:
        trainee = self.people[task.person]
        end_s = start_s + task.set_s
        trainee.sets_done += 1
        trainee.last, trainee.last_end_s = task, end_s
        self.turns.append(Played(task.index, trainee.sets_done, place, start_s, end_s))
        finished = trainee.sets_done == task.sets
        if place != NOWHERE:
            self._use(self.anchors[place], task, end_s, finished)
        if finished:
            trainee.done, trainee.sets_done = trainee.done + 1, 0

    def _use(self, anchor: _Anchor, task: Task, end_s: int, finished: bool) -> None:
        if task.index not in anchor.at:
            anchor.queue.pop(0)
            anchor.at.append(task.index)
        if finished:
            anchor.at.remove(task.index)
        anchor.setting, anchor.free_s, anchor.last_person = task.setting, end_s, task.person


def play(floor: Floor, order: Order, entry: Entry) -> list[Played]:
    """Every set of the order, by start [s]."""
    return _Play(floor, order, entry).run()
