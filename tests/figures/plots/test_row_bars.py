"""Weekly sets and speed stages: bars to scale, every number written, words for what colour says."""

from __future__ import annotations

import numpy as np
import pytest
from tests.figures.plots.reading import boxes, root_of, said, words_of

from leanmark.figures.plots.look import Look
from leanmark.figures.plots.row_bars import speed_stages, weekly_sets
from leanmark.figures.theme import THEMES, ThemeName

FAMILIES = ("horizontal pull", "squat")
SETS = np.array([[3, 6, 9, 4], [2, 0, 5, 12]])


def test_bars_are_as_high_as_their_numbers() -> None:
    look = Look()
    heights = [box[3] for box in boxes(weekly_sets(FAMILIES, SETS, look), look.fill("tint"))]
    numbers = SETS[SETS > 0]  # row by row, week by week; nothing is drawn for none
    # The SVG rounds to a thousandth of a pixel; a bar is some ten pixels high.
    assert np.array(heights) / heights[0] == pytest.approx(numbers / numbers[0], rel=1e-3)


def test_every_number_and_every_total_is_written() -> None:
    words = words_of(weekly_sets(FAMILIES, SETS, Look()))
    for number in SETS[SETS > 0]:
        assert str(number) in words
    for total in SETS.sum(axis=0):
        assert str(total) in words
    assert "–" in words
    assert {*FAMILIES, "all", "week"} <= {*words}


def test_stages_differ_by_pattern_and_by_name() -> None:
    look = Look()
    reps = np.array([[40, 40], [0, 20], [0, 6]])
    svg = speed_stages(("controlled", "fast", "ballistic"), reps, look)
    assert len(boxes(svg, look.fill("tint"))) == 2
    assert len(boxes(svg, look.fill("hatched"))) == 1
    assert len(boxes(svg, look.fill("dotted"))) == 1
    defined = {one.get("id") for one in root_of(svg).iter() if one.tag.endswith("pattern")}
    assert {look.fill("hatched")[5:-1], look.fill("dotted")[5:-1]} <= defined
    assert {"controlled", "fast", "ballistic"} <= {*words_of(svg)}


def test_deload_weeks_are_hatched_and_named() -> None:
    look = Look()
    svg = weekly_sets(FAMILIES, SETS, look, (2, 4))
    assert len(boxes(svg, look.fill("barred"))) == 2
    assert "hatched column: deload (weeks 2 and 4)" in words_of(svg)
    assert "Deload: weeks 2 and 4." in said(svg)[1]


def test_those_who_hear_it_are_told_every_number() -> None:
    title, words = said(weekly_sets(FAMILIES, SETS, Look()))
    assert title == "Sets a week by move family"
    assert "horizontal pull: 3, 6, 9 and 4. squat: 2, 0, 5 and 12." in words


def test_a_phone_sets_weeks_that_do_not_fit_in_a_band_below() -> None:
    reps = np.full((3, 16), 120)
    wide, narrow = (speed_stages(("a", "b", "c"), reps, Look(width, 12.0)) for width in (900.0, 330.0))
    assert words_of(wide).count("all") == 1
    assert words_of(narrow).count("all") > 1
    for week in range(1, 17):
        assert str(week) in words_of(narrow)


@pytest.mark.parametrize("theme", list(THEMES))
def test_each_theme_has_its_own_ground(theme: ThemeName) -> None:
    svg = weekly_sets(FAMILIES, SETS, Look(theme=theme))
    assert f'fill="{THEMES[theme].ground}"' in svg
    assert 'width="540" height=' in svg


def test_the_same_numbers_give_the_same_picture() -> None:
    assert weekly_sets(FAMILIES, SETS, Look()) == weekly_sets(FAMILIES, SETS, Look())


def test_hostile_names_are_words_only() -> None:
    svg = weekly_sets(('<script x="1">&', "datum.value\x00"), SETS, Look())
    assert '<script x="1">&' in words_of(svg)
    assert "datum.value" in words_of(svg)


@pytest.mark.parametrize(
    ("sets", "wrong"),
    [
        (np.zeros((3, 2)), r"shape \(3, 2\)"),
        (np.zeros((2, 0)), "at least one"),
        (np.array([[1.0, -1.0], [0.0, 0.0]]), "negative"),
        (np.array([[1.0, np.nan], [0.0, 0.0]]), "not finite"),
    ],
)
def test_what_is_no_table_of_counts_is_refused(sets: np.ndarray, wrong: str) -> None:
    with pytest.raises(ValueError, match=wrong):
        weekly_sets(FAMILIES, sets, Look())
