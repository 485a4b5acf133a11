"""A plan at the level of spells: where each is done and when it is meant to start."""

from __future__ import annotations

from dataclasses import dataclass

from leanmark.cycle.floor.tasks import Floor


@dataclass(frozen=True)
class Order:
    """By task index: the place (an anchor, or ``NOWHERE`` for the floor) and the start meant [s]."""

    places: tuple[int, ...]
    starts_s: tuple[int, ...]


def stints_of(floor: Floor, order: Order, anchor: int) -> list[tuple[int, list[int]]]:
    """An anchor's stints in order: the setting, and its tasks by start. Settings of neighbours differ."""
    here = sorted(
        (task.index for task in floor.on_straps if order.places[task.index] == anchor),
        key=lambda index: (order.starts_s[index], index),
    )
    stints: list[tuple[int, list[int]]] = []
    for index in here:
        setting = floor.tasks[index].setting
        if not stints or stints[-1][0] != setting:
            stints.append((setting, []))
        stints[-1][1].append(index)
    return stints
