"""People on a rig in a rung: loads of marks, marks of loads."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.added_mass import AddedMass
from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.mechanics.reasons import FINE
from leanmark.mechanics.task import PushUse
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, held_loads, marks, stand
from leanmark.rig.rig import standard_rig

BUILDS = (Build(75.0, 1.78, "male"), Build(58.0, 1.64, "female"), Build(68.0, 1.72))
MARKS = np.array([-0.8, -0.6, -0.5])
EACH = np.arange(3)


def row(*builds: Build, **more: object) -> Stand:
    move = load_move("row")
    people = people_of(builds or BUILDS)
    return stand(move, find_rung(move, "leaning"), standard_rig(2.45), people, **more)  # type: ignore[arg-type]


def test_each_person_alone_has_the_load_of_the_batch() -> None:
    together = held_loads(row(), MARKS, EACH)
    for k, build in enumerate(BUILDS):
        alone = held_loads(row(build), MARKS[k : k + 1], np.zeros(1, dtype=np.intp))
        assert alone.load[0] == pytest.approx(together.load[k], abs=1e-12)
        assert (alone.low[0], alone.high[0]) == pytest.approx((together.low[k], together.high[k]), abs=1e-9)


def test_a_load_lies_in_its_interval() -> None:
    held = held_loads(row(), MARKS, EACH)
    assert (held.reason == FINE).all()
    assert ((held.low < held.load) & (held.load < held.high)).all()


def test_an_unstated_sex_spans_both_tables() -> None:
    where, who = np.array([-0.6]), np.zeros(1, dtype=np.intp)
    unsaid, man, woman = (
        held_loads(row(Build(68.0, 1.72, sex)), where, who)
        for sex in (None, "male", "female")  # type: ignore[arg-type]
    )
    assert unsaid.low[0] == pytest.approx(min(man.low[0], woman.low[0]))
    assert unsaid.high[0] == pytest.approx(max(man.high[0], woman.high[0]))
    assert unsaid.load[0] == pytest.approx(0.5 * (man.load[0] + woman.load[0]))


def test_marks_give_the_loads_wanted_of_them() -> None:
    standing = row()
    for person, answers in enumerate(marks(standing, np.array([0.3, 0.45]))):
        for answer in answers:
            assert answer.answers, "both loads are within every row"
            for found in answer.answers:
                load, reason = standing.profile(np.array([found.mark_m]), np.array([person]))
                assert reason[0] == FINE
                assert load[0] == pytest.approx(answer.wanted, abs=2e-5)


def test_a_vest_loads_and_a_push_from_behind_unloads_the_straps() -> None:
    where, who = np.array([-0.6]), np.zeros(1, dtype=np.intp)
    plain = row(BUILDS[0]).profile(where, who)[0][0]
    vest = row(BUILDS[0], added=[AddedMass("upper_trunk", 10.0)]).profile(where, who)[0][0]
    push = row(BUILDS[0], pushes=[PushUse("back_mid", (50.0, 0.0, 0.0))]).profile(where, who)[0][0]
    assert vest > plain + 0.05
    assert push < plain - 0.02


def test_twice_the_mass_is_the_same_share() -> None:
    where, who = np.array([-0.6]), np.zeros(1, dtype=np.intp)
    light, heavy = (row(Build(kg, 1.78, "male")).profile(where, who)[0][0] for kg in (50.0, 100.0))
    # Strengths grow with mass too, so the least-effort split stays as it is.
    assert light == pytest.approx(heavy, abs=1e-4)


def test_a_strap_outside_its_range_is_refused() -> None:
    with pytest.raises(FieldError, match="strap"):
        row(strap_m=9.0)
