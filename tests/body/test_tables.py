"""Which tables there are, whom they serve, and that each says where it comes from."""

from __future__ import annotations

import pytest

from leanmark.body.build import SEXES, Sex
from leanmark.body.de_leva_1996 import PRINTED
from leanmark.body.segment_table import PARTS
from leanmark.body.tables import TABLES, tables_for


def test_there_are_three_tables() -> None:
    assert set(TABLES) == {"de_leva_male", "de_leva_female", "winter_dempster"}


@pytest.mark.parametrize("sex", SEXES)
def test_a_stated_sex_has_its_own_table(sex: Sex) -> None:
    (table,) = tables_for(sex)
    assert (table.name, table.sex) == (f"de_leva_{sex}", sex)


def test_an_unstated_sex_is_spanned_by_both_tables_of_one_author() -> None:
    assert [table.name for table in tables_for(None)] == ["de_leva_male", "de_leva_female"]


@pytest.mark.parametrize("name", TABLES)
def test_each_table_describes_every_part_and_names_its_source(name: str) -> None:
    table = TABLES[name]
    assert tuple(sorted(table.parts)) == tuple(sorted(PARTS))
    assert any(year in table.source for year in ("1996", "2009"))
    assert table.mass_sum() == pytest.approx(1.0, abs=1.5e-4)  # 0.9999 is printed for de Leva's women


def test_de_leva_radii_are_read_about_the_right_axes() -> None:
    shank, foot = PRINTED["male"]["shank 2"].radii_percent, PRINTED["male"]["foot"].radii_percent
    parts = TABLES["de_leva_male"].parts
    assert parts["shank"].radius_fraction == pytest.approx([r / 100 for r in shank])
    # sagittal, transverse, longitudinal are x, y, z of a shank, but z, y, x of a foot
    assert parts["foot"].radius_fraction == pytest.approx([r / 100 for r in foot[::-1]])


@pytest.mark.parametrize(
    ("part", "row"),
    [("pelvis", "lower trunk"), ("lower_trunk", "mid trunk"), ("upper_trunk", "upper trunk 2")],
)
def test_de_leva_trunk_is_counted_upwards(part: str, row: str) -> None:
    printed = PRINTED["male"][row].com_percent
    assert TABLES["de_leva_male"].parts[part].com_fraction == pytest.approx(1.0 - printed / 100.0)


def test_winter_trunk_has_its_mass_centre_half_way_between_hip_and_shoulder() -> None:
    table = TABLES["winter_dempster"]
    base = moment = mass = 0.0
    for name in ("pelvis", "lower_trunk", "upper_trunk"):
        part = table.parts[name]
        moment += part.mass_fraction * (base + part.com_fraction * part.length_share)
        mass += part.mass_fraction
        base += part.length_share
    # Winter 2009 prints 0.50 for trochanter to glenohumeral joint; shoulder to hip is 0.288 of stature
    assert moment / mass == pytest.approx(0.5 * 0.288, rel=1e-12)


def test_winter_stands_as_tall_as_the_stature() -> None:
    parts = TABLES["winter_dempster"].parts
    stack = sum(
        parts[name].length_share
        for name in ("pelvis", "lower_trunk", "upper_trunk", "head", "thigh", "shank")
    )
    assert 0.039 + stack == pytest.approx(1.0, abs=1e-12)
