"""The load of one person at one mark, in full."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.mechanics.arrays import GRAVITY_M_S2
from leanmark.mechanics.dynamics import Tempo
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.report import load_report, peak_anchor_n
from leanmark.moves.report_form import LoadReport
from leanmark.moves.stand import held_loads, stand
from leanmark.rig.floors import CAUTION_FRICTION
from leanmark.rig.rig import standard_rig

TEMPO = Tempo(2.0, 1.0, 1.0, 0.0)


def report_of(
    name: str, rung: str, mark_m: float | None = None, flight_m: float | None = None, people: int = 1
) -> LoadReport:
    move = load_move(name)
    form = find_rung(move, rung)
    rig = standard_rig(2.45, rated_load_n=6000.0)
    standing = stand(move, form, rig, people_of([Build(75.0, 1.78, "male")]))
    where = (form.mark or move.mark).start_m if mark_m is None else mark_m
    return load_report(standing, where, TEMPO, flight_m, people_on_beam=people)


def test_every_phase_balances_the_body() -> None:
    report = report_of("row", "leaning")
    weight_n = 75.0 * GRAVITY_M_S2
    for phase in report.phases:
        assert phase.load_percent.value == pytest.approx(100.0 * phase.strap_total_n.value / weight_n)
        assert sum(strap.tension_n for strap in phase.straps) == pytest.approx(phase.strap_total_n.value)
        upright = sum(patch.force_n[2] for patch in phase.floor)
        assert weight_n - phase.strap_total_n.value < upright < weight_n
        assert phase.load_percent.low < phase.load_percent.value < phase.load_percent.high


def test_listed_joints_fall_in_share_and_lie_in_their_intervals() -> None:
    for phase in report_of("row", "leaning").phases:
        shares = [joint.share_percent for joint in phase.joints]
        assert shares == sorted(shares, reverse=True)
        assert all(joint.low_nm <= joint.moment_nm <= joint.high_nm for joint in phase.joints)


def test_a_row_pulls_with_shoulder_extension() -> None:
    middle = report_of("row", "leaning").phases[1]
    assert ("right shoulder", "extension") in [(joint.joint, joint.action) for joint in middle.joints]


def test_a_moving_rep_peaks_above_the_held_one() -> None:
    moving = report_of("row", "leaning").moving
    assert moving is not None
    assert 1.0 < moving.peak_to_held < 2.0
    assert moving.taut
    assert moving.smooth


def test_what_cannot_be_held_says_why_and_promises_nothing() -> None:
    report = report_of("row", "leaning", mark_m=-3.0)
    assert not report.feasible
    assert report.reasons
    assert report.moving is None
    assert report.anchor == ""


def test_two_people_pull_twice() -> None:
    one, two = (report_of("row", "leaning", people=count) for count in (1, 2))
    peak_n, pace = peak_anchor_n(one)
    assert pace in ("held", "tempo")
    assert one.anchor != two.anchor
    held = max(phase.strap_total_n.high for phase in one.phases)
    assert peak_n == pytest.approx(max(held, one.moving.peak_strap_n if one.moving else 0.0))


def test_a_hold_has_one_phase_and_no_tempo() -> None:
    report = report_of("front plank", "from the elbows")
    assert [phase.phase for phase in report.phases] == ["hold"]
    assert report.moving is None


def test_a_flight_loads_the_floor_by_more_than_body_weight() -> None:
    flight = report_of("single-leg squat", "leaving the floor", flight_m=0.05).flight
    assert flight is not None
    assert flight.flight_s == pytest.approx(2.0 * np.sqrt(2.0 * 0.05 / GRAVITY_M_S2))
    assert flight.peak_floor_n > 75.0 * GRAVITY_M_S2


def test_a_load_has_the_same_interval_in_a_report_and_on_a_card() -> None:
    for name, rung in (("row", "leaning"), ("front plank", "from the elbows")):
        move = load_move(name)
        form = find_rung(move, rung)
        standing = stand(move, form, standard_rig(2.45), people_of([Build(75.0, 1.78, "male")]))
        where = (form.mark or move.mark).start_m
        phases = load_report(standing, where).phases
        held = held_loads(standing, np.array([where]), np.zeros(1, dtype=np.intp))
        highest = max(phases, key=lambda phase: phase.load_percent.value).load_percent
        assert 100.0 * held.load[0] == pytest.approx(highest.value, abs=1e-6)
        assert 100.0 * held.low[0] == pytest.approx(highest.low, abs=1e-6)


def test_a_position_that_asks_much_of_the_floor_says_so() -> None:
    near, far = report_of("row", "leaning", mark_m=-1.0), report_of("row", "leaning", mark_m=-0.4)
    assert max(phase.friction_needed for phase in near.phases) < CAUTION_FRICTION
    assert near.grip == ""
    assert max(phase.friction_needed for phase in far.phases) > CAUTION_FRICTION
    assert "try these shoes" in far.grip
