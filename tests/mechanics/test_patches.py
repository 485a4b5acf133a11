"""Contact patches: which points bear, and what of a patch stays put."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import side_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.constraints import PlantedRow
from leanmark.mechanics.patches import PATCHES, Patch, contact_points, planted_rows

PLACE = np.array([[-0.5, 0.1], [-0.4, 0.2]])


def level_rows(rows: list[PlantedRow]) -> list[PlantedRow]:
    return [row for row in rows if row.direction[..., 2].any()]


@pytest.mark.parametrize("kind", PATCHES)
def test_every_kind_names_points_of_the_body_on_its_own_side(kind: str) -> None:
    for side in ("left", "right") if PATCHES[kind].sided else ("",):
        patch = Patch(kind, side, PLACE, np.zeros(()))
        for name in (*PATCHES[kind].bearing, PATCHES[kind].lead, *PATCHES[kind].toward):
            assert side_of(list(POINT_INDEX)[patch.index(name)]) == (side or "middle")


@pytest.mark.parametrize("kind", PATCHES)
def test_every_bearing_point_is_held_at_the_surface(kind: str) -> None:
    patch = Patch(kind, "left" if PATCHES[kind].sided else "", PLACE, np.zeros(()), height_m=0.3)
    level = level_rows(planted_rows(patch))
    assert {row.point for row in level} == set(patch.points())
    assert all(float(row.value) == 0.3 for row in level)
    assert all(row.other is None for row in level)


def test_a_placed_patch_holds_its_lead_ahead_and_across() -> None:
    rows = planted_rows(Patch("heel", "left", PLACE, None))
    ahead, across = (row for row in rows if not row.direction[2])
    assert ahead.point == across.point == POINT_INDEX["left_heel"]
    np.testing.assert_array_equal(ahead.value, PLACE[:, 0])
    np.testing.assert_array_equal(across.value, PLACE[:, 1])


def test_shoulders_are_held_across_on_one_side_alone() -> None:
    held = {
        side: [row for row in planted_rows(Patch("shoulder_back", side, PLACE, None)) if not row.direction[2]]
        for side in ("left", "right")
    }
    (ahead,) = held["right"]
    np.testing.assert_array_equal(ahead.direction, [1.0, 0.0, 0.0])
    ahead, across = held["left"]
    np.testing.assert_array_equal(across.direction, [0.0, 1.0, 0.0])
    np.testing.assert_array_equal(across.value, PLACE[:, 1])


def test_a_found_patch_only_touches() -> None:
    rows = planted_rows(Patch("sole", "left", None, None))
    assert len(rows) == 3 == len(level_rows(rows))


def facing(patch: Patch, forward: Floats, left: Floats) -> Floats:
    """The heading rows' values where the patch's own directions are ``forward`` and ``left``."""
    outward = left if patch.side == "left" else -left
    place = {"heel": np.zeros(3), "ball_medial": forward - outward, "ball_lateral": forward + outward}
    place |= {"palm_heel": np.zeros(3), "palm_ball": forward}
    at = {patch.index(name): value for name, value in place.items() if name in str(PATCHES[patch.kind])}
    headed = [row for row in planted_rows(patch) if row.other is not None]
    return np.array([row.direction @ (at[row.point] - at[row.other or 0]) - row.value for row in headed])


@pytest.mark.parametrize("kind", ["sole", "palm"])
@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("heading", [-0.4, 0.0, 0.7])
def test_the_heading_row_is_zero_where_the_patch_points_along_its_heading(
    kind: str, side: str, heading: float
) -> None:
    patch = Patch(kind, side, np.zeros(2), np.array(heading))
    forward = np.array([np.cos(heading), np.sin(heading), 0.0])
    left = np.array([-np.sin(heading), np.cos(heading), 0.0])
    np.testing.assert_allclose(facing(patch, forward, left), [0.0], rtol=0, atol=1e-15)
    # turned by a small angle it is off by that angle times the distance between its two points: 1 or 2
    off = np.abs(facing(patch, forward + 1e-3 * left, left - 1e-3 * forward))
    np.testing.assert_allclose(off, [2e-3 if kind == "sole" else 1e-3], rtol=1e-9)


def test_pressed_patches_push_at_each_bearing_point_with_their_own_grip() -> None:
    patches = [
        Patch("sole", "left", PLACE, None, friction=0.4),
        Patch("palm", "right", PLACE, None, friction=0.7),
        Patch("knee", "left", PLACE, None, pressed=False),
    ]
    contacts = contact_points(patches)
    assert [contact.point for contact in contacts] == [*patches[0].points(), *patches[1].points()]
    assert [contact.friction for contact in contacts] == [0.4] * 3 + [0.7] * 2
    assert {contact.patch for contact in contacts} == {"left sole", "right palm"}


def test_names_are_as_people_read_them() -> None:
    assert Patch("shoulder_back", "left", None, None).name == "left shoulder back"
    assert Patch("head", "", None, None).name == "head"
