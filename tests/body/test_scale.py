"""People scaled by a table: conservation, symmetry, scaling laws, measured lengths."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.body.arrays import Floats
from leanmark.body.bodies import Bodies
from leanmark.body.build import Build
from leanmark.body.frame import part_of
from leanmark.body.points import POINTS
from leanmark.body.scale import scale
from leanmark.body.segments import PARENT, SEGMENT_COUNT, SEGMENT_INDEX, SEGMENTS
from leanmark.body.tables import TABLES

ROUNDING = 1e-12  # sums and products of a few dozen doubles near one
BUILDS = st.builds(Build, st.floats(20.0, 300.0), st.floats(1.0, 2.5))
TABLE = st.sampled_from(sorted(TABLES))
MIRROR = np.array([1.0, -1.0, 1.0])


def origins_m(bodies: Bodies, row: int = 0) -> Floats:
    """Segment origins of a person standing in the anatomical position, the mid-hip point at zero."""
    origin = np.zeros((SEGMENT_COUNT, 3))
    for segment, parent in enumerate(PARENT[1:], start=1):
        origin[segment] = origin[parent] + bodies.joint_offset_m[row, segment]
    return origin


@given(builds=st.lists(BUILDS, min_size=1, max_size=5), table=TABLE)
def test_segment_masses_sum_to_the_body(builds: list[Build], table: str) -> None:
    bodies = scale(builds, TABLES[table])
    wanted = [build.mass_kg for build in builds]
    np.testing.assert_allclose(bodies.mass_kg.sum(axis=1), wanted, rtol=ROUNDING)
    assert (bodies.mass_kg > 0.0).all()


@given(builds=st.lists(BUILDS, min_size=2, max_size=4), table=TABLE)
def test_many_people_at_once_equal_one_by_one(builds: list[Build], table: str) -> None:
    together = scale(builds, TABLES[table])
    assert len(together) == len(builds)
    for row, build in enumerate(builds):
        alone, taken = scale([build], TABLES[table]), together.take(slice(row, row + 1))
        for field in fields(Bodies):
            np.testing.assert_allclose(
                getattr(taken, field.name), getattr(alone, field.name), rtol=1e-12, atol=1e-15
            )


@given(build=BUILDS, table=TABLE)
def test_left_and_right_mirror_each_other(build: Build, table: str) -> None:
    bodies = scale([build], TABLES[table])
    for name in SEGMENTS:
        if name.startswith("left_"):
            left, right = SEGMENT_INDEX[name], SEGMENT_INDEX[name.replace("left_", "right_")]
            assert bodies.mass_kg[0, left] == bodies.mass_kg[0, right]
            np.testing.assert_array_equal(bodies.com_m[0, left], MIRROR * bodies.com_m[0, right])
            np.testing.assert_array_equal(
                bodies.joint_offset_m[0, left], MIRROR * bodies.joint_offset_m[0, right]
            )
    names = list(POINTS)
    for index, name in enumerate(names):
        if name.startswith("left_"):
            other = names.index(name.replace("left_", "right_"))
            np.testing.assert_allclose(
                bodies.point_m[0, index], MIRROR * bodies.point_m[0, other], atol=1e-15
            )


@given(build=BUILDS, table=TABLE, mass=st.floats(0.5, 1.5), size=st.floats(0.8, 1.25))
def test_lengths_go_with_stature_and_inertia_with_mass_times_its_square(
    build: Build, table: str, mass: float, size: float
) -> None:
    other = Build(
        float(np.clip(mass * build.mass_kg, 20, 300)), float(np.clip(size * build.stature_m, 1, 2.5))
    )
    mass, size = other.mass_kg / build.mass_kg, other.stature_m / build.stature_m
    first, second = scale([build], TABLES[table]), scale([other], TABLES[table])
    for name in ("com_m", "joint_offset_m", "point_m", "radius_m"):
        np.testing.assert_allclose(getattr(second, name), size * getattr(first, name), rtol=1e-9, atol=1e-12)
    np.testing.assert_allclose(second.inertia_kg_m2, mass * size**2 * first.inertia_kg_m2, rtol=1e-9)
    np.testing.assert_allclose(second.strength_nm[:, 1:], mass * size * first.strength_nm[:, 1:], rtol=1e-9)


@pytest.mark.parametrize("table", TABLES)
def test_moments_of_inertia_are_those_of_a_solid(table: str) -> None:
    moments = scale([Build(74.0, 1.78)], TABLES[table]).inertia_kg_m2[0]
    assert (moments > 0.0).all()
    # no principal moment is above the sum of the other two; toes and feet carry our own figures
    assert (2.0 * moments.max(axis=1) <= moments.sum(axis=1) * (1.0 + ROUNDING)).all()


@pytest.mark.parametrize("table", TABLES)
def test_limbs_turn_hardest_across_their_length(table: str) -> None:
    moments = scale([Build(74.0, 1.78)], TABLES[table]).inertia_kg_m2[0]
    for name in ("upper_arm", "forearm", "hand", "thigh", "shank"):
        x, y, z = moments[SEGMENT_INDEX[f"left_{name}"]]
        assert z < min(x, y)
    x, y, z = moments[SEGMENT_INDEX["left_foot"]]
    assert x < min(y, z)  # the foot's long axis is x


@pytest.mark.parametrize("table", TABLES)
def test_mass_centres_lie_inside_their_segments(table: str) -> None:
    bodies = scale([Build(74.0, 1.78)], TABLES[table])
    ends = {"lower_trunk": "pelvis", "upper_trunk": "lower_trunk", "head": "upper_trunk"}
    ends |= {
        f"left_{child}": f"left_{parent}"
        for child, parent in (
            ("forearm", "upper_arm"),
            ("hand", "forearm"),
            ("shank", "thigh"),
            ("foot", "shank"),
        )
    }
    for child, parent in ends.items():
        share = bodies.com_m[0, SEGMENT_INDEX[parent], 2] / bodies.joint_offset_m[0, SEGMENT_INDEX[child], 2]
        assert 0.0 < share < 1.0, parent


TAPE = {
    "upper_arm": ("left_upper_arm", "left_forearm"),
    "forearm": ("left_forearm", "left_hand"),
    "thigh": ("left_thigh", "left_shank"),
    "shank": ("left_shank", "left_foot"),
}


@pytest.mark.parametrize("name", TAPE)
def test_a_measured_length_moves_its_own_segment_alone(name: str) -> None:
    segment, child = (SEGMENT_INDEX[part] for part in TAPE[name])
    plain = scale([Build(74.0, 1.78)], TABLES["de_leva_male"])
    length_m = 1.1 * abs(plain.joint_offset_m[0, child, 2])
    longer = scale([Build(74.0, 1.78, lengths_m={name: length_m})], TABLES["de_leva_male"])
    assert abs(longer.joint_offset_m[0, child, 2]) == pytest.approx(length_m, rel=ROUNDING)
    assert longer.com_m[0, segment, 2] == pytest.approx(1.1 * plain.com_m[0, segment, 2], rel=1e-9)
    np.testing.assert_allclose(
        longer.inertia_kg_m2[0, segment], 1.21 * plain.inertia_kg_m2[0, segment], rtol=1e-9
    )
    np.testing.assert_array_equal(longer.mass_kg, plain.mass_kg)
    others = [index for index, part in enumerate(SEGMENTS) if part_of(part) != name]
    np.testing.assert_array_equal(longer.com_m[0, others], plain.com_m[0, others])


def test_a_measured_trunk_stretches_hip_to_shoulder() -> None:
    bodies = scale(
        [Build(74.0, 1.78, lengths_m={"trunk": 0.56}), Build(74.0, 1.78)], TABLES["de_leva_female"]
    )
    arm, head = SEGMENT_INDEX["left_upper_arm"], SEGMENT_INDEX["head"]
    tall, plain = origins_m(bodies, 0), origins_m(bodies, 1)
    assert tall[arm, 2] == pytest.approx(0.56, rel=ROUNDING)
    # the base of the neck rises in the same ratio, the breadth of the shoulders stays
    assert tall[head, 2] / plain[head, 2] == pytest.approx(0.56 / plain[arm, 2], rel=ROUNDING)
    assert tall[arm, 1] == plain[arm, 1]


def test_each_row_keeps_its_own_measured_lengths() -> None:
    builds = [
        Build(74.0, 1.78, lengths_m={"thigh": 0.45}),
        Build(74.0, 1.78),
        Build(60.0, 1.60, lengths_m={"shank": 0.40}),
    ]
    offset = scale(builds, TABLES["de_leva_male"]).joint_offset_m
    assert offset[0, SEGMENT_INDEX["right_shank"], 2] == -0.45
    assert offset[1, SEGMENT_INDEX["right_shank"], 2] == pytest.approx(-0.4222 / 1.741 * 1.78, rel=ROUNDING)
    assert offset[2, SEGMENT_INDEX["right_foot"], 2] == -0.40


def test_take_repeats_and_picks_rows() -> None:
    bodies = scale([Build(60.0, 1.6), Build(80.0, 1.8)], TABLES["de_leva_male"])
    picked = bodies.take(np.array([1, 0, 1], dtype=np.intp))
    np.testing.assert_array_equal(picked.body_mass_kg, [80.0, 60.0, 80.0])
    assert picked.point_m.shape == (3, len(POINTS), 3)
    assert len(bodies.take(slice(1, 2))) == 1


def test_regression_of_one_person() -> None:
    # regression: values our own code gave for 74 kg, 1.78 m on de Leva's men, not an outside check
    bodies = scale([Build(74.0, 1.78)], TABLES["de_leva_male"])
    assert bodies.com_m[0, SEGMENT_INDEX["left_thigh"], 2] == pytest.approx(-0.17676, abs=1e-5)
    assert bodies.mass_kg[0, SEGMENT_INDEX["left_toes"]] == pytest.approx(0.101380, abs=1e-6)
