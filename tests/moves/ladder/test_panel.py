"""The reference people are those of the table, in the order that says so."""

from __future__ import annotations

from leanmark.body.build import Build
from leanmark.moves.ladder.panel import (
    MASSES_KG,
    STATURES_M,
    crossed_people,
    listed,
    reference_people,
    typical_in,
    typical_people,
    words_of,
)

# Gordon et al. 2014, NATICK/TR-15/007, 5th, 50th and 95th percentile; from memory, rounded
PRINTED = {
    "female": ((1.53, 51.0), (1.63, 67.0), (1.74, 87.0)),
    "male": ((1.64, 64.0), (1.76, 85.0), (1.87, 111.0)),
}


def test_the_six_are_the_rows_of_the_table() -> None:
    builds = reference_people().builds
    rows = [(sex, stature, mass) for sex, own in PRINTED.items() for stature, mass in own]
    assert [(build.sex, build.stature_m, build.mass_kg) for build in builds] == rows


def test_the_cross_has_every_stature_with_every_mass_once() -> None:
    builds = crossed_people().builds
    assert len({(b.sex, b.stature_m, b.mass_kg) for b in builds}) == len(builds) == 18
    for sex in ("female", "male"):
        assert {b.stature_m for b in builds if b.sex == sex} == set(STATURES_M[sex])
        assert {b.mass_kg for b in builds if b.sex == sex} == set(MASSES_KG[sex])
    assert set(map(words_of, reference_people().builds)) < set(map(words_of, builds))


def test_everyone_is_read_by_the_table_of_their_sex_alone() -> None:
    for people in (reference_people(), crossed_people(), typical_people()):
        assert people.person.tolist() == list(range(len(people)))


def test_the_typical_two_are_found_among_others() -> None:
    assert typical_in(reference_people()) == [1, 4]
    assert typical_in(typical_people()) == [0, 1]
    assert [crossed_people().builds[k] for k in typical_in(crossed_people())] == [*typical_people().builds]


def test_people_are_named_by_percentile_or_by_size() -> None:
    assert words_of(Build(67.0, 1.63, "female")) == "50th-percentile woman"
    assert words_of(Build(111.0, 1.64, "male")) == "5th-percentile man of 95th-percentile mass"
    assert listed([Build(70.0, 1.70), Build(51.0, 1.53, "female")]) == "1.70 m, 70 kg, 5th-percentile woman"
