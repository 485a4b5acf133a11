"""Several stands solved side by side answer as each does alone."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.mechanics.position import static_loads
from leanmark.moves.library import load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, reps_of, stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import standard_rig

PEOPLE = people_of([Build(62.0, 1.66), Build(90.0, 1.90, "male")])
MOVES = ("row", "front plank", "fly", "sprint start", "push-up")
"""Straps and none, holds and reps, patches that are found and that stand, people by one table and by two."""


@pytest.fixture(scope="module")
def stands() -> list[Stand]:
    return [
        stand(move, rung, standard_rig(2.4), PEOPLE)
        for move in map(load_move, MOVES)
        for rung in (*move.rungs, *move.rungs[:1])
    ]


def test_reps_and_loads_are_those_of_each_stand_alone(stands: list[Stand]) -> None:
    who = np.arange(len(PEOPLE))
    marks_m = [np.full(len(PEOPLE), mark_of(one.move, one.rung).start_m) for one in stands]
    together = reps_of(stands, marks_m, [who] * len(stands), 5)
    loads = static_loads([rep for rep, _ in together])
    for standing, mark_m, (rep, position), found in zip(stands, marks_m, together, loads, strict=True):
        alone, own_position = standing.rep(mark_m, who, 5)
        np.testing.assert_array_equal(position, own_position)
        np.testing.assert_array_equal(rep.reason, alone.reason)
        # a matrix product's rounding depends on the batch, and the solver stops within 1e-6 of its goal
        np.testing.assert_allclose(
            rep.solution.pose.rotation, alone.solution.pose.rotation, rtol=0, atol=1e-6
        )
        expected = alone.static_loads()
        np.testing.assert_array_equal(found.outcome, expected.outcome)
        np.testing.assert_allclose(found.strength_share, expected.strength_share, rtol=0, atol=1e-5)
        np.testing.assert_allclose(
            found.strap_tension_n / 9.81, expected.strap_tension_n / 9.81, rtol=0, atol=1e-3
        )


def test_nothing_to_solve_is_nothing_solved() -> None:
    assert reps_of([], [], []) == []
    assert static_loads([]) == []
