"""The anchor check: sums, factors, verdicts and words."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.errors import FieldError
from leanmark.rig.anchor_check import OVER, OVER_WITH_FACTOR, PACE_FACTORS, UNKNOWN, WITHIN, check_anchor


def test_two_people_on_one_beam_peak_together() -> None:
    check = check_anchor([[900.0, 500.0], [700.0, 800.0]], rated_load_n=4000.0, pace="ballistic")
    # 1600 and 1300 N times the ballistic factor of 1.5, over 4000 N: exact in binary floats
    np.testing.assert_array_equal(check.peak_n, [1600.0, 1300.0])
    np.testing.assert_array_equal(check.needed_n, [2400.0, 1950.0])
    np.testing.assert_allclose(check.share_of_rating, [0.6, 0.4875], rtol=1e-15)


def test_verdicts_at_and_around_the_rating() -> None:
    check = check_anchor([[500.0, 500.1, 1000.0, 1000.1]], rated_load_n=1000.0, safety_factor=2.0)
    assert check.verdict.tolist() == [WITHIN, OVER_WITH_FACTOR, OVER_WITH_FACTOR, OVER]


def test_words_speak_of_the_hardest_case_and_defer() -> None:
    words = check_anchor([[300.0, 900.0]], rated_load_n=12_000.0, pace="tempo").words()
    assert words.startswith(
        "Peak 0.90 kN with a safety factor of 2 asks for 1.80 kN, "
        "15 % of the maker's 12 kN: within the rating."
    )
    assert "local codes decide" in words
    assert "\n" not in words


def test_an_unknown_rating_says_so_and_gives_the_force_to_compare() -> None:
    check = check_anchor(900.0, rated_load_n=None, pace="held")
    assert check.share_of_rating is None
    assert check.verdict.tolist() == UNKNOWN
    assert "asks for 2.25 kN: rating unknown, compare this force" in check.words()
    assert "a yardstick, not a rule" in check.words()


def test_over_the_rating_says_what_to_change() -> None:
    words = check_anchor([900.0, 900.0], rated_load_n=1500.0).words()
    assert "over the rating. Do not use it so: fewer people" in words


def test_gentler_knowledge_of_the_pace_asks_for_a_larger_factor() -> None:
    # held forces leave the most unsaid, ballistic ones the least
    assert PACE_FACTORS["held"].factor > PACE_FACTORS["tempo"].factor > PACE_FACTORS["ballistic"].factor > 1


@given(
    peaks=st.lists(st.floats(min_value=0, max_value=1e5), min_size=1, max_size=6),
    rating=st.floats(min_value=500, max_value=1e5),
)
def test_vector_equals_scalar(peaks: list[float], rating: float) -> None:
    together = check_anchor([peaks], rating)
    for index, peak in enumerate(peaks):
        alone = check_anchor(peak, rating)
        assert together.needed_n[index] == alone.needed_n
        assert together.verdict[index] == alone.verdict


@given(peaks=st.lists(st.floats(min_value=0, max_value=1e5), min_size=1, max_size=6))
def test_another_person_never_lightens_the_anchor(peaks: list[float]) -> None:
    assert check_anchor([*peaks, 100.0], None).peak_n >= check_anchor(peaks, None).peak_n


@pytest.mark.parametrize(
    ("arguments", "match"),
    [
        ({"peaks_n": []}, "peaks_n = .*one force or more"),
        ({"peaks_n": [1.0, float("nan")]}, "peaks_n = nan.*leave out positions"),
        ({"peaks_n": [-1.0]}, r"peaks_n = -1 "),
        ({"peaks_n": 900.0, "rated_load_n": 0.0}, "rated_load_n = 0.*above 0"),
        ({"peaks_n": 900.0, "pace": "brisk"}, "pace = 'brisk'.*held, tempo, ballistic"),
        ({"peaks_n": 900.0, "safety_factor": 0.5}, "safety_factor = 0.5.*1 or more"),
    ],
)
def test_wrong_inputs_are_refused(arguments: dict[str, Any], match: str) -> None:
    with pytest.raises(FieldError, match=match):
        check_anchor(**({"rated_load_n": None} | arguments))
