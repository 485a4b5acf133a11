"""How long sets and sessions take, by hand and by property."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.times import session_minutes, set_time_s, under_load_s

TEMPO = (3.0, 1.0, 1.0, 0.0)
LINES = st.lists(
    st.tuples(st.floats(1.0, 120.0), st.integers(1, 6), st.floats(0.0, 240.0)), min_size=1, max_size=10
)
ROUNDING = 1e-9


@dataclass(frozen=True)
class Done:
    tempo_s: tuple[float, float, float, float] = TEMPO
    reps: int = 0
    hold_s: float = 0.0


def test_a_set_by_hand() -> None:
    # 8 reps of 5 s and 6 of 4.5 s: 67 s; a hold of 20 s more: 87 s; both sides and 5 s to turn: 179 s.
    parts = [Done(reps=8), Done((3.0, 1.0, 0.5, 0.0), 6), Done(hold_s=20.0)]
    assert under_load_s(parts) == 87.0
    assert set_time_s(parts, each_side=False) == 87.0
    assert set_time_s(parts, each_side=True) == 179.0
    assert under_load_s(parts, each_side=True) == 174.0


def test_nothing_takes_no_time() -> None:
    assert set_time_s([], each_side=False) == 0.0


def test_a_session_by_hand() -> None:
    # Work 3 x 40 + 2 x 30 = 180 s; rests 3 x 90 + 1 x 60 = 330 s, the last set's not taken; one strap change
    # 20 to 60 s; two walks of 5 to 20 s; warm-up 5 to 8 min, cool-down 3 to 5 min.
    found = session_minutes([(40.0, 3, 90.0), (30.0, 2, 60.0)], 1, 2)
    assert found.low == pytest.approx((0.85 * 180 + 330 + 20 + 10) / 60 + 8)
    assert found.high == pytest.approx((1.25 * 180 + 1.25 * 330 + 60 + 40) / 60 + 13)
    assert found.value == pytest.approx((180 + 330 + 40 + 25) / 60 + 10.5)


def test_without_warm_up_and_cool_down() -> None:
    alone = session_minutes([(40.0, 3, 90.0)], 0, 0, warm_up=False, cool_down=False)
    assert alone.value == pytest.approx((3 * 40 + 2 * 90) / 60)


def test_an_empty_session_is_its_warm_up_and_cool_down() -> None:
    found = session_minutes([], 0, 0)
    assert (found.low, found.value, found.high) == (8.0, 10.5, 13.0)


@given(lines=LINES, changes=st.integers(0, 10), walks=st.integers(0, 20))
def test_the_value_lies_within_its_interval(
    lines: list[tuple[float, int, float]], changes: int, walks: int
) -> None:
    found = session_minutes(lines, changes, walks)
    assert found.low <= found.value <= found.high


@given(lines=LINES, more=LINES)
def test_longer_sessions_take_longer(
    lines: list[tuple[float, int, float]], more: list[tuple[float, int, float]]
) -> None:
    short, long = session_minutes(lines, 1, 1), session_minutes([*lines, *more], 2, 1)
    assert short.value < long.value + ROUNDING
    assert short.low < long.low + ROUNDING
    assert short.high < long.high + ROUNDING
