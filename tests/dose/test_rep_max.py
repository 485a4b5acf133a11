"""Rep-max relations: limits, inverses, order, refusals. Published values: tests/outside."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.rep_max import (
    DEFAULT,
    LOAD_CHART,
    RELATIONS,
    REP_MAX,
    chart_share,
    rep_max_brzycki,
    reps_at,
    share_of_max,
    share_range,
)
from leanmark.errors import FieldError

AUTHORS = pytest.mark.parametrize("author", RELATIONS)
EXACT = 1e-9
"""Closed forms and their closed inverses: rounding alone, times the steepest slope of reps over share."""


@AUTHORS
@given(part=st.floats(0.0, 1.0))
def test_reps_come_back_from_their_share(author: str, part: float) -> None:
    relation = RELATIONS[author]
    reps = 1.0 + part * (relation.most_reps - 1.0)
    assert float(relation.reps(relation.share(reps))) == pytest.approx(reps, abs=EXACT)


@AUTHORS
def test_more_reps_allow_less_load(author: str) -> None:
    relation = RELATIONS[author]
    shares = relation.share(np.linspace(1.0, relation.most_reps, 200))
    assert (np.diff(shares) < 0.0).all()
    assert (shares > 0.0).all()
    assert (shares <= 1.0).all()


@AUTHORS
def test_an_array_is_as_its_values_one_by_one(author: str) -> None:
    reps = np.array([[1.0, 5.0], [8.0, 12.0]])
    load = np.array([[40.0], [75.0]])
    together = REP_MAX[author](load, reps)
    assert together.shape == (2, 2)
    for (row, column), value in np.ndenumerate(together):
        assert float(REP_MAX[author](load[row, 0], reps[row, column])) == value


@AUTHORS
@pytest.mark.parametrize("reps", [0.0, 0.99, -3.0, 37.0, 100.0, np.nan, np.inf])
def test_nonsense_reps_are_refused(author: str, reps: float) -> None:
    with pytest.raises(FieldError, match=rf"^reps = .*allowed: 1 to .* by {author}"):
        REP_MAX[author](100.0, np.array([5.0, reps]))


def test_brzycki_at_37_reps_is_refused_and_not_infinite() -> None:
    with pytest.raises(FieldError, match="reps = 37 is not allowed"):
        rep_max_brzycki(100.0, 37.0)


@pytest.mark.parametrize("load", [-1.0, np.nan, np.inf])
def test_nonsense_loads_are_refused(load: float) -> None:
    with pytest.raises(FieldError, match=r"^load = .*allowed: 0 or more"):
        rep_max_brzycki(load, 5)


@pytest.mark.parametrize("share", [0.0, 0.3, 0.98, 1.5, np.nan])
def test_shares_that_no_allowed_reps_have_are_refused(share: float) -> None:
    with pytest.raises(FieldError, match=r"^share = .*by Epley 1985"):
        reps_at(share)


def test_sound_reps_are_how_far_each_stays_within_a_tenth_of_the_median() -> None:
    reps = np.arange(1.0, 31.0)
    shares = {author: relation.share(reps) for author, relation in RELATIONS.items()}
    median = np.median(list(shares.values()), axis=0)
    for author, relation in RELATIONS.items():
        off = np.abs(shares[author] / median - 1.0) > 0.1
        sound = reps[off][0] - 1.0 if off.any() else reps[-1]
        assert relation.sound_reps == sound, author


def test_the_range_holds_the_default_and_opens_with_reps() -> None:
    reps = np.arange(1.0, 31.0)
    least, greatest = share_range(reps)
    assert ((least <= share_of_max(reps)) & (share_of_max(reps) <= greatest)).all()
    assert greatest[-1] / least[-1] > greatest[4] / least[4]
    assert (least[29], greatest[29]) == (DEFAULT.share(30), RELATIONS["O'Conner 1989"].share(30))


def test_the_range_leaves_out_who_is_past_his_sound_reps() -> None:
    least, _ = share_range(20)
    assert least > RELATIONS["Brzycki 1993"].share(20)


def test_the_chart_gives_its_rows_and_lines_between() -> None:
    assert chart_share([*LOAD_CHART]).tolist() == [*LOAD_CHART.values()]
    assert float(chart_share(13.5)) == pytest.approx((LOAD_CHART[12] + LOAD_CHART[15]) / 2)


@pytest.mark.parametrize("reps", [0.0, 15.5, np.nan])
def test_the_chart_ends(reps: float) -> None:
    with pytest.raises(FieldError, match=r"^reps = .*allowed: 1 to 15"):
        chart_share(reps)
