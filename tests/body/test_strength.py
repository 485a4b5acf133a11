"""Reference strengths: every entry filled, signs, sex, age and size; the page lists what the code holds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.docs.pages import ROOT

from leanmark.body.arrays import Floats
from leanmark.body.build import SEXES, Build, Sex
from leanmark.body.scale import scale
from leanmark.body.segments import HINGES, JOINTS
from leanmark.body.strength import age_share
from leanmark.body.strength_reference import YOUNG
from leanmark.body.strength_table import ACTIONS, REFERENCES
from leanmark.body.tables import TABLES
from leanmark.mechanics.moments import MOMENT_AXES

TABLE = TABLES["winter_dempster"]  # measured on neither sex, so that the build's own counts


def strengths(*builds: Build) -> Floats:
    return scale(builds, TABLE).strength_nm


def test_root_is_nan_and_all_other_entries_are_filled_and_positive() -> None:
    values = strengths(Build(74.0, 1.78))[0]
    assert np.isnan(values[0]).all()
    assert (values[1:] > 0.0).all()


def test_only_the_side_axes_of_hinges_are_structural() -> None:
    values = strengths(Build(74.0, 1.78))[0]
    for index, joint in enumerate(JOINTS[1:], start=1):
        hinge = joint.removeprefix("left_").removeprefix("right_") in HINGES
        assert np.isfinite(values[index, 0]).all()
        assert np.isinf(values[index, 1:]).all() == hinge
        assert np.isfinite(values[index, 1:]).all() != hinge


def test_every_action_has_a_reference_and_the_other_way_round() -> None:
    named = {(joint, action) for joint, axes in ACTIONS.items() for axis in axes if axis for action in axis}
    assert named == set(REFERENCES)
    assert all(row.source and row.contraction for row in REFERENCES.values())


def test_positive_directions_are_those_of_the_joint_moments() -> None:
    for joint, axes in ACTIONS.items():
        for axis, name in zip(axes, MOMENT_AXES[joint], strict=True):
            assert axis is None or axis[1] == name


@pytest.mark.parametrize("sex", SEXES)
def test_a_reference_person_has_the_reference_strength(sex: Sex) -> None:
    body = YOUNG[sex]
    values = strengths(Build(*body, sex=sex, age_years=25.0))[0]
    knee = JOINTS.index("left_knee")
    extension = REFERENCES["knee", "extension"].per_size(sex)
    assert values[knee, 0, 0] == pytest.approx(extension * body.mass_kg * body.stature_m, rel=1e-12)


def test_unstated_sex_is_the_mean_on_a_table_of_no_sex_and_the_tables_sex_elsewhere() -> None:
    woman, man = Build(70.0, 1.7, "female"), Build(70.0, 1.7, "male")
    unstated = Build(70.0, 1.7)
    values = strengths(woman, man, unstated)[:, 1:]
    np.testing.assert_allclose(values[2], 0.5 * (values[0] + values[1]), rtol=1e-12)
    on_men = scale([unstated, man, woman], TABLES["de_leva_male"]).strength_nm[:, 1:]
    np.testing.assert_array_equal(on_men[0], on_men[1])
    np.testing.assert_allclose(on_men[2], values[0], rtol=1e-12)  # a stated sex is kept on any table


@given(age_years=st.floats(5.0, 110.0), later=st.floats(0.0, 30.0))
def test_strength_never_grows_with_age_beyond_25(age_years: float, later: float) -> None:
    for sex in SEXES:
        first, second = age_share(np.array([age_years, age_years + later]), sex)
        assert 0.5 < second <= first <= 1.0


def test_unstated_age_is_a_young_adults() -> None:
    values = strengths(
        Build(70.0, 1.7, "male"), Build(70.0, 1.7, "male", 25.0), Build(70.0, 1.7, "male", 70.0)
    )
    np.testing.assert_array_equal(values[0, 1:], values[1, 1:])
    assert values[2, 1, 0, 0] < values[1, 1, 0, 0]


def page_table() -> str:
    """The references as docs/body.md lists them, moments [N m] of the people of ``YOUNG``."""
    lines = ["| joint | action | women, N·m | men, N·m | contraction | source |", "|---|---|---|---|---|---|"]
    for (joint, action), row in REFERENCES.items():
        women, men = (f"{row.per_size(sex) * YOUNG[sex].size:.1f}" for sex in SEXES)
        cells = (joint.replace("_", " "), action.replace("_", " "), women, men, row.contraction, row.source)
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


def test_the_page_lists_every_reference_as_the_code_holds_it() -> None:
    page = (ROOT / "docs" / "body.md").read_text(encoding="utf-8")
    assert page_table() in page, f"docs/body.md should hold:\n{page_table()}"
