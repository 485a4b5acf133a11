"""What no plan can undercut, by hand."""

from __future__ import annotations

from tests.cycle.floor.squads import ask, spell

from leanmark.cycle.floor.bound import least_length
from leanmark.cycle.floor.tasks import floor_of


def test_a_trainee_s_own_session() -> None:
    long_day = [spell("Ada", line) for line in ("row", "press", "curl")]
    bound = least_length(floor_of(ask(*long_day, spell("Bo", "row"), anchors=("beam 1", "beam 2"))))
    assert bound.length_s == 9 * 30 + 8 * 60
    assert bound.because == "Ada's own sets and rests"


def test_the_longest_rest_that_may_come_last_is_not_counted() -> None:
    bound = least_length(floor_of(ask(spell("Ada", "row", rest_s=90.0), spell("Ada", "press"))))
    assert bound.length_s == 6 * 30 + 2 * 90 + 3 * 60


def test_the_work_on_the_straps() -> None:
    rows = [spell(name, "row") for name in "ABCDEF"]
    bound = least_length(floor_of(ask(*rows)))
    assert bound.length_s == 18 * 40 - 10
    assert bound.because == "the work on the anchor's strap"


def test_two_anchors_halve_it() -> None:
    rows = [spell(name, "row") for name in "ABCDEF"]
    bound = least_length(floor_of(ask(*rows, anchors=("beam 1", "beam 2"))))
    assert bound.length_s == (18 * 40 - 2 * 10) / 2


def test_more_settings_than_anchors_cost_changes() -> None:
    rows = [spell(name, "row", strap) for name, strap in zip("ABCDEF", ("long", "short") * 3, strict=True)]
    bound = least_length(floor_of(ask(*rows)))
    assert bound.length_s == 18 * 40 - 10 + (40 - 10)


def test_work_tied_to_one_anchor() -> None:
    rows = [spell(name, "row", anchor="beam 2") for name in "ABCDEF"]
    bound = least_length(floor_of(ask(*rows, anchors=("beam 1", "beam 2"))))
    assert bound.length_s == 18 * 40 - 10
    assert bound.because == "the work tied to beam 2"


def test_where_nobody_shares_whole_spells_count() -> None:
    bound = least_length(floor_of(ask(spell("Ada", "row"), spell("Bo", "row"), people_per_anchor=1)))
    assert bound.length_s == 2 * 210
