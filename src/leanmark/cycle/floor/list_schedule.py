"""The list schedule: always the spell that can start soonest. It is the baseline, the solver's first solution
and what is shown when the solver finds nothing better."""

from __future__ import annotations

import heapq
from dataclasses import dataclass, field

from leanmark.cycle.floor.order import Order
from leanmark.cycle.floor.tasks import NOWHERE, WHOLE_STRAP, Floor, Task

Key = tuple[int, int, int, int, int]
"""Start with patience added, start, work left (negative), task, place: the least goes first."""


@dataclass
class _Strap:
    """One anchor while the list is worked off: who shares it until when, and from when it may be begun on."""

    setting: int = NOWHERE
    sharing: list[tuple[int, int]] = field(default_factory=list)
    free_s: int = 0
    last_end_s: int = 0


class _Lister:
    def __init__(self, floor: Floor, patience_s: int) -> None:
        self.floor = floor
        self.patience_s = patience_s
        self.straps = [_Strap() for _ in floor.anchors]
        self.left = [list(tasks) for tasks in floor.of_person]
        self.work_left = [sum(task.length_s + task.rest_s for task in tasks) for tasks in floor.of_person]
        self.last: list[tuple[Task, int, int] | None] = [None for _ in floor.of_person]
        self.places = [NOWHERE for _ in floor.tasks]
        self.starts_s = [-1 for _ in floor.tasks]
        self.heap: list[Key] = []

    def run(self) -> Order:
        for person in range(len(self.left)):
            self._open_class(person)
        while self.heap:
            key = heapq.heappop(self.heap)
            task, place = self.floor.tasks[key[3]], key[4]
            if self.starts_s[task.index] >= 0:
                continue
            now = self._key(task, place)
            if now > key:
                heapq.heappush(self.heap, now)
            else:
                self._start(task, place, now[1])
        return Order(tuple(self.places), tuple(self.starts_s))

    def _open_class(self, person: int) -> None:
        """Put the trainee's next class of order on the list."""
        left = self.left[person]
        for task in left:
            if task.order == left[0].order:
                for place in task.places or (NOWHERE,):
                    heapq.heappush(self.heap, self._key(task, place))

    def _key(self, task: Task, place: int) -> Key:
        start_s, changes = self._soonest(task, place)
        wanted_s = start_s + (self.patience_s if changes else 0)
        return wanted_s, start_s, -self.work_left[task.person], task.index, place

    def _soonest(self, task: Task, place: int) -> tuple[int, bool]:
        """The soonest start at the place, and whether the strap must be set anew for it."""
        last = self.last[task.person]
        ready_s = 0 if last is None else last[2] + self.floor.gap_s(last[0], last[1] == place)
        if place == NOWHERE:
            return ready_s, False
        strap = self.straps[place]
        if strap.setting not in (task.setting, NOWHERE):
            return max(ready_s, strap.last_end_s + self.floor.change_s), True
        return self._with_room(strap, task, max(ready_s, strap.free_s)), False

    def _with_room(self, strap: _Strap, task: Task, from_s: int) -> int:
        """The first time from ``from_s`` at which those who share the strap leave room for the task."""
        sharing = sorted(one for one in strap.sharing if one[0] > from_s)
        used = sum(demand for _, demand in sharing)
        while sharing and (used + task.demand > WHOLE_STRAP or len(sharing) >= self.floor.sharing):
            from_s, demand = sharing.pop(0)
            used -= demand
        return from_s

    def _start(self, task: Task, place: int, start_s: int) -> None:
        self.places[task.index], self.starts_s[task.index] = place, start_s
        end_s = start_s + task.length_s
        self.last[task.person] = (task, place, end_s)
        self.work_left[task.person] -= task.length_s + task.rest_s
        if place != NOWHERE:
            self._use(self.straps[place], task, place, start_s)
        left = self.left[task.person]
        left.remove(task)
        if left and left[0].order > task.order:
            self._open_class(task.person)

    def _use(self, strap: _Strap, task: Task, place: int, start_s: int) -> None:
        end_s = start_s + task.length_s
        anew = strap.setting != task.setting
        strap.setting, strap.free_s = task.setting, start_s + task.turn_s
        strap.sharing = [one for one in strap.sharing if one[0] > start_s]
        strap.sharing.append((end_s + task.swap_s, task.demand))
        strap.last_end_s = max(strap.last_end_s, end_s)
        if anew:
            self._list_again(task.setting, place)

    def _list_again(self, setting: int, place: int) -> None:
        """The strap has another setting now: what waited for that is dearer no more."""
        for left in self.left:
            for task in left:
                if task.order == left[0].order and task.setting == setting and place in task.places:
                    heapq.heappush(self.heap, self._key(task, place))


def list_schedule(floor: Floor, patience_s: int = 0) -> Order:
    """The list schedule: again and again the spell and anchor that can start soonest, most work left first.

    patience_s: how much later a spell may start that needs no strap change and still go before one that does.
    Those who share an anchor do so by their shares of its time, first sets one after another.
    """
    return _Lister(floor, patience_s).run()
