from __future__ import annotations

import numpy as np
import pytest
from tests.figures import pictures

from leanmark.figures.axes import Axis
from leanmark.figures.chart import (
    Chart,
    Curve,
    Spell,
    describe_chart,
    draw_chart,
    load_over_mark,
    load_over_rep,
)
from leanmark.figures.chart_notes import BarredRange
from leanmark.figures.theme import THEMES

MARK_M = np.linspace(-1.2, -0.4, 9)
LOAD = np.linspace(0.2, 0.6, 9)
CURVE = Curve(MARK_M, LOAD, LOAD - 0.05, LOAD + 0.05, "straight arms")
SLIPS = BarredRange(-0.4, 0.1, "the feet would slip <here> & now")


def _inside(text: str) -> None:
    root = pictures.parsed(text)
    width, height = pictures.size(root)
    assert "nan" not in text.lower()
    for x, y in pictures.points(root):
        assert -0.06 <= x <= width + 0.06  # half of the tenth to which paths are written
        assert -0.06 <= y <= height + 0.06
    for shown, left, top, right, bottom in pictures.text_boxes(root, letter=0.5):
        assert left >= -0.5, shown
        assert right <= width + 0.5, shown
        assert top >= -0.5, shown
        assert bottom <= height + 0.5, shown


@pytest.mark.parametrize("theme", list(THEMES))
@pytest.mark.parametrize(("width_px", "font_px"), [(320.0, 11.0), (480.0, 12.0), (220.0, 7.0)])
def test_charts_stay_inside_their_picture(theme: str, width_px: float, font_px: float) -> None:
    _inside(load_over_mark([CURVE], [SLIPS], 0.35, theme=theme, width_px=width_px, font_px=font_px))
    rep = load_over_rep([CURVE], [Spell(-1.2, -0.8, "up")], theme=theme, width_px=width_px, font_px=font_px)
    _inside(rep)


def test_a_curve_runs_through_its_points() -> None:
    chart = Chart((CURVE,), Axis("x", ""), Axis("y", ""), title="t")
    root = pictures.parsed(draw_chart(chart, 400.0, 300.0, "light", 12.0))
    (curve,) = (one for one in root.iter(f"{pictures.SVG}path") if one.attrib.get("fill") == "none")
    drawn = np.array(pictures.path_points(curve))
    # a straight relation stays straight and evenly spaced; paths are written to a tenth of a pixel
    np.testing.assert_allclose(np.diff(drawn[:, 0]), np.diff(drawn[:, 0]).mean(), atol=0.11)
    np.testing.assert_allclose(np.diff(drawn[:, 1]), np.diff(drawn[:, 1]).mean(), atol=0.11)
    assert np.all(np.diff(drawn[:, 1]) < 0.0)  # pixels run down, the load runs up


def test_the_band_spans_the_interval() -> None:
    root = pictures.parsed(load_over_mark([CURVE], width_px=400.0, height_px=300.0))
    band = next(
        one
        for one in root.iter(f"{pictures.SVG}path")
        if one.attrib.get("fill") == THEMES["light"].accent_tint
    )
    assert len(pictures.path_points(band)) == 2 * len(MARK_M)


def test_barred_ranges_are_hatched_and_their_reason_is_written_once() -> None:
    twice = [SLIPS, BarredRange(0.8, 1.0, SLIPS.reason), BarredRange(1.0, 1.2, "strap too short")]
    root = pictures.parsed(load_over_mark([CURVE], twice, width_px=480.0))
    shown = pictures.texts(root)
    assert shown.count(SLIPS.reason) == 1
    assert shown.count("strap too short") == 1
    assert len(list(root.iter(f"{pictures.SVG}circle"))) == 3 + 2


def test_a_chart_of_nothing_possible_still_says_why() -> None:
    text = load_over_mark([], [SLIPS], 0.35)
    _inside(text)
    assert SLIPS.reason in pictures.texts(pictures.parsed(text))


def test_lines_differ_by_dash_and_share_one_by_name() -> None:
    other = Curve(MARK_M, LOAD, LOAD, LOAD, "bent arms")
    more = Curve(MARK_M + 1.0, LOAD, LOAD, LOAD, "straight arms")
    root = pictures.parsed(load_over_mark([CURVE, other, more]))
    dashes = [
        one.attrib.get("stroke-dasharray")
        for one in root.iter(f"{pictures.SVG}path")
        if one.attrib.get("stroke") == THEMES["light"].accent
    ]
    assert dashes[0] is None
    assert dashes[1] is not None
    assert dashes[2] is None
    assert [one for one in pictures.texts(root) if one.endswith("arms")] == ["straight arms", "bent arms"]


def test_wanted_load_and_units_are_written() -> None:
    shown = pictures.texts(pictures.parsed(load_over_mark([CURVE], wanted=0.35, units="us")))
    assert "wanted 35 %" in shown
    assert "floor mark, ft from the plumb point" in shown
    assert "load, % of body weight" in shown


def test_the_description_tells_ends_and_reasons() -> None:
    chart = Chart((CURVE,), Axis("floor mark", "cm", 100.0), Axis("load", "%", 100.0), (SLIPS,), (), 0.35)
    said = describe_chart(chart)
    assert "straight arms: 20 at −120 to 60 at −40." in said
    assert "Not possible from −40 to 10: the feet would slip" in said
    assert "Wanted: 35 %." in said


@pytest.mark.parametrize(
    ("curves", "message"),
    [
        ([], "neither a curve nor a barred range"),
        (
            [Curve(MARK_M, LOAD[:3], LOAD, LOAD)],
            r"curves\[0\]: place, value, low and high must be of one length",
        ),
        ([Curve(MARK_M[::-1], LOAD, LOAD, LOAD)], r"curves\[0\]\.place must rise"),
        ([Curve(MARK_M, LOAD * np.nan, LOAD, LOAD)], r"curves\[0\] holds a value that is not finite"),
    ],
)
def test_what_cannot_be_drawn_is_named(curves: list[Curve], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        load_over_mark(curves)
