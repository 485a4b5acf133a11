"""Moving reps: very slow ones weigh what still ones do, quick ones what momentum says."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.mechanics.scenes import people, row_rep
from tests.mechanics.squat import mass_centre_height, squat_rep

from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats
from leanmark.mechanics.dynamics import (
    REP_NODES,
    Tempo,
    loads_under,
    moving_loads,
    rep_motion,
)
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rep import MinimumJerk, time_at_course

BODY_WEIGHT_N = float(people().body_mass_kg[0] * GRAVITY_M_S2)
SLOW, BRISK, QUICK = Tempo(100.0, 1.0, 100.0, 1.0), Tempo(2.0, 1.0, 1.0, 0.0), Tempo(1.0, 0.0, 0.6, 0.0)


def strap_and_floor(loads: Loads) -> Floats:
    """Total tension and upward floor force [share of body weight] at every row, (2, N)."""
    floor = loads.contact_force_n[..., 2].sum(axis=1)
    return np.stack([loads.strap_tension_n.sum(axis=1), floor]) / loads.body_weight_n


def test_a_tempo_is_four_times_that_add_up_to_a_rep() -> None:
    assert Tempo(3.0, 1.0, 1.0, 0.5).rep_s == 5.5


def test_a_very_slow_rep_weighs_what_a_still_one_does() -> None:
    rep = row_rep()
    still, slow = rep.static_loads(), moving_loads(rep, SLOW)
    # accelerations of some metres over (100 s)^2, against g: below 1e-3 of body weight by far
    for phase in (slow.concentric, slow.eccentric):
        np.testing.assert_allclose(strap_and_floor(phase), strap_and_floor(still), rtol=0, atol=1e-3)
        moments = (phase.joint_moment_nm - still.joint_moment_nm) / BODY_WEIGHT_N
        np.testing.assert_allclose(moments, 0.0, rtol=0, atol=1e-3)
    assert slow.taut.all()


def test_at_both_ends_of_a_phase_the_body_is_at_rest() -> None:
    rep = row_rep()
    still, moving = strap_and_floor(rep.static_loads()), moving_loads(rep, QUICK)
    for phase in (moving.concentric, moving.eccentric):
        np.testing.assert_allclose(strap_and_floor(phase)[:, [0, -1]], still[:, [0, -1]], rtol=0, atol=1e-6)


@settings(max_examples=10)
@given(duration_s=st.floats(0.3, 3.0), forward=st.booleans())
def test_the_outside_forces_change_the_momentum(duration_s: float, forward: bool) -> None:
    # a squat has no straps: floor force less weight, over time, is mass times the mass centre's speed
    rep, course = squat_rep(41), MinimumJerk(duration_s)
    tempo = Tempo(duration_s, 0.0, duration_s, 0.0)
    moving = moving_loads(rep, tempo)
    loads = moving.concentric if forward else moving.eccentric
    time = time_at_course(rep.nodes) * duration_s
    excess = loads.contact_force_n[..., 2].sum(axis=1) - BODY_WEIGHT_N
    if not forward:  # run backwards, from the last node to the first
        time, excess = duration_s - time[::-1], excess[::-1]
    rise = (rep_motion(rep).com_rate[0, ..., 2] @ people().mass_kg[0]) / people().body_mass_kg[0]
    speed = (rise * course.rates(rep.nodes)[0])[:: 1 if forward else -1] * (1.0 if forward else -1.0)
    gained = np.concatenate([[0.0], np.cumsum(0.5 * (excess[1:] + excess[:-1]) * np.diff(time))])
    # the trapezoidal rule on 40 steps of unequal length: second derivatives of 4 (2 pi)^2 times step^2 / 12
    np.testing.assert_allclose(
        gained / people().body_mass_kg[0], speed, rtol=0, atol=0.02 * np.abs(speed).max()
    )


@pytest.mark.parametrize("tempo", [BRISK, QUICK], ids=["brisk", "quick"])
@pytest.mark.parametrize("mark", [-1.1, -0.6, -0.3])
def test_halving_the_spacing_of_nodes_moves_the_forces_at_them_by_less_than_a_thousandth(
    mark: float, tempo: Tempo
) -> None:
    def at_nodes(count: int) -> Floats:
        moving = moving_loads(row_rep(mark, count), tempo)
        return np.stack([strap_and_floor(moving.concentric), strap_and_floor(moving.eccentric)])

    coarse, fine = at_nodes(REP_NODES), at_nodes(2 * REP_NODES - 1)
    # of body weight: the figure that dynamics.py states
    np.testing.assert_allclose(coarse, fine[..., ::2], rtol=0, atol=1e-3)


def peak(rep: Rep, tempo: Tempo) -> float:
    moving = moving_loads(rep, tempo)
    return float(max(strap_and_floor(part)[0].max() for part in (moving.concentric, moving.eccentric)))


@pytest.mark.parametrize("mark", [-1.1, -0.6, -0.3])
def test_the_highest_node_is_at_most_two_hundredths_below_the_peak(mark: float) -> None:
    # regression: the figure that dynamics.py states, against eight times as many nodes
    fine = peak(row_rep(mark, 8 * (REP_NODES - 1) + 1), QUICK)
    assert fine - 0.02 < peak(row_rep(mark), QUICK) < fine + 1e-3


def test_twice_as_quick_takes_four_times_the_extra_force() -> None:
    # forces beyond weight scale with the square of the pace: same path, time halved
    rep = squat_rep()
    extra = []
    for duration_s in (2.0, 1.0):
        loads = moving_loads(rep, Tempo(duration_s, 0.0, duration_s, 0.0)).concentric
        extra.append(loads.contact_force_n[..., 2].sum(axis=1) - BODY_WEIGHT_N)
    np.testing.assert_allclose(extra[1], 4.0 * extra[0], rtol=0, atol=1e-6 * BODY_WEIGHT_N)


def test_quicker_reps_peak_higher_and_leave_less_slack_margin() -> None:
    rep = row_rep()
    tempos = [Tempo(t, 0.0, t, 0.0) for t in (4.0, 2.0, 1.0, 0.6)]
    peaks = [peak(rep, tempo) for tempo in tempos]
    margins = [float(moving_loads(rep, tempo).slack_margin[0]) for tempo in tempos]
    assert peaks == sorted(peaks)
    assert margins == sorted(margins, reverse=True)
    assert peaks[-1] > 1.3 * peaks[0]


def test_a_rep_too_quick_for_its_strap_says_so() -> None:
    rep = row_rep()
    slow, quick = moving_loads(rep, SLOW), moving_loads(rep, Tempo(0.3, 0.0, 0.3, 0.0))
    assert slow.taut.tolist() == [True]
    assert quick.taut.tolist() == [False]
    assert slow.slack_margin[0] > 0.0 >= quick.slack_margin[0]
    least = min(
        float((part.strap_tension_n / part.body_weight_n[:, None]).min())
        for part in (quick.concentric, quick.eccentric)
    )
    # Between nodes the strap may be slacker still, by no more than a parabola adds.
    assert least - 0.05 < quick.slack_margin[0] <= least + 1e-12


def test_a_rep_without_straps_has_no_slack() -> None:
    rep = squat_rep()
    moving = moving_loads(rep, BRISK)
    assert moving.slack_margin.tolist() == [np.inf]
    assert moving.taut.tolist() == [True]


def test_the_same_course_for_all_reps_or_one_for_each() -> None:
    rep = row_rep()
    motion = rep_motion(rep)
    rate, acceleration = MinimumJerk(0.8).rates(rep.nodes)
    shared = loads_under(rep, motion, rate, acceleration)
    each = loads_under(rep, motion, rate[None], acceleration[None])
    np.testing.assert_array_equal(shared.strap_tension_n, each.strap_tension_n)


def test_mass_centre_heights_of_the_squat_rise() -> None:
    assert (np.diff(mass_centre_height(squat_rep())) > 0.0).all()
