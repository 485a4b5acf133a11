"""A list schedule in the form that the solver's model begins from."""

from __future__ import annotations

from dataclasses import dataclass

from leanmark.cycle.floor.order import Order, stints_of
from leanmark.cycle.floor.tasks import Floor, Task


@dataclass(frozen=True)
class HintStint:
    """One setting of one anchor [s], and its tasks."""

    setting: int
    start_s: int
    end_s: int
    tasks: frozenset[int]


@dataclass(frozen=True)
class Hint:
    """The order with alike anchors renamed by their first task, and its stints by anchor."""

    order: Order
    stints: tuple[tuple[HintStint, ...], ...]

    def end_s(self, task: Task) -> int:
        """When the task's last set ends."""
        return self.order.starts_s[task.index] + task.length_s


def hint_of(floor: Floor, order: Order) -> Hint:
    """The order as a hint."""
    named = Order(_renamed(floor, order), order.starts_s)
    stints = tuple(tuple(_stints(floor, named, anchor)) for anchor in floor.anchors)
    return Hint(named, stints)


def alike_anchors(floor: Floor) -> list[int]:
    """The anchors that no spell is tied to: any two may change names."""
    tied = {task.places[0] for task in floor.on_straps if len(task.places) == 1}
    return [anchor for anchor in floor.anchors if anchor not in tied]


def _renamed(floor: Floor, order: Order) -> tuple[int, ...]:
    alike = alike_anchors(floor)
    used = [order.places[task.index] for task in floor.on_straps if order.places[task.index] in alike]
    by_first = list(dict.fromkeys(used))
    names = dict(zip(by_first, alike, strict=False))
    return tuple(names.get(place, place) for place in order.places)


def _stints(floor: Floor, order: Order, anchor: int) -> list[HintStint]:
    found = []
    for setting, tasks in stints_of(floor, order, anchor):
        end_s = max(order.starts_s[index] + floor.tasks[index].length_s for index in tasks)
        found.append(HintStint(setting, order.starts_s[tasks[0]], end_s, frozenset(tasks)))
    return found
