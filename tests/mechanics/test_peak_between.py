"""Peaks between nodes."""

from __future__ import annotations

import numpy as np
import pytest
from tests.mechanics.scenes import row_stand

from leanmark.mechanics.dynamics import REP_NODES, Tempo, moving_loads
from leanmark.mechanics.rep import lobatto_nodes, peak_between, time_at_course

QUICK = Tempo(0.8, 0.0, 0.8, 0.0)


def test_a_parabola_is_met_exactly_at_uneven_times() -> None:
    time = np.array([0.0, 0.1, 0.4, 0.5, 0.9])
    values = np.stack([3.0 - (time - 0.33) ** 2, 1.0 - 2.0 * (time - 0.2) ** 2])
    assert peak_between(values, time) == pytest.approx([3.0, 1.0], abs=1e-12)


def test_rising_level_and_short_rows_keep_their_highest_value() -> None:
    time = np.array([0.0, 0.5, 1.0])
    values = np.array([[0.0, 1.0, 3.0], [2.0, 2.0, 2.0], [3.0, 1.0, 0.0]])
    assert peak_between(values, time) == pytest.approx([3.0, 2.0, 3.0])
    assert peak_between(values[:, :2], time[:2]) == pytest.approx([1.0, 2.0, 3.0])


def test_times_may_run_backwards() -> None:
    time = np.linspace(1.0, 0.0, 7)
    assert peak_between((1.0 - (time - 0.41) ** 2)[None], time) == pytest.approx([1.0], abs=1e-12)


def test_a_quick_rows_peak_is_that_of_many_more_nodes() -> None:
    standing = row_stand()
    where, who = np.array([-0.6]), np.zeros(1, dtype=np.intp)
    peaks = []
    for nodes in (REP_NODES, 8 * (REP_NODES - 1) + 1):
        rep = standing.rep(where, who, nodes)[0]
        weight_n = rep.static_loads().body_weight_n[0]
        peaks.append(moving_loads(rep, QUICK).peak_strap_n[0] / weight_n)
    # Half a per cent of body weight: a tenth of what the pressure's place alone leaves open.
    assert peaks[0] == pytest.approx(peaks[1], abs=5e-3)


def test_nodes_and_times_rise_together() -> None:
    assert (np.diff(time_at_course(lobatto_nodes(REP_NODES))) > 0.0).all()
