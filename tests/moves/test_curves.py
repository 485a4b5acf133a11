"""Curves of load over the floor mark and over a rep."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.mechanics.dynamics import Tempo
from leanmark.moves.curves import CURVE_NODES, mark_curve, rep_curve
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, stand
from leanmark.rig.rig import standard_rig


def row() -> Stand:
    move = load_move("row")
    people = people_of([Build(75.0, 1.78, "male")])
    return stand(move, find_rung(move, "leaning"), standard_rig(2.45), people)


def test_a_rows_load_rises_towards_the_plumb_point_where_it_holds() -> None:
    curve = mark_curve(row())
    held = [load for load, reason in zip(curve.load, curve.reason, strict=True) if not reason]
    assert len(held) > 20
    assert held == sorted(held)
    for load, low, high in zip(curve.load, curve.low, curve.high, strict=True):
        assert low <= load <= high


def test_a_rep_begins_and_ends_as_if_held() -> None:
    curve = rep_curve(row(), -0.6, Tempo(2.0, 0.5, 1.0, 0.25))
    assert curve is not None
    assert curve.phase == ["up"] * CURVE_NODES + ["down"] * CURVE_NODES
    assert curve.time_s[0] == 0.0
    assert curve.time_s[CURVE_NODES] == pytest.approx(1.25)
    assert curve.time_s[-1] == pytest.approx(3.25)
    assert (np.diff(curve.time_s[:CURVE_NODES]) > 0.0).all()
    # The minimum-jerk course starts and ends without acceleration (Flash and Hogan 1985).
    for k in (0, CURVE_NODES - 1, CURVE_NODES, -1):
        assert curve.moving[k] == pytest.approx(curve.held[k], abs=1e-9)


def test_a_place_that_cannot_be_held_has_no_rep() -> None:
    assert rep_curve(row(), -3.0, Tempo(2.0, 0.0, 1.0, 0.0)) is None
