"""What readings told of a person moves loads where it should, and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.mechanics.calibrate import PRIOR, Calibration
from leanmark.mechanics.position import WITHIN_PATCHES
from leanmark.moves.known import KNOWN_RANGES, Known, com_shares, pressures
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.report import load_report
from leanmark.moves.stand import held_loads, marks, stand
from leanmark.rig.rig import standard_rig

HER, HIM = Build(74.0, 1.78, "female"), Build(79.0, 1.83)
READ = Known("row", 0.004, 0.006, 0.3, 0.1)
RIG = standard_rig(2.45)


def in_move(name: str, rung: str, builds: list[Build], known: list[Known | None]):  # noqa: ANN201
    move = load_move(name)
    return stand(move, find_rung(move, rung), RIG, people_of(builds, known))


def test_what_is_not_known_is_the_prior() -> None:
    share, deviation = com_shares([None, READ])
    np.testing.assert_array_equal(share, [0.0, 0.004])
    np.testing.assert_allclose(deviation, [PRIOR.deviation[0], 0.006])
    np.testing.assert_array_equal(pressures([None], "row"), [WITHIN_PATCHES])


def test_pressure_reaches_two_deviations_but_not_past_the_patches() -> None:
    near_end = Known("row", 0.0, 0.01, 0.9, 0.2)
    np.testing.assert_allclose(pressures([READ, near_end], "row"), [[0.3, 0.1, 0.5], [0.9, 0.5, 1.0]])


def test_pressure_is_used_in_its_own_move_alone() -> None:
    np.testing.assert_array_equal(pressures([READ], "chest press"), [WITHIN_PATCHES])


def test_people_together_get_what_each_gets_alone() -> None:
    together = in_move("row", "2", [HER, HIM], [READ, None])
    mark_m, who = np.array([-0.8, -0.8]), np.array([0, 1])
    held = held_loads(together, mark_m, who)
    for number, (build, known) in enumerate([(HER, READ), (HIM, None)]):
        alone = held_loads(in_move("row", "2", [build], [known]), mark_m[:1], who[:1])
        for name in ("load", "low", "high"):
            assert getattr(held, name)[number] == pytest.approx(getattr(alone, name)[0], abs=1e-9), name


def test_a_higher_mass_centre_loads_the_straps_more() -> None:
    mark_m, who = np.array([-0.8]), np.zeros(1, dtype=np.intp)
    loads = [
        held_loads(in_move("row", "2", [HER], [Known("other", share, 0.0, 0.0, 0.0)]), mark_m, who).load[0]
        for share in (-0.01, 0.0, 0.01)
    ]
    assert loads[0] < loads[1] < loads[2]


def test_the_reports_forces_balance_at_another_pressure() -> None:
    report = load_report(in_move("row", "2", [HER], [READ]), -0.8)
    weight_n = 74.0 * 9.80665  # standard gravity, CGPM 1901
    standing = in_move("row", "2", [HER], [READ])
    rep, _ = standing.rep(np.array([-0.8]), np.zeros(1, dtype=np.intp))
    loads = rep.static_loads()
    upward_n = loads.contact_force_n[..., 2].sum(axis=1) + (
        loads.strap_tension_n * loads.strap_unit[..., 2]
    ).sum(axis=1)
    np.testing.assert_allclose(upward_n, weight_n, rtol=1e-9)
    np.testing.assert_allclose(loads.joint_moment_nm[:, 0], 0.0, atol=1e-6)
    shown = report.phases[0].strap_total_n.value
    assert shown == pytest.approx(loads.strap_tension_n.sum(axis=1)[0], rel=1e-9)


def test_a_mark_found_for_a_load_gives_that_load_back() -> None:
    standing = in_move("row", "2", [HER], [READ])
    (answer,) = marks(standing, np.array([0.4]))[0]
    back = held_loads(standing, np.array([answer.answers[0].mark_m]), np.zeros(1, dtype=np.intp))
    assert back.load[0] == pytest.approx(0.4, abs=1e-4)


def test_a_posterior_is_kept_within_what_a_squad_file_takes() -> None:
    wide = Calibration(np.array([0.0041234, 0.31234]), np.diag([1.0, 1.0]))
    assert Known.of("row", wide) == Known("row", 0.00412, 0.01, 0.312, 0.5)


@pytest.mark.parametrize("name", KNOWN_RANGES)
@pytest.mark.parametrize("side", [0, 1])
def test_numbers_out_of_range_are_refused(name: str, side: int) -> None:
    fine = {"com_share": 0.0, "com_share_deviation": 0.005, "pressure": 0.0, "pressure_deviation": 0.2}
    wrong = KNOWN_RANGES[name][side] + (0.01 if side else -0.01)
    with pytest.raises(FieldError, match=f"{name} = .*copy what leanmark calibrate printed"):
        Known("row", **{**fine, name: wrong})
