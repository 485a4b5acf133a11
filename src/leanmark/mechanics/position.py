"""Solve a task for N people and settings: the poses of the rep, their loads, and what is wrong with any.

Rows are positions (N); every position has K nodes along the rep; arrays run position by position.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.bodies import joined as joined_bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Bools, Floats, Ints
from leanmark.mechanics.constraints import Constraints
from leanmark.mechanics.kinematics import Pose, place
from leanmark.mechanics.loads import Balance, Loads, balance_of, loads_at, loads_of, statics
from leanmark.mechanics.patches import PATCHES, Patch
from leanmark.mechanics.pose import PoseSolution, Targets, merged
from leanmark.mechanics.ranges import within_range
from leanmark.mechanics.reasons import FINE, load_reasons, pose_reasons
from leanmark.mechanics.rotation import rotation_from_vector, vector_from_rotation
from leanmark.mechanics.rows import lay_out
from leanmark.mechanics.supports import Supports
from leanmark.mechanics.supports import joined as joined_supports
from leanmark.mechanics.task import Geometry, Task, constraints_of, patch_places, supports_of
from leanmark.mechanics.together import Question, alike, answered

_RANGE_WEIGHT: Final = 300.0
"""A joint that would leave its range is drawn to its limit at least this firmly [1/rad^2]."""
_RANGE_ROUNDS: Final = 3
WITHIN_PATCHES: Final = (0.0, -1.0, 1.0)
"""Where the pressure sits when nothing is known of it: at least effort, anywhere within the patches."""


@dataclass(frozen=True)
class Rep:
    """N reps of K poses.

    nodes: (K,) path parameter 0 at the start, 1 at the end; solution: N K poses; supports; bodies and
    geometry: N K rows; reason: (N, K) code of what is wrong with the pose itself; pressure: (N K, 3) where
    the pressure sits within the patches (``loads.loads_of``), its least and its greatest place.
    """

    task: Task
    nodes: Floats
    bodies: Bodies
    geometry: Geometry
    constraints: Constraints
    supports: Supports
    solution: PoseSolution
    reason: Ints
    pressure: Floats

    @property
    def count(self) -> int:
        """N."""
        return len(self.reason)

    def static_loads(self) -> Loads:
        """Loads of every node at rest, N K rows."""
        return statics(self.bodies, self.solution.pose, self.supports, self.pressure[:, 0])

    def at(self, index: Ints) -> Rep:
        """The poses at ``index`` (of the N K rows) as reps of one node each."""
        return replace(
            self,
            nodes=self.nodes[:1],
            bodies=self.bodies.take(index),
            geometry=self.geometry.take(index),
            supports=self.supports.take(index),
            solution=self.solution.take(index),
            reason=self.reason.reshape(-1, 1)[index],
            pressure=self.pressure[index],
        )

    def loads(self, balance: Balance) -> Loads:
        """Loads of every node under its equations, the pressure where it is believed to be."""
        return loads_of(balance, self.pressure[:, 0])

    def loads_within(self, balance: Balance) -> tuple[Loads, Loads, Loads]:
        """Loads with the pressure where it is believed to be, and at its least and its greatest place."""
        value, low, high = loads_at(balance, *self.pressure.T)
        return value, low, high

    def balance(self, needs: tuple[Floats, Floats] | None = None) -> Balance:
        """The equations of every node, at rest or with the needs of a moving body."""
        return balance_of(self.bodies, self.solution.pose, self.supports, needs)

    def reasons(self, loads: Loads) -> Ints:
        """What is wrong with each node, pose first, then holding it; (N, K) codes."""
        held = load_reasons(loads).reshape(self.reason.shape)
        return np.where(self.reason != FINE, self.reason, held)


def static_loads(reps: Sequence[Rep]) -> list[Loads]:
    """``Rep.static_loads`` of several reps; those whose supports are alike are found in one batch."""
    found: list[Loads | None] = [None] * len(reps)
    for members in alike(reps, lambda rep: rep.supports.key):
        those = [reps[number] for number in members]
        counts = [len(rep.pressure) for rep in those]
        whole = statics(
            joined_bodies([rep.bodies for rep in those]),
            Pose(
                np.concatenate([rep.solution.pose.root_m for rep in those]),
                np.concatenate([rep.solution.pose.rotation for rep in those]),
            ),
            joined_supports([rep.supports for rep in those], counts),
            np.concatenate([rep.pressure[:, 0] for rep in those]),
        )
        for number, (low, high) in zip(members, pairwise(np.cumsum([0, *counts])), strict=True):
            found[number] = whole.take(np.arange(low, high))
    return [loads for loads in found if loads is not None]


def target_rotations(start: Floats, end: Floats, nodes: Floats, key: Floats | None = None) -> Floats:
    """Targets along N reps, each joint turning about one axis from start to end; (N, K, 18, 3, 3).

    start, end: (N, 18, 3, 3). key: (18, 3, 3), passed half way: the rotation vector from the start is then
    the parabola through key and end, so that the joint neither stops nor jerks at the key pose.
    """
    turn = vector_from_rotation(np.swapaxes(start, -1, -2) @ end)[:, None]
    along = nodes[:, None, None]
    turned = along * turn
    if key is not None:
        half = vector_from_rotation(np.swapaxes(start, -1, -2) @ key)[:, None]
        turned = along * (4.0 * half - turn) + along**2 * (2.0 * turn - 4.0 * half)
    return start[:, None] @ rotation_from_vector(turned)


def solve_rep(task: Task, bodies: Bodies, geometry: Geometry, nodes: Floats) -> Rep:
    """Solve the rung for N people (or one for all) in N settings at K nodes. Found patches come down in the
    start pose, or in the end pose where the task says so, and stay there for every node; tapping ones touch
    only there."""
    return solve_reps([solving(task, bodies, geometry, nodes)])[0]


Solving = Generator[Question, PoseSolution, Rep]
"""A rep being solved: it asks for poses and goes on with the answers."""


def solve_reps(solvings: Sequence[Solving]) -> list[Rep]:
    """Solve several reps side by side; poses whose rows are laid out alike are solved in one batch."""
    reps: dict[int, Rep] = {}
    asked = {number: next(one) for number, one in enumerate(solvings)}
    while asked:
        answers = dict(zip(asked, answered([*asked.values()]), strict=True))
        asked = {}
        for number, solution in answers.items():
            try:
                asked[number] = solvings[number].send(solution)
            except StopIteration as done:
                reps[number] = done.value
    return [reps[number] for number in range(len(solvings))]


def solving(task: Task, bodies: Bodies, geometry: Geometry, nodes: Floats) -> Solving:
    """``solve_rep`` as something that ``solve_reps`` can run beside others."""
    count, steps = len(geometry), len(nodes)
    first = yield from _landed(task, bodies, geometry)
    task = task.staying
    rows = np.repeat(np.arange(count), steps)
    bodies = bodies.take(rows if len(bodies.body_mass_kg) > 1 else np.zeros(len(rows), dtype=np.intp))
    found = {number: place_m[rows] for number, place_m in first.places.items()}
    geometry = geometry.take(rows)
    patches = patch_places(task, bodies, geometry, found)
    constraints = constraints_of(task, patches, geometry)
    ends = (task.start[None], first.rotation) if task.found_at_end else (first.rotation, task.end[None])
    turned = target_rotations(*ends, nodes, task.key)
    rotation = np.broadcast_to(turned, (count, steps, SEGMENT_COUNT, 3, 3))
    targets = Targets(
        Pose(np.repeat(first.root_m, steps, axis=0), rotation.reshape(-1, SEGMENT_COUNT, 3, 3)), task.weight
    )
    solution = yield from _solve_in_range(bodies, targets, constraints, len(rows))
    reason = pose_reasons(bodies, solution, constraints).reshape(count, steps)
    supports = supports_of(task, patches, geometry, bodies)
    pressure = np.tile(WITHIN_PATCHES, (len(rows), 1))
    return Rep(task, nodes, bodies, geometry, constraints, supports, solution, reason, pressure)


@dataclass(frozen=True)
class _Landing:
    """Where found patches came down (N, 2), by number among the staying ones; the pelvis's place (N, 3) to
    start from; and the landing pose (1 or N, 18, 3, 3), which is the rep's target there, so that nothing
    shifts once the patches stay put."""

    places: dict[int, Floats]
    root_m: Floats
    rotation: Floats


def _landed(task: Task, bodies: Bodies, geometry: Geometry) -> Generator[Question, PoseSolution, _Landing]:
    """Solve the landing pose with found patches only touching, and read off where they came down."""
    patches = patch_places(task, bodies, geometry, {})
    root_m = _root_guess(task, bodies, geometry, patches)
    if not any(use.lands or use.taps for use in task.patches):
        return _Landing({}, root_m, task.landing[None])
    constraints = constraints_of(task, patches, geometry)
    landing = Pose(root_m, np.broadcast_to(task.landing, (len(geometry), SEGMENT_COUNT, 3, 3)))
    solution = yield from _solve_in_range(bodies, Targets(landing, task.weight), constraints, len(geometry))
    places = {}
    placement = place(bodies, solution.pose)
    staying = [pair for pair in zip(task.patches, patches, strict=True) if not pair[0].taps]
    for number, (use, patch) in enumerate(staying):
        if use.lands:
            lead = np.array([patch.index(PATCHES[patch.kind].lead)])
            places[number] = placement.point_m(bodies, lead)[:, 0, :2]
    return _Landing(places, solution.pose.root_m, solution.pose.rotation)


def _root_guess(task: Task, bodies: Bodies, geometry: Geometry, patches: list[Patch]) -> Floats:
    """Pelvis place at which the placed patches of the target pose are, on the mean, where they belong; over
    the plumb point where no patch has a place yet."""
    count = len(geometry)
    pose = Pose(np.zeros((count, 3)), np.broadcast_to(task.landing, (count, SEGMENT_COUNT, 3, 3)))
    placement = place(bodies, pose)
    shifts = []
    for patch in patches:
        lead = np.array([patch.index(PATCHES[patch.kind].lead)])
        at = placement.point_m(bodies, lead)[:, 0]
        goal = np.full((count, 3), np.nan)
        goal[:, 2] = patch.height_m
        if patch.place_m is not None:
            goal[:, :2] = patch.place_m
        shifts.append(goal - at)
    if not shifts:
        return np.zeros((count, 3))
    stated = np.stack(shifts)
    known = np.maximum((~np.isnan(stated)).sum(axis=0), 1)
    return np.asarray(np.nansum(stated, axis=0) / known, dtype=np.float64)


def _solve_in_range(
    bodies: Bodies, targets: Targets, constraints: Constraints, count: int
) -> Generator[Question, PoseSolution, PoseSolution]:
    """Solve, then draw joints that left their range to its limit and solve again, where any did. A pose that
    can be met only past a joint's range stays as it was, so that this is its reason."""
    rows = lay_out(constraints)
    solution = yield Question(bodies, targets, rows, count)
    weight = np.broadcast_to(targets.weight, (count, SEGMENT_COUNT))
    for _ in range(_RANGE_ROUNDS):
        limit, beyond = within_range(solution.pose.rotation)
        again: Bools = beyond.any(axis=1) & solution.met
        if not again.any():
            break
        goal = np.where(beyond[..., None, None], limit, targets.pose.rotation)
        weight = np.where(beyond, np.maximum(weight, _RANGE_WEIGHT), weight)
        root = np.broadcast_to(targets.pose.root_m, (count, 3))
        targets = replace(targets, pose=Pose(root, goal), weight=weight)
        index = np.flatnonzero(again)
        people = bodies.take(index) if len(bodies.body_mass_kg) > 1 else bodies
        part = yield Question(people, targets.take(index), rows.take(index), len(index))
        solution = merged(solution, part, index)
    return solution
