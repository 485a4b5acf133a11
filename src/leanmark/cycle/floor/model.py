"""The floor plan as a constraint model: each spell is an optional interval at each anchor that it may be
done at.

Those who share a strap overlap by their shares of its time, at most so many at once, first sets one after
another. Each anchor's stints have one setting each and do not overlap, the time to set the strap anew between
them; a spell lies within a stint of its setting. A trainee does one spell at a time, classes in order.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from ortools.sat.python import cp_model
from ortools.sat.python.cp_model import IntervalVar, IntVar, LinearExpr

from leanmark.cycle.floor.hint import Hint, alike_anchors
from leanmark.cycle.floor.tasks import WHOLE_STRAP, Floor, Task
from leanmark.cycle.floor.weights import GoalName

Amount = LinearExpr | int
"""What the solver chooses, or what is settled."""


@dataclass
class FloorModel:
    """The model and what is read from its solution: starts and presences by task index."""

    floor: Floor
    hint: Hint
    horizon_s: int
    free: frozenset[int]
    cp: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    starts: list[Amount] = field(default_factory=list)
    at: dict[tuple[int, int], IntVar] = field(default_factory=dict)
    goals: dict[GoalName, Amount] = field(default_factory=dict)

    def time(self, name: str, hint_s: int) -> IntVar:
        """A time within the session, with the hint's value."""
        var = self.cp.new_int_var(0, self.horizon_s, name)
        self.cp.add_hint(var, hint_s)
        return var

    def choice(self, name: str, hint: bool) -> IntVar:
        """A yes or no, with the hint's value."""
        var = self.cp.new_bool_var(name)
        self.cp.add_hint(var, hint)
        return var


def build_model(
    floor: Floor, hint: Hint, horizon_s: int, least_length_s: int, free: frozenset[int] | None = None
) -> FloorModel:
    """The model without its objective. hint: a plan at the level of spells, which is the first solution;
    horizon_s: the session is not longer; least_length_s: nor shorter; free: the tasks that may be moved, all
    where not given."""
    every = frozenset(task.index for task in floor.tasks)
    model = FloorModel(floor, hint, horizon_s, every if free is None else free)
    for task in floor.tasks:
        start_s = hint.order.starts_s[task.index]
        moves = task.index in model.free
        model.starts.append(model.time(f"start {task.index}", start_s) if moves else start_s)
        _place(model, task)
    changes = [_anchor(model, anchor) for anchor in floor.anchors]
    ends = [end for person in range(len(floor.ask.who)) for end in _trainee(model, person)]
    _break_symmetry(model)
    length = model.cp.new_int_var(least_length_s, horizon_s, "length")
    model.cp.add_hint(length, max(hint.end_s(task) for task in floor.tasks))
    for end in ends:
        model.cp.add(length >= end)
    model.goals["length"] = length
    model.goals["strap changes"] = sum(changes)
    model.goals["waiting"] = sum(ends) - _work_s(floor)
    model.goals["walking"] = _walks(model)
    return model


def minimise(model: FloorModel, weights: Mapping[GoalName, int]) -> None:
    """Set what the model is solved for."""
    model.cp.minimize(sum(weights[goal] * amount for goal, amount in model.goals.items()))


def _place(model: FloorModel, task: Task) -> None:
    places = task.places
    moves = len(places) > 1 and task.index in model.free
    for place in places:
        here = model.hint.order.places[task.index] == place
        model.at[task.index, place] = (
            model.choice(f"at {task.index} {place}", here) if moves else model.cp.new_constant(here)
        )
    if moves:
        model.cp.add_exactly_one(model.at[task.index, place] for place in places)


def _anchor(model: FloorModel, anchor: int) -> Amount:
    """Sharing and stints of one anchor; how often its strap is set anew."""
    tasks = [task for task in model.floor.on_straps if anchor in task.places]
    if not tasks:
        return 0
    spells, first_sets = [], []
    for task in tasks:
        start, here = model.starts[task.index], model.at[task.index, anchor]
        size_s = task.length_s + task.swap_s
        spells.append(
            model.cp.new_optional_fixed_size_interval_var(start, size_s, here, f"spell {task.index}")
        )
        first_sets.append(model.cp.new_optional_fixed_size_interval_var(start, task.turn_s, here, "first"))
    if all(2 * task.demand > WHOLE_STRAP for task in tasks) or model.floor.sharing == 1:
        model.cp.add_no_overlap(spells)
    else:
        model.cp.add_no_overlap(first_sets)
        model.cp.add_cumulative(spells, [task.demand for task in tasks], WHOLE_STRAP)
        if sum(sorted(task.demand for task in tasks)[: model.floor.sharing + 1]) <= WHOLE_STRAP:
            model.cp.add_cumulative(spells, [1] * len(tasks), model.floor.sharing)
    return _stints(model, anchor, tasks)


def _stints(model: FloorModel, anchor: int, tasks: list[Task]) -> Amount:
    by_setting: dict[int, list[Task]] = defaultdict(list)
    for task in tasks:
        by_setting[task.setting].append(task)
    if len(by_setting) == 1:
        return 0
    stints, present = [], []
    for setting, own in by_setting.items():
        for interval, there in _stints_of(model, anchor, setting, own):
            stints.append(interval)
            present.append(there)
    model.cp.add_no_overlap(stints)
    used = model.choice(f"used {anchor}", bool(model.hint.stints[anchor]))
    model.cp.add_max_equality(used, present)
    return sum(present) - used


