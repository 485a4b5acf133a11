from __future__ import annotations

from leanmark.figures.chart_notes import BarredRange, key_height_px


def test_the_key_takes_room_only_when_there_is_one() -> None:
    assert key_height_px([], [], 300.0, 12.0) == 0.0


def test_long_reasons_wrap_on_narrow_charts() -> None:
    barred = [BarredRange(0.0, 1.0, "the feet would slip: more grip is needed than this floor gives")]
    assert key_height_px([], barred, 200.0, 12.0) > key_height_px([], barred, 900.0, 12.0) > 0.0


def test_one_line_of_key_for_each_name_and_reason() -> None:
    once = [BarredRange(0.0, 1.0, "short")]
    twice = [*once, BarredRange(2.0, 3.0, "short")]
    assert key_height_px(["a", "a"], once, 300.0, 12.0) == key_height_px(["a"], twice, 300.0, 12.0)
