"""Finer steps: marks whose demand is what they say, evenly spaced, and an honest end."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from tests.moves.whole_library import RIG

from leanmark.body.build import Build
from leanmark.mechanics.inverse import LOAD_TOLERANCE
from leanmark.mechanics.reasons import REASONS, SLIP
from leanmark.moves.ladder.demand import demand_of, solved_at
from leanmark.moves.ladder.finer import EDGE_M, MOST_STEPS, STEP_AT_MOST, FinerSteps, finer_steps
from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import People, people_of
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of

PEOPLE = [people_of([build]) for build in typical_people().builds]
CLIMBS = [("row", 0), ("row", 1), ("row", 2), ("fly", 0), ("chest press", 0)]


def between(move: str, number: int, person: People) -> FinerSteps:
    whole = load_move(move)
    return finer_steps(whole, whole.rungs[number], whole.rungs[number + 1], person, RIG)


def demand_at(move: str, rung: str, person: People, *mark_m: float) -> tuple[list[float], list[str]]:
    whole = load_move(move)
    standing = stand(whole, find_rung(whole, rung), RIG, person)
    found = demand_of(solved_at(standing, np.array(mark_m), np.zeros(len(mark_m), dtype=np.intp)))
    return found.share.tolist(), [REASONS[int(code)] for code in found.reason]


@pytest.mark.parametrize("person", PEOPLE, ids=["woman", "man"])
@pytest.mark.parametrize(("move", "number"), CLIMBS)
def test_marks_give_what_they_say_in_even_ratios(move: str, number: int, person: People) -> None:
    """Demand at each mark, solved anew, meets the stated one to the tolerance of the search for marks."""
    found = between(move, number, person)
    assert found.steps
    shares, reasons = demand_at(move, found.easier, person, *(step.mark_m for step in found.steps))
    assert not any(reasons)
    np.testing.assert_allclose(shares, [step.demand for step in found.steps], atol=2 * LOAD_TOLERANCE)
    climb = [found.from_demand, *shares, *([] if found.why else [found.to_demand])]
    ratios = [after / before for before, after in pairwise(climb)]
    np.testing.assert_allclose(ratios, found.ratio, rtol=1e-3)
    assert 1.0 < found.ratio <= STEP_AT_MOST or len(found.steps) >= MOST_STEPS - 1


@pytest.mark.parametrize("person", PEOPLE, ids=["woman", "man"])
def test_marks_lie_inside_the_rungs_own_range(person: People) -> None:
    for move, number in CLIMBS:
        mark = mark_of(load_move(move), load_move(move).rungs[number])
        assert all(mark.low_m <= step.mark_m <= mark.high_m for step in between(move, number, person).steps)


@pytest.mark.parametrize("person", PEOPLE, ids=["woman", "man"])
def test_a_way_that_slipping_ends_says_so_and_stays_clear_of_it(person: People) -> None:
    row = load_move("row")
    easier, harder = (find_rung(row, name) for name in ("deep lean", "knees bent, body level"))
    found = finer_steps(row, easier, harder, person, RIG)
    assert found.why == REASONS[SLIP]
    assert found.steps[-1].demand == pytest.approx(found.reached, rel=1e-3)
    assert found.reached < found.to_demand
    last_m = found.steps[-1].mark_m
    _, reasons = demand_at("row", found.easier, person, last_m, last_m + EDGE_M + 0.01)
    assert reasons == ["", REASONS[SLIP]]


def test_a_rung_on_the_floor_has_no_finer_steps() -> None:
    found = between("push-up", 0, PEOPLE[0])
    assert found.steps == ()
    assert found.why == "this rung has no other marks"
    assert found.reached == found.from_demand


def test_a_harder_rung_that_asks_no_more_has_none() -> None:
    move = load_move("row")
    found = finer_steps(move, move.rungs[2], move.rungs[0], PEOPLE[0], RIG)
    assert (found.steps, found.why) == ((), "the harder rung asks no more strength")


def test_a_step_within_the_usual_needs_none_between() -> None:
    move = load_move("row")
    found = finer_steps(move, move.rungs[1], move.rungs[1], PEOPLE[0], RIG)
    assert found.steps == ()


def test_a_person_of_no_stated_sex_gets_steps_too() -> None:
    person = people_of([Build(70.0, 1.70)])
    found = between("row", 0, person)
    shares, _ = demand_at("row", found.easier, person, *(step.mark_m for step in found.steps))
    np.testing.assert_allclose(shares, [step.demand for step in found.steps], atol=2 * LOAD_TOLERANCE)