def _stints_of(
    model: FloorModel, anchor: int, setting: int, tasks: list[Task]
) -> list[tuple[IntervalVar, IntVar]]:
    """Stints of one setting at one anchor: as many as the hint has, at least one for each class of order."""
    hinted = [stint for stint in model.hint.stints[anchor] if stint.setting == setting]
    count = min(len(tasks), max(len(hinted), len({task.order for task in tasks})))
    made, within = [], defaultdict(list)
    for number in range(count):
        hint = hinted[number] if number < len(hinted) else None
        name = f"stint {anchor} {setting} {number}"
        there = model.choice(name, hint is not None)
        start = model.time(f"{name} start", hint.start_s if hint else 0)
        end = model.time(f"{name} end", hint.end_s if hint else 0)
        size = model.cp.new_int_var(0, model.horizon_s + model.floor.change_s, f"{name} size")
        model.cp.add_hint(size, hint.end_s - hint.start_s + model.floor.change_s if hint else 0)
        until = end + model.floor.change_s
        made.append((model.cp.new_optional_interval_var(start, size, until, there, name), there))
        for task in tasks:
            here = hint is not None and task.index in hint.tasks
            if task.index not in model.free:
                own = model.cp.new_constant(here)
            else:
                own = model.choice(f"{name} {task.index}", here)
            within[task.index].append(own)
            if here or task.index in model.free:
                model.cp.add_implication(own, there)
                model.cp.add(model.starts[task.index] >= start).only_enforce_if(own)
                model.cp.add(model.starts[task.index] + task.length_s <= end).only_enforce_if(own)
        model.cp.add_bool_or([within[task.index][-1] for task in tasks]).only_enforce_if(there)
    for task in tasks:
        model.cp.add(sum(within[task.index]) == model.at[task.index, anchor])
    for (_, earlier), (_, later) in pairwise(made):
        model.cp.add_implication(later, earlier)
    return made


def _trainee(model: FloorModel, person: int) -> list[IntVar]:
    """One spell at a time and classes in order; gives the trainee's end, where there is any."""
    tasks = model.floor.of_person[person]
    if not tasks:
        return []
    model.cp.add_no_overlap(
        model.cp.new_fixed_size_interval_var(
            model.starts[task.index], task.length_s + task.rest_s, f"trainee {task.index}"
        )
        for task in tasks
    )
    for one, other in combinations(tasks, 2):
        _gap(model, one, other)
    end = model.time(f"end {person}", max(model.hint.end_s(task) for task in tasks))
    for task in tasks:
        if task.order == tasks[-1].order:
            model.cp.add(end >= model.starts[task.index] + task.length_s)
    return [end]


def _gap(model: FloorModel, one: Task, other: Task) -> None:
    """The rest and the walk between two of a trainee's spells; ``one`` is of no later class."""
    first, second = model.starts[one.index], model.starts[other.index]
    walks = model.floor.walk_s > min(one.rest_s, other.rest_s)
    apart = _apart(model, one, other) if walks else 0
    if one.order < other.order:
        model.cp.add(second >= first + one.length_s + one.rest_s + _extra_s(model, one) * apart)
    elif walks:
        hint = model.hint.order.starts_s
        before = model.choice(f"before {one.index} {other.index}", hint[one.index] < hint[other.index])
        after_one = first + one.length_s + one.rest_s + _extra_s(model, one) * apart
        after_other = second + other.length_s + other.rest_s + _extra_s(model, other) * apart
        model.cp.add(second >= after_one).only_enforce_if(before)
        model.cp.add(first >= after_other).only_enforce_if(before.negated())


def _extra_s(model: FloorModel, task: Task) -> int:
    """How much longer than the rest after the task a walk takes."""
    return model.floor.gap_s(task, same_place=False) - task.rest_s


def _apart(model: FloorModel, one: Task, other: Task) -> Amount:
    """Whether two tasks are done at different places: a choice, or 0 or 1 where it is settled."""
    shared = set(one.places) & set(other.places)
    if not shared:
        return int(bool(one.places or other.places))
    if len(one.places) == len(other.places) == 1:
        return 0
    places = model.hint.order.places
    apart = model.choice(f"apart {one.index} {other.index}", places[one.index] != places[other.index])
    for place in one.places:
        there = model.at.get((other.index, place), 0)
        model.cp.add(apart >= model.at[one.index, place] - there)
    return apart


def _walks(model: FloorModel) -> Amount:
    """How many places the trainees use beyond one each: the least number of walks."""
    walks: Amount = 0
    for person, tasks in enumerate(model.floor.of_person):
        used: Amount = int(any(not task.places for task in tasks))
        for anchor in model.floor.anchors:
            here = [task for task in tasks if anchor in task.places]
            if here:
                hinted = any(model.hint.order.places[task.index] == anchor for task in here)
                visits = model.choice(f"visits {person} {anchor}", hinted)
                model.cp.add_max_equality(visits, [model.at[task.index, anchor] for task in here])
                used = used + visits
        walks = walks + used - int(bool(tasks))
    return walks


def _work_s(floor: Floor) -> int:
    """What all trainees need with nobody in the way, walks left out: ends less this is waiting."""
    return sum(floor.alone_s(person) for person in range(len(floor.ask.who)))


def _break_symmetry(model: FloorModel) -> None:
    """Of anchors that are alike, a task may use the next one only if an earlier task uses the one before."""
    alike = alike_anchors(model.floor)
    free = [task for task in model.floor.on_straps if len(task.places) > 1]
    for before, after in pairwise(alike):
        opened: IntVar | int = 0
        for task in free:
            model.cp.add(model.at[task.index, after] <= opened)
            places = model.hint.order.places
            so_far = any(places[one.index] == before for one in free if one.index <= task.index)
            later = model.choice(f"opened {before} {task.index}", so_far)
            model.cp.add_max_equality(later, [opened, model.at[task.index, before]])
            opened = later
