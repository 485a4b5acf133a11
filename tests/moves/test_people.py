"""People as rows: one for a stated sex, two where both segment tables are spanned."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.scale import scale
from leanmark.body.tables import TABLES
from leanmark.moves.known import Known
from leanmark.moves.people import joined, mean_by_position, people_of

WOMAN = Build(60.0, 1.66, "female")
MAN = Build(80.0, 1.82, "male")
EITHER = Build(70.0, 1.74)
THREE = people_of([EITHER, MAN, WOMAN])


def same(one: Bodies, other: Bodies) -> bool:
    """Whether all arrays are equal; strengths of the free root are NaN in both."""
    return all(
        np.array_equal(getattr(one, f.name), getattr(other, f.name), equal_nan=True) for f in fields(Bodies)
    )


def test_unstated_sex_takes_a_row_by_each_table() -> None:
    assert len(THREE) == 3
    assert THREE.person.tolist() == [0, 0, 1, 2]
    assert same(THREE.bodies.take(np.array([0])), scale([EITHER], TABLES["de_leva_male"]))
    assert same(THREE.bodies.take(np.array([1])), scale([EITHER], TABLES["de_leva_female"]))


@pytest.mark.parametrize(("row", "build", "table"), [(2, MAN, "de_leva_male"), (3, WOMAN, "de_leva_female")])
def test_stated_sex_takes_its_own_table(row: int, build: Build, table: str) -> None:
    assert same(THREE.bodies.take(np.array([row])), scale([build], TABLES[table]))


@pytest.mark.parametrize("order", [[0, 1, 2], [2, 1, 0], [1, 0, 2]])
def test_people_keep_the_order_in_which_they_were_given(order: list[int]) -> None:
    given = [(EITHER, MAN, WOMAN)[k] for k in order]
    people = people_of(given)
    assert people.builds == tuple(given)
    mass_kg = [given[person].mass_kg for person in people.person]
    assert people.bodies.body_mass_kg.tolist() == mass_kg


def test_rows_of_positions_repeat_whoever_has_two() -> None:
    rows, position = THREE.rows(np.array([2, 0, 0, 1]))
    assert rows.tolist() == [3, 0, 1, 0, 1, 2]
    assert position.tolist() == [0, 1, 1, 2, 2, 3]


def test_rows_of_no_positions_are_none() -> None:
    rows, position = THREE.rows(np.zeros(0, dtype=np.intp))
    assert rows.size == position.size == 0


def test_mean_by_position_is_over_the_rows_of_one_position() -> None:
    values = np.array([[1.0, 10.0], [3.0, 30.0], [5.0, 50.0]])
    mean = mean_by_position(values, np.array([0, 0, 1]), 2)
    assert mean.tolist() == [[2.0, 20.0], [5.0, 50.0]]
    assert mean_by_position(values[:, 0], np.array([1, 0, 1]), 2).tolist() == [3.0, 3.0]


def test_joined_people_stand_one_after_another() -> None:
    parts = [scale([MAN], TABLES["de_leva_male"]), scale([WOMAN, EITHER], TABLES["de_leva_female"])]
    whole = joined(parts)
    assert whole.body_mass_kg.tolist() == [80.0, 60.0, 70.0]
    assert same(whole.take(np.array([0])), parts[0])
    assert same(whole.take(np.array([1, 2])), parts[1])


def test_what_scale_readings_told_raises_the_mass_centre_of_that_person_only() -> None:
    told = Known("row", 0.01, 0.005, 0.0, 0.3)
    people = people_of([MAN, WOMAN], [told, None])
    plain = people_of([MAN, WOMAN])
    assert people.known == (told, None)
    assert people.com_deviation[0] == 0.005
    assert people.com_deviation[1] > people.com_deviation[0]
    assert not np.array_equal(people.bodies.com_m[0], plain.bodies.com_m[0])
    assert np.array_equal(people.bodies.com_m[1], plain.bodies.com_m[1])
