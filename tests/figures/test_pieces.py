from __future__ import annotations

import pytest
from tests.figures import poses
from tests.figures.mannequin import posed, turn

from leanmark.figures.pieces import body_pieces, far_limbs, piece_depth_m, seams
from leanmark.figures.project import VIEWS
from leanmark.figures.scene import Scene


def _order(scene: Scene, view: str) -> list[str]:
    look = VIEWS[view]  # type: ignore[index]
    placed = sorted((piece_depth_m(piece, look), piece.rank, piece.name) for piece in body_pieces(scene))
    return [name for _, _, name in placed]


def test_from_the_side_the_left_lies_behind_the_trunk_and_the_right_before() -> None:
    order = _order(poses.standing(), "side")
    for part in ("upper_arm", "forearm", "hand", "thigh", "shank", "foot"):
        assert order.index(f"left_{part}") < order.index("trunk") < order.index(f"right_{part}")


@pytest.mark.parametrize(("view", "first", "last"), [("front", "hair", "head"), ("back", "head", "hair")])
def test_hair_covers_the_face_from_behind_only(view: str, first: str, last: str) -> None:
    order = _order(poses.standing(), view)
    assert order.index(first) < order.index(last)


def test_from_the_side_neither_hair_nor_nose_lies_on_the_face() -> None:
    for pose in poses.ALL.values():
        order = _order(pose(), "side")
        if pose not in (poses.side_plank, poses.one_arm_row):  # those are turned towards the viewer
            assert order.index("hair") < order.index("head")
            assert order.index("nose") < order.index("head")


def test_limbs_behind_their_twins_are_far() -> None:
    assert far_limbs(poses.standing(), VIEWS["side"]) == {"left_arm", "left_leg"}
    assert far_limbs(poses.standing(), VIEWS["front"]) == frozenset()


def test_seams_join_pieces_that_are_there() -> None:
    scene = poses.row()
    names = {piece.name for piece in body_pieces(scene)}
    found = list(seams(scene, 0.005))
    assert len(found) == 6
    assert all(len(seam.stumps) == 2 and seam.stumps.keys() <= names for seam in found)


def test_a_tilted_head_still_covers_its_neck() -> None:
    for tilt in (-15, 15):
        scene = posed({"head": turn(0, tilt)}, fixed=("left.heel", (0.0, 0.0, 0.0)))
        order = _order(scene, "side")
        assert order.index("neck") < order.index("head")
