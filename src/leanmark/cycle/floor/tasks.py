"""An ask in whole seconds, by index: what the list schedule, the solver's model and the simulation read."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from leanmark.cycle.floor.form import FloorAsk, Spell

WHOLE_STRAP: Final = 1000
"""A strap's time, in the thousandths that shares of it are counted in."""
NOWHERE: Final = -1
"""The place of a spell on the floor."""


@dataclass(frozen=True)
class Task:
    """A spell in whole seconds, rounded up. person, setting: index; places: anchors that it may be done at,
    none for the floor."""

    index: int
    person: int
    setting: int
    places: tuple[int, ...]
    sets: int
    set_s: int
    rest_s: int
    order: int
    swap_s: int

    @property
    def length_s(self) -> int:
        """First to last set with the rests between, nobody in the way."""
        return self.sets * self.set_s + (self.sets - 1) * self.rest_s

    @property
    def turn_s(self) -> int:
        """One set, and handing the strap over."""
        return self.set_s + self.swap_s

    @cached_property
    def demand(self) -> int:
        """Share of the strap's time that the spell takes, in thousandths: work and swap over work and rest;
        all of it for a single set."""
        if self.sets == 1:
            return WHOLE_STRAP
        return min(WHOLE_STRAP, WHOLE_STRAP * self.turn_s // max(1, self.set_s + self.rest_s))


@dataclass(frozen=True)
class Floor:
    """The ask by index. change_s: to set a strap anew, never quicker than handing it over; sharing: how many
    may share an anchor."""

    ask: FloorAsk
    settings: tuple[str, ...]
    tasks: tuple[Task, ...]
    change_s: int
    walk_s: int
    swap_s: int
    sharing: int

    @property
    def anchors(self) -> range:
        """Anchors by index."""
        return range(len(self.ask.anchors))

    @cached_property
    def of_person(self) -> tuple[tuple[Task, ...], ...]:
        """Each trainee's tasks, by class of order."""
        found: list[list[Task]] = [[] for _ in self.ask.who]
        for task in self.tasks:
            found[task.person].append(task)
        return tuple(tuple(sorted(tasks, key=lambda task: (task.order, task.index))) for tasks in found)

    def alone_s(self, person: int) -> int:
        """What a trainee's session takes with nobody in the way and no walks: the longest rest that may come
        last is not waited for."""
        tasks = self.of_person[person]
        if not tasks:
            return 0
        last = max(task.rest_s for task in tasks if task.order == tasks[-1].order)
        return sum(task.length_s + task.rest_s for task in tasks) - last

    @cached_property
    def on_straps(self) -> list[Task]:
        """The tasks that need an anchor."""
        return [task for task in self.tasks if task.places]

    def gap_s(self, earlier: Task, same_place: bool) -> int:
        """Least time from a trainee's last set of one task to the first of the next."""
        return earlier.rest_s if same_place else max(earlier.rest_s, self.walk_s)


def floor_of(ask: FloorAsk) -> Floor:
    """The ask by index and in whole seconds."""
    settings = tuple(dict.fromkeys(spell.strap for spell in ask.spells if spell.strap))
    people = {name: person for person, name in enumerate(ask.who)}
    swap_s = math.ceil(ask.swap_s)
    tasks = tuple(
        Task(
            index,
            people[spell.trainee],
            settings.index(spell.strap) if spell.strap else NOWHERE,
            _places(ask, spell),
            spell.sets,
            math.ceil(spell.set_s),
            math.ceil(spell.rest_s),
            spell.order,
            swap_s if spell.strap else 0,
        )
        for index, spell in enumerate(ask.spells)
    )
    change_s = max(math.ceil(ask.change_s), swap_s)
    return Floor(ask, settings, tasks, change_s, math.ceil(ask.walk_s), swap_s, ask.people_per_anchor)


def _places(ask: FloorAsk, spell: Spell) -> tuple[int, ...]:
    if not spell.strap:
        return ()
    if spell.anchor is not None:
        return (ask.anchors.index(spell.anchor),)
    return tuple(range(len(ask.anchors)))
