from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.figures import pictures, poses
from tests.figures.mannequin import ANCHOR_M

from leanmark.body.segments import SEGMENT_INDEX
from leanmark.figures.draw import describe, draw, draw_each, frame_for
from leanmark.figures.project import VIEWS, view_by_name
from leanmark.figures.theme import THEMES

HOSTILE = ["<b>&\"'", "]]><script>", "שלום עולם", "😀🏋️", "a\x00b\x1bc", "very long " * 40, "#*_$@`\\"]
PIXEL = 0.06  # paths are written to a tenth of a pixel: half a digit, and a little for summing


@pytest.mark.parametrize("theme", list(THEMES))
@pytest.mark.parametrize("view", list(VIEWS))
@pytest.mark.parametrize("name", list(poses.ALL))
def test_every_pose_stays_inside_its_picture(name: str, view: str, theme: str) -> None:
    text = draw([poses.ALL[name]()], view, 320.0, theme=theme, font_px=11.0)
    root = pictures.parsed(text)
    width, height = pictures.size(root)
    assert width == 320.0
    assert "nan" not in text.lower().replace("name", "")
    for x, y in pictures.points(root):
        assert -PIXEL <= x <= width + PIXEL
        assert -PIXEL <= y <= height + PIXEL


@pytest.mark.parametrize("view", list(VIEWS))
@pytest.mark.parametrize("name", list(poses.ALL))
def test_words_stay_inside_and_apart_at_phone_width(name: str, view: str) -> None:
    root = pictures.parsed(draw([poses.ALL[name]()], view, 320.0, font_px=11.0))
    width, height = pictures.size(root)
    boxes = pictures.text_boxes(root, letter=0.5)  # a little under the estimate that placed them
    for shown, left, top, right, bottom in boxes:
        assert left >= 0.0, shown
        assert right <= width, shown
        assert top >= 0.0, shown
        assert bottom <= height, shown
    for row, first in enumerate(boxes):
        for second in boxes[row + 1 :]:
            across = min(first[3], second[3]) - max(first[1], second[1])
            down = min(first[4], second[4]) - max(first[2], second[2])
            assert min(across, down) <= 1.0, (first[0], second[0])


def test_letters_are_never_smaller_than_asked() -> None:
    root = pictures.parsed(draw([poses.row()], "side", 320.0, font_px=11.0))
    assert {float(one.attrib["font-size"]) for one in root.iter(f"{pictures.SVG}text")} == {11.0}


@pytest.mark.parametrize("width_px", [113.0, 320.0, 900.0])
def test_the_scale_is_exact(width_px: float) -> None:
    scene = poses.row()
    frame = frame_for([scene], view_by_name("side"), width_px, None, 9.0, True)
    root = pictures.parsed(draw([scene], "side", width_px, font_px=9.0))
    plumb = next(one for one in root.iter(f"{pictures.SVG}line") if "stroke-dasharray" in one.attrib)
    drop = float(plumb.attrib["y2"]) - float(plumb.attrib["y1"])
    # attributes are written to a hundredth of a pixel, so a length errs by at most a hundredth
    assert drop == pytest.approx(ANCHOR_M[2] * frame.px_per_m, abs=0.011)
    ticks = sorted(
        float(one.attrib["x1"])
        for one in root.iter(f"{pictures.SVG}line")
        if one.attrib["x1"] == one.attrib["x2"] and float(one.attrib["y1"]) == round(frame.origin_px[1], 2)
    )
    gaps = np.diff(ticks) / frame.px_per_m
    assert min(abs(gaps.mean() - step) for step in (0.02, 0.05, 0.1, 0.2, 0.5)) < 1e-3


def test_the_body_is_drawn_at_the_scale_of_the_ruler() -> None:
    scene = poses.standing()
    frame = frame_for([scene], view_by_name("side"), 600.0, None, 12.0, True)
    root = pictures.parsed(draw([scene], "side", 600.0))
    body = [one for one in root.iter(f"{pictures.SVG}path") if one.attrib.get("paint-order") == "stroke"]
    up = [y for one in body for _, y in pictures.path_points(one)]
    crown_m = max(float(scene.tip_m[SEGMENT_INDEX["head"], 2]), 0.0)
    drawn_m = (frame.origin_px[1] - min(up)) / frame.px_per_m
    # the hair stands a little above the crown: less than a hundredth of stature by its table
    assert crown_m - 0.001 <= drawn_m <= crown_m + 0.01 * scene.stature_m
    # the shoes stand on the floor: the heel's underside is at zero by construction
    assert (frame.origin_px[1] - max(up)) / frame.px_per_m == pytest.approx(0.0, abs=0.002)


