"""What no plan can undercut, and what the bottleneck is. Nothing here is solved: it is arithmetic."""

from __future__ import annotations

from dataclasses import dataclass

from leanmark.cycle.floor.tasks import Floor, Task


@dataclass(frozen=True)
class Bound:
    """A least length of the session [s] and what it comes from, in words."""

    length_s: int
    because: str


def least_length(floor: Floor) -> Bound:
    """The largest of: the longest session of one trainee alone; the work on all straps over their number,
    with handing over and the changes that more settings than anchors need; and the same of anchors that
    spells are tied to."""
    return max([*_people(floor), *_all_straps(floor), *_tied(floor)], key=lambda bound: bound.length_s)


def _people(floor: Floor) -> list[Bound]:
    return [
        Bound(floor.alone_s(person), f"{name}'s own sets and rests")
        for person, name in enumerate(floor.ask.who)
    ]


def _all_straps(floor: Floor) -> list[Bound]:
    tasks = floor.on_straps
    if not tasks:
        return []
    anchors = len(floor.anchors)
    settings = len({task.setting for task in tasks})
    changes = max(0, settings - anchors)
    busy_s = _busy_s(floor, tasks, anchors) + changes * _change_extra_s(floor)
    many = "the anchor's strap" if anchors == 1 else f"the straps of {anchors} anchors"
    return [Bound(-(-busy_s // anchors), f"the work on {many}")]


def _tied(floor: Floor) -> list[Bound]:
    found = []
    for anchor in floor.anchors:
        tasks = [task for task in floor.on_straps if task.places == (anchor,)]
        if tasks:
            changes = len({task.setting for task in tasks}) - 1
            busy_s = _busy_s(floor, tasks, 1) + changes * _change_extra_s(floor)
            found.append(Bound(busy_s, f"the work tied to {floor.ask.anchors[anchor]}"))
    return found


def _busy_s(floor: Floor, tasks: list[Task], anchors: int) -> int:
    """Time that the sets take on straps: between two sets lies at least the shorter of handing over and rest.
    Where only so many may share, spells' whole lengths count too."""
    between = [min(task.swap_s, task.rest_s) for task in tasks]
    sets_s = sum(task.sets * (task.set_s + gap) for task, gap in zip(tasks, between, strict=True))
    whole_s = -(-sum(task.length_s for task in tasks) // floor.sharing)
    return max(sets_s - anchors * max(between), whole_s)


def _change_extra_s(floor: Floor) -> int:
    """What a change takes beyond the handing over that is counted already."""
    return max(0, floor.change_s - floor.swap_s)
