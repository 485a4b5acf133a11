from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.figures import poses

from leanmark.figures.scene import Scene, check_scene


def test_solved_positions_pass() -> None:
    for pose in poses.ALL.values():
        check_scene(pose())


def test_wrong_shape_names_the_field() -> None:
    with pytest.raises(ValueError, match=r"scene\.tip_m has shape \(17, 3\); it must be \(18, 3\)"):
        check_scene(replace(poses.standing(), tip_m=np.zeros((17, 3))))


def test_unknown_kit_lists_what_is_allowed() -> None:
    with pytest.raises(ValueError, match=r"scene\.kit is 'rope'; it must be one of handles, cradles"):
        check_scene(replace(poses.standing(), kit="rope"))  # type: ignore[arg-type]


def _spoiled(scene: Scene) -> dict[str, Scene]:
    joint_m = scene.joint_m.copy()
    joint_m[3, 1] = np.nan
    strap = replace(scene.straps[0], tension_high_n=np.inf)
    force = replace(scene.floor_forces[0], force_n=np.array([0.0, np.nan, 1.0]))
    return {
        "joint_m": replace(scene, joint_m=joint_m),
        "stature_m": replace(scene, stature_m=np.nan),
        "floor_mark_m": replace(scene, floor_mark_m=np.inf),
        r"point_m\['left_heel'\]": replace(scene, point_m={"left_heel": np.array([np.nan, 0.0, 0.0])}),
        r"straps\[0\]\.tension_high_n": replace(scene, straps=(strap,)),
        r"floor_forces\[0\]\.force_n": replace(scene, floor_forces=(force,)),
    }


@pytest.mark.parametrize("name", list(_spoiled(poses.row())))
def test_numbers_that_are_not_finite_are_named(name: str) -> None:
    with pytest.raises(ValueError, match=rf"scene\.{name} holds a value that is not finite"):
        check_scene(_spoiled(poses.row())[name])