def test_the_floor_mark_is_drawn_at_its_place() -> None:
    scene = poses.row()
    assert scene.floor_mark_m is not None
    frame = frame_for([scene], view_by_name("side"), 480.0, None, 12.0, True)
    root = pictures.parsed(draw([scene], "side", 480.0))
    tips = [pictures.path_points(one)[0] for one in root.iter(f"{pictures.SVG}path")]
    goal = frame.to_px(np.array([scene.floor_mark_m, 0.0]))
    assert min(np.hypot(*(np.array(tip) - goal)) for tip in tips) <= 2 * PIXEL
    assert "heel −35 cm" in pictures.texts(root)


def test_units_change_the_ruler_and_the_words() -> None:
    shown = pictures.texts(pictures.parsed(draw([poses.row()], "side", 480.0, units="us")))
    assert "ft" in shown
    assert "heel −1 ft 2 in" in shown
    assert any("lbf" in one for one in shown)


def test_a_given_height_is_kept_and_the_content_fits() -> None:
    root = pictures.parsed(draw([poses.plank()], "side", 104.0, 80.0, font_px=7.0, forces=False))
    assert pictures.size(root) == (104.0, 80.0)
    for x, y in pictures.points(root):
        assert -PIXEL <= x <= 104.0 + PIXEL
        assert -PIXEL <= y <= 80.0 + PIXEL


def test_earlier_phases_are_ghosts_behind_the_last() -> None:
    start, end = poses.row(), poses.row(bent=True)
    root = pictures.parsed(draw([start, end], "side", 480.0))
    fills = [one.attrib.get("fill") for one in root.iter(f"{pictures.SVG}path")]
    theme = THEMES["light"]
    assert fills.count(theme.ghost) == 1
    assert fills.index(theme.ghost) < fills.index(theme.cloth)
    alone = pictures.parsed(draw([end], "side", 480.0))
    assert theme.ghost not in [one.attrib.get("fill") for one in alone.iter(f"{pictures.SVG}path")]


def test_far_limbs_are_lighter_and_behind_the_near() -> None:
    fills = [
        one.attrib.get("fill")
        for one in pictures.parsed(draw([poses.lunge()], "side", 480.0)).iter(f"{pictures.SVG}path")
    ]
    theme = THEMES["light"]
    assert fills.index(theme.far_shoe) < fills.index(theme.shoe)
    assert fills.index(theme.far_cloth) < fills.index(theme.cloth)


def test_without_forces_no_force_is_said() -> None:
    shown = pictures.texts(pictures.parsed(draw([poses.row()], "side", 480.0, forces=False)))
    assert not any("kg-force" in one or "body weight" in one for one in shown)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_are_shown_as_they_are(text: str) -> None:
    force = replace(poses.row().floor_forces[0], label=text)
    scene = replace(poses.row(), mark_label=text, floor_forces=(force,))
    root = pictures.parsed(draw([scene], "side", 640.0, title=text))
    visible = "".join(c for c in text if c.isprintable() or c in "\u200d\ufe0f")
    assert root.attrib["aria-label"] == visible
    assert {one.tag.removeprefix(pictures.SVG) for one in root.iter()} <= {
        "svg", "title", "desc", "rect", "path", "line", "circle", "text",
    }  # fmt: skip


def test_the_same_scene_gives_the_same_text() -> None:
    assert draw([poses.fly()], "front", 400.0) == draw([poses.fly()], "front", 400.0)


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(ValueError, match="there is no scene to draw"):
        draw([])


def test_a_picture_without_room_is_refused() -> None:
    with pytest.raises(ValueError, match="leaves no room for the figure; make it larger"):
        draw([poses.row()], "side", 60.0, 40.0)


def test_the_description_tells_mark_and_straps() -> None:
    said = describe(poses.row(), "metric")
    assert said.startswith(
        "Floor mark: heel −35 cm from the plumb point. Left strap: 11 (10–12) kg-force, 15 %"
    )
    assert describe(poses.standing(), "metric") == "Floor mark: heel −20 cm from the plumb point."


def test_pictures_of_their_own_share_one_scale_and_floor() -> None:
    scenes = [poses.standing(), poses.row()]
    each = [pictures.parsed(one) for one in draw_each(scenes, "side", 480.0, 400.0)]
    floors = [
        next(one for one in root.iter(f"{pictures.SVG}line") if one.attrib["x1"] == "0") for root in each
    ]
    assert len({(floor.attrib["y1"], floor.attrib["x2"]) for floor in floors}) == 1
    alone = [pictures.parsed(draw([scene], "side", 480.0, 400.0)) for scene in scenes]
    assert {pictures.size(root) for root in (*each, *alone)} == {(480.0, 400.0)}
    with pytest.raises(ValueError, match="give at least one"):
        draw_each([], "side")
