"""The floor chart: sets to scale in time, words that do not run into each other, straps and their changes."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.figures.plots.reading import boxes, placed_words, said, words_of

from leanmark.figures.labels import text_width_px
from leanmark.figures.plots.floor_chart import SetSpell, floor_chart
from leanmark.figures.plots.floor_straps import StrapSpell
from leanmark.figures.plots.look import Look

ROWS = ("anchor 1", "floor")
SPELLS = (
    SetSpell("anchor 1", "Anna: row", ((0.0, 60.0), (180.0, 240.0))),
    SetSpell("anchor 1", "Berit: row", ((90.0, 150.0),)),
    SetSpell("floor", "Carl: push-up", ((300.0, 360.0), (540.0, 600.0))),
)
STRAPS = (
    StrapSpell("anchor 1", "short", 0.0, 0.0, 240.0),
    StrapSpell("anchor 1", "long", 250.0, 310.0, 600.0),
)


def test_sets_start_and_last_as_long_as_planned() -> None:
    look = Look()
    drawn = sorted(boxes(floor_chart(ROWS, SPELLS, STRAPS, look), look.fill("tint")))
    planned = sorted(one for spell in SPELLS for one in spell.sets_s)
    whole = drawn[-1][0] + drawn[-1][2]
    for (left, _, width, _), (start_s, end_s) in zip(drawn, planned, strict=True):
        # The SVG rounds to a thousandth of a pixel; ten minutes take some 480.
        assert left / whole == pytest.approx(start_s / 600.0, abs=1e-5)
        assert width / whole == pytest.approx((end_s - start_s) / 600.0, abs=1e-5)


def test_a_strap_change_is_hatched_and_both_settings_are_named() -> None:
    look = Look()
    svg = floor_chart(ROWS, SPELLS, STRAPS, look)
    assert len(boxes(svg, look.fill("barred"))) == 1  # the first setting is made before the session
    assert {"short", "long", "minutes from the start", *ROWS} <= {*words_of(svg)}


def test_those_who_hear_it_are_told_who_is_where_when() -> None:
    _, words = said(floor_chart(ROWS, SPELLS, STRAPS, Look()))
    assert "anchor 1: Anna: row, 0 to 4 min; Berit: row, 2 to 2 min. Strap: short from 0 min; long" in words
    assert "floor: Carl: push-up, 5 to 10 min." in words


whole_s = st.integers(0, 3000).map(float)
spells_drawn = st.lists(
    st.builds(
        lambda start, length, name: SetSpell("anchor 1", name, ((start, start + length),)),
        whole_s,
        st.integers(1, 120).map(float),
        st.sampled_from(["Anna: row", "Berit: single-leg hamstring curl", "C: x"]),
    ),
    min_size=1,
    max_size=8,
)


@settings(max_examples=15, deadline=None)
@given(spells_drawn, st.sampled_from([Look(540.0, 9.0), Look(330.0, 12.0)]))
def test_words_and_sets_never_overlap(spells: list[SetSpell], look: Look) -> None:
    svg = floor_chart(ROWS[:1], spells, (), look)
    sets = boxes(svg, look.fill("tint"))
    for at, one in enumerate(sets):
        for other in sets[at + 1 :]:
            apart = one[0] + one[2] <= other[0] + 1e-3 or other[0] + other[2] <= one[0] + 1e-3
            assert apart or one[1] != other[1]
    labels = sorted(
        (y, x, words) for words, x, y in placed_words(svg) if words in {spell.label for spell in spells}
    )
    small = 0.82 * look.font_px
    for (y, x, words), (next_y, next_x, _) in pairwise(labels):
        ends_at_edge = x > look.width_px * 0.6
        if y == next_y and not ends_at_edge and next_x < look.width_px * 0.6:
            assert x + 0.9 * text_width_px(words, small) <= next_x


def test_what_is_no_plan_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        floor_chart((), SPELLS, (), Look())
    with pytest.raises(ValueError, match="row 'floor' is not one of 'anchor 1'"):
        floor_chart(ROWS[:1], SPELLS, (), Look())
    with pytest.raises(ValueError, match="end after it starts"):
        floor_chart(ROWS, (SetSpell("floor", "x", ((5.0, 1.0),)),), (), Look())
