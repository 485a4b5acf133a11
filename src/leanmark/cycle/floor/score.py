"""What a played session amounts to: stints, waits, use of the anchors, and the cost of each goal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise

from leanmark.cycle.floor.form import AnchorUse, Stint, Wait
from leanmark.cycle.floor.order import Order, stints_of
from leanmark.cycle.floor.simulate import Played
from leanmark.cycle.floor.tasks import Floor
from leanmark.cycle.floor.weights import GoalName


def length_s(turns: Sequence[Played]) -> int:
    """End of the last set; the first starts at 0."""
    return max((turn.end_s for turn in turns), default=0)


def amounts(floor: Floor, turns: Sequence[Played]) -> dict[GoalName, int]:
    """How much of each goal's unit the session takes. Waiting is counted from the session's start to each
    trainee's last set, beyond rests and walks."""
    changes = waits_s = walks = 0
    settings: dict[int, int] = {}
    before: dict[int, Played] = {}
    for turn in turns:
        task = floor.tasks[turn.task]
        if task.places:
            changes += settings.get(turn.place, task.setting) != task.setting
            settings[turn.place] = task.setting
        last = before.get(task.person)
        walked = last is not None and last.place != turn.place
        walks += walked
        ready_s = 0 if last is None else last.end_s + floor.gap_s(floor.tasks[last.task], not walked)
        waits_s += turn.start_s - ready_s
        before[task.person] = turn
    return {"length": length_s(turns), "strap changes": changes, "waiting": waits_s, "walking": walks}


def cost(floor: Floor, turns: Sequence[Played], weights: Mapping[GoalName, int]) -> int:
    """All goals together."""
    return sum(weights[goal] * amount for goal, amount in amounts(floor, turns).items())


def order_cost(floor: Floor, order: Order, weights: Mapping[GoalName, int]) -> int:
    """What the solver's model takes all goals to cost: walks are the places that a trainee uses beyond
    one."""
    ends_s = [order.starts_s[task.index] + task.length_s for task in floor.tasks]
    changes = sum(len(stints_of(floor, order, anchor)[1:]) for anchor in floor.anchors)
    waits_s = walks = 0
    for person, tasks in enumerate(floor.of_person):
        if tasks:
            waits_s += max(ends_s[task.index] for task in tasks) - floor.alone_s(person)
            walks += len({order.places[task.index] for task in tasks}) - 1
    return (
        weights["length"] * max(ends_s)
        + weights["strap changes"] * changes
        + weights["waiting"] * waits_s
        + weights["walking"] * walks
    )


def stints_at(floor: Floor, turns: Sequence[Played], anchor: int) -> list[Stint]:
    """One anchor's stints, by start."""
    here = [turn for turn in turns if turn.place == anchor]
    stints: list[Stint] = []
    for setting, group in groupby(here, key=lambda turn: floor.tasks[turn.task].setting):
        run = list(group)
        start_s, end_s = run[0].start_s, run[-1].end_s
        change_from_s = start_s if not stints else max(stints[-1].end_s, start_s - floor.change_s)
        name = floor.ask.anchors[anchor]
        stints.append(Stint(name, floor.settings[setting], change_from_s, start_s, end_s))
    return stints


def waits_of(floor: Floor, turns: Sequence[Played]) -> list[Wait]:
    """How long each trainee stands idle from the session's start to the last set, beyond rests and walks."""
    of_person: list[list[Played]] = [[] for _ in floor.of_person]
    for turn in turns:
        of_person[floor.tasks[turn.task].person].append(turn)
    return [_wait(floor, name, own) for name, own in zip(floor.ask.who, of_person, strict=True)]


def _wait(floor: Floor, name: str, own: Sequence[Played]) -> Wait:
    if not own:
        return Wait(name, 0.0, 0.0, 0.0, 0)
    wait_s, walks = own[0].start_s, 0
    for before, after in pairwise(own):
        same_place = before.place == after.place
        wait_s += after.start_s - before.end_s - floor.gap_s(floor.tasks[before.task], same_place)
        walks += not same_place
    return Wait(name, float(own[0].start_s), float(own[-1].end_s), float(wait_s), walks)


def anchor_uses(floor: Floor, turns: Sequence[Played]) -> list[AnchorUse]:
    """How each anchor is used."""
    return [_use(floor, turns, anchor) for anchor in floor.anchors]


def _use(floor: Floor, turns: Sequence[Played], anchor: int) -> AnchorUse:
    here = [turn for turn in turns if turn.place == anchor]
    people = {floor.tasks[turn.task].person for turn in here}
    changes = len(stints_at(floor, turns, anchor)[1:])
    busy_s = float(sum(turn.end_s - turn.start_s for turn in here))
    return AnchorUse(floor.ask.anchors[anchor], changes, busy_s, len(people), most_at_once(here))


def most_at_once(turns: Sequence[Played]) -> int:
    """How many spells at most are under way at the same time, from first to last set."""
    spans: dict[int, tuple[int, int]] = {}
    for turn in turns:
        first_s = spans[turn.task][0] if turn.task in spans else turn.start_s
        spans[turn.task] = (first_s, turn.end_s)
    steps = [(end_s, -1) for _, end_s in spans.values()] + [(start_s, 1) for start_s, _ in spans.values()]
    now = most = 0
    for _, step in sorted(steps):
        now += step
        most = max(most, now)
    return most
