from __future__ import annotations

from dataclasses import replace

import pytest
from tests.figures import pictures, poses

from leanmark.figures.draw import draw
from leanmark.figures.floor import NUMBER_GAP, RULINGS, mark_text, ruler_height_px, ruling_for
from leanmark.units import UNIT_SYSTEMS, UnitSystem


@pytest.mark.parametrize("units", UNIT_SYSTEMS)
def test_rulings_are_whole_and_grow(units: UnitSystem) -> None:
    rows = RULINGS[units]
    assert all(row.major % row.minor == 0 and row.major % row.per_number == 0 for row in rows)
    assert [row.major for row in rows] == sorted({row.major for row in rows})


@pytest.mark.parametrize("units", UNIT_SYSTEMS)
@pytest.mark.parametrize("px_per_m", [30.0, 60.0, 120.0, 400.0])
def test_the_finest_ruling_whose_numbers_keep_apart(units: UnitSystem, px_per_m: float) -> None:
    chosen = ruling_for(units, px_per_m, 12.0)
    assert chosen.major * chosen.unit_m * px_per_m >= NUMBER_GAP * 12.0
    finer = [row for row in RULINGS[units] if row.major < chosen.major]
    assert all(row.major * row.unit_m * px_per_m < NUMBER_GAP * 12.0 for row in finer)


def test_a_tiny_figure_takes_the_coarsest() -> None:
    assert ruling_for("metric", 1.0, 12.0) == RULINGS["metric"][-1]


def test_zero_is_the_plumb_point() -> None:
    root = pictures.parsed(draw([poses.row()], "side", 480.0))
    zero = next(one for one in root.iter(f"{pictures.SVG}text") if one.text == "0")
    plumb = next(one for one in root.iter(f"{pictures.SVG}line") if "stroke-dasharray" in one.attrib)
    assert zero.attrib["x"] == plumb.attrib["x1"]


def test_numbers_left_of_the_plumb_point_have_a_true_minus() -> None:
    assert "−50" in pictures.texts(pictures.parsed(draw([poses.row()], "side", 480.0)))


def test_mark_words() -> None:
    assert mark_text(poses.row(), "metric") == "heel −35 cm"
    assert mark_text(replace(poses.row(), mark_label=""), "metric") == "−35 cm"


def test_a_mark_label_too_long_for_the_picture_gives_way_to_the_number() -> None:
    scene = replace(poses.row(), mark_label="the heel of the foot that works, not of the other")
    shown = pictures.texts(pictures.parsed(draw([scene], "side", 120.0, 90.0, font_px=7.0, forces=False)))
    assert "−35 cm" in shown


def test_the_mark_is_called_out_from_the_side_only() -> None:
    assert not any(
        "heel" in one for one in pictures.texts(pictures.parsed(draw([poses.row()], "front", 480.0)))
    )
    assert ruler_height_px(12.0, with_mark=False) < ruler_height_px(12.0, with_mark=True)


def test_boxes_are_named_and_hatched() -> None:
    assert "box" in pictures.texts(pictures.parsed(draw([poses.box_press()], "side", 480.0)))
