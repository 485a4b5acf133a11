"""Several kinds of position solved side by side: what is alike goes through the engine in one batch.

A call of the engine costs more than a pose, so many small batches are slow. Every pose and every load is
still found on its own: the answers are those of single calls.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.bodies import joined as joined_bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.kinematics import Pose
from leanmark.mechanics.pose import PoseSolution, Targets, solve_rows
from leanmark.mechanics.rows import Rows
from leanmark.mechanics.rows import joined as joined_rows

T = TypeVar("T")


@dataclass(frozen=True)
class Question:
    """Poses to be solved: ``count`` of them, arguments as of ``pose.solve_rows``."""

    bodies: Bodies
    targets: Targets
    rows: Rows
    count: int


def answered(questions: Sequence[Question]) -> list[PoseSolution]:
    """The solution of every question, in order."""
    found: list[PoseSolution | None] = [None] * len(questions)
    for members in alike(questions, lambda question: question.rows.layout.key):
        solutions = _solved([questions[number] for number in members])
        for number, solution in zip(members, solutions, strict=True):
            found[number] = solution
    return [solution for solution in found if solution is not None]


def alike(items: Sequence[T], key: Callable[[T], Hashable]) -> list[list[int]]:
    """Numbers of the items of one key together."""
    if len(items) == 1:
        return [[0]]
    groups: dict[Hashable, list[int]] = {}
    for number, item in enumerate(items):
        groups.setdefault(key(item), []).append(number)
    return [*groups.values()]


def _solved(questions: Sequence[Question]) -> list[PoseSolution]:
    if len(questions) == 1:
        only = questions[0]
        return [solve_rows(only.bodies, only.targets, only.rows, only.count)]
    counts = [question.count for question in questions]
    bodies = joined_bodies([_each_body(question) for question in questions])
    targets = _joined_targets(questions)
    rows = joined_rows([question.rows for question in questions], counts)
    whole = solve_rows(bodies, targets, rows, sum(counts))
    ends = np.cumsum([0, *counts])
    return [whole.take(np.arange(a, b)) for a, b in pairwise(ends)]


def _each_body(question: Question) -> Bodies:
    """A body for every pose."""
    if len(question.bodies) == question.count:
        return question.bodies
    return question.bodies.take(np.zeros(question.count, dtype=np.intp))


def _joined_targets(questions: Sequence[Question]) -> Targets:
    root, rotation, weight = [], [], []
    for question in questions:
        count, pose = question.count, question.targets.pose
        root.append(np.broadcast_to(pose.root_m, (count, 3)))
        rotation.append(np.broadcast_to(pose.rotation, (count, SEGMENT_COUNT, 3, 3)))
        weight.append(np.broadcast_to(question.targets.weight, (count, SEGMENT_COUNT)))
    return Targets(Pose(np.concatenate(root), np.concatenate(rotation)), np.concatenate(weight))
