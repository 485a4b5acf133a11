"""The divided foot is the published one again when its toes are straight."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.body.build import Build
from leanmark.body.foot import (
    ANKLE_FROM_HEEL,
    ANKLE_HEIGHT_SHARE,
    FOOT_COM_HEIGHT,
    divided,
    shift_inertia,
    toe_joint_m,
)
from leanmark.body.points import POINT_INDEX
from leanmark.body.scale import scale
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.body.tables import TABLES

FOOT, TOES = SEGMENT_INDEX["left_foot"], SEGMENT_INDEX["left_toes"]


@pytest.mark.parametrize("table", TABLES)
def test_foot_and_toes_make_the_published_foot(table: str) -> None:
    bodies, part = scale([Build(74.0, 1.78)], TABLES[table]), TABLES[table].parts["foot"]
    mass, joint = bodies.mass_kg[0], bodies.joint_offset_m[0, TOES]
    whole = mass[FOOT] + mass[TOES]
    assert whole == pytest.approx(part.mass_fraction / TABLES[table].mass_sum() * 74.0, rel=1e-12)
    com = (mass[FOOT] * bodies.com_m[0, FOOT] + mass[TOES] * (joint + bodies.com_m[0, TOES])) / whole
    length_m = part.length_share * 1.78
    ahead = (part.com_fraction - ANKLE_FROM_HEEL) * length_m
    rise = (FOOT_COM_HEIGHT - 1.0) * ANKLE_HEIGHT_SHARE * 1.78
    np.testing.assert_allclose(com, [ahead, 0.0, rise], atol=1e-12)
    moments = np.zeros(3)
    for index, origin in ((FOOT, np.zeros(3)), (TOES, joint)):
        arm = origin + bodies.com_m[0, index] - com
        moments += bodies.inertia_kg_m2[0, index] + shift_inertia(mass[[index]], arm[None])[0]
    np.testing.assert_allclose(moments, whole * (length_m * np.array(part.radius_fraction)) ** 2, rtol=1e-9)


@given(length_m=st.floats(0.15, 0.35), stature_m=st.floats(1.0, 2.5))
def test_toe_joint_lies_between_ankle_and_toe_tip_above_the_sole(length_m: float, stature_m: float) -> None:
    ahead, aside, rise = toe_joint_m(np.array([length_m]), np.array([stature_m]))[0]
    assert 0.0 < ahead < (1.0 - ANKLE_FROM_HEEL) * length_m
    assert aside == 0.0
    assert -ANKLE_HEIGHT_SHARE * stature_m < rise < 0.0


def test_the_sole_is_flat_from_heel_to_toe_tip() -> None:
    bodies = scale([Build(74.0, 1.78)], TABLES["de_leva_female"])
    sole = -ANKLE_HEIGHT_SHARE * 1.78
    for name in ("left_heel", "left_ball_medial", "left_ball_lateral"):
        assert bodies.point_m[0, POINT_INDEX[name], 2] == pytest.approx(sole, abs=1e-12)
    for name in ("left_toe_base_medial", "left_toe_base_lateral", "left_toe_tip"):
        height = bodies.joint_offset_m[0, TOES, 2] + bodies.point_m[0, POINT_INDEX[name], 2]
        assert height == pytest.approx(sole, abs=1e-12)


def test_heel_to_toe_tip_is_the_foots_length() -> None:
    bodies = scale([Build(74.0, 1.78, lengths_m={"foot": 0.27})], TABLES["de_leva_male"])
    tip = bodies.joint_offset_m[0, TOES, 0] + bodies.point_m[0, POINT_INDEX["left_toe_tip"], 0]
    assert tip - bodies.point_m[0, POINT_INDEX["left_heel_back"], 0] == pytest.approx(0.27, abs=1e-12)


def test_nothing_is_left_when_foot_and_toes_have_their_parts_taken() -> None:
    one = np.array([1.0])
    foot, toes = divided(one, np.array([[0.05, 0.0, -0.03]]), np.full((1, 3), 0.004), 0.26 * one, 1.78 * one)
    assert foot.mass_kg[0] + toes.mass_kg[0] == pytest.approx(1.0, rel=1e-15)
    assert (foot.inertia_kg_m2 > 0.0).all()
