from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from tests.figures import poses

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.project import VIEWS
from leanmark.figures.solids import outline
from leanmark.figures.trunk import HULLS, RINGS, face_solid, hair_solid, neck_solid, nose_solid, trunk_solids

SIDE, FRONT = VIEWS["side"], VIEWS["front"]


def _breadth(name: str, level: float) -> float:
    edges = np.concatenate([outline(solid, FRONT, 180) for solid in trunk_solids(getattr(poses, name)())])
    near = edges[np.abs(edges[:, 1] - level) < 0.03]
    return float(near[:, 0].max() - near[:, 0].min())


def test_shoulders_are_broader_than_the_waist() -> None:
    scene = poses.standing()
    waist = float(scene.joint_m[SEGMENT_INDEX["lower_trunk"], 2]) + 0.09
    shoulders = float(scene.joint_m[SEGMENT_INDEX["left_upper_arm"], 2])
    hips = float(scene.joint_m[SEGMENT_INDEX["pelvis"], 2]) + 0.04
    assert _breadth("standing", shoulders) > _breadth("standing", waist)
    assert _breadth("standing", hips) > _breadth("standing", waist)


def test_the_trunk_spans_the_shoulder_joints() -> None:
    scene = poses.standing()
    edges = np.concatenate([outline(solid, FRONT, 72) for solid in trunk_solids(scene)])
    joint = scene.joint_m[SEGMENT_INDEX["left_upper_arm"], 1]
    assert joint < edges[:, 0].max() < joint + 0.03


def test_every_ring_is_used_and_neighbouring_parts_share_one() -> None:
    assert {name for names in HULLS for name in names} == {*RINGS, "yoke"}
    assert all(set(first) & set(second) for first, second in pairwise(HULLS))


def test_the_head_ends_at_the_crown_and_its_height_is_an_eighth_of_stature() -> None:
    scene = poses.standing()
    edge = outline(face_solid(scene), SIDE, 180)
    crown = float(scene.tip_m[SEGMENT_INDEX["head"], 2])
    assert edge[:, 1].max() == pytest.approx(crown, abs=0.002)
    # chin to vertex 0.130 of stature, Drillis & Contini 1966 from memory; half a unit of the last digit
    assert (edge[:, 1].max() - edge[:, 1].min()) / scene.stature_m == pytest.approx(0.130, abs=0.005)


def test_the_nose_points_forward_and_the_hair_lies_behind() -> None:
    scene = poses.standing()
    face, nose, hair = (
        outline(solid, SIDE, 72) for solid in (face_solid(scene), nose_solid(scene), hair_solid(scene))
    )
    assert nose[:, 0].max() > face[:, 0].max()
    assert hair[:, 0].min() < face[:, 0].min()
    assert hair[:, 1].min() > face[:, 1].min()


def test_the_neck_joins_trunk_and_head() -> None:
    scene = poses.standing()
    neck = outline(neck_solid(scene), SIDE, 72)
    trunk = np.concatenate([outline(solid, SIDE, 72) for solid in trunk_solids(scene)])
    assert neck[:, 1].min() < trunk[:, 1].max()
    assert neck[:, 1].max() > outline(face_solid(scene), SIDE, 72)[:, 1].min()
