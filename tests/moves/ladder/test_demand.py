"""Demand: the largest joint moment share over the rep, found again by hand; its signs by plane statics."""

from __future__ import annotations

import numpy as np
import pytest
from tests.moves.held_pose import held
from tests.moves.plane_moments import moment_left_nm

from leanmark.body.build import Build
from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import kind_of
from leanmark.mechanics.moments import MOMENT_AXES
from leanmark.moves.ladder.demand import (
    PHASES,
    Solved,
    action_shares,
    demand_of,
    solved,
    solved_at,
    solved_together,
)
from leanmark.moves.ladder.panel import reference_people, typical_people
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.people import people_of
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import standard_rig

RIG = standard_rig(2.4)
BALANCED = [{"axis": "ahead", "over": {"left_heel": 0.25, "right_heel": 0.25, "left_ball_medial": 0.25,
                                       "right_ball_medial": 0.25}}]  # fmt: skip
LEG = ("thigh", "shank", "foot", "toes")
ARM = ("upper_arm", "forearm", "hand")


def rung_of(move: str, rung: str) -> Solved:
    whole = load_move(move)
    return solved(whole, find_rung(whole, rung), typical_people(), RIG)


def right(*parts: str) -> tuple[str, ...]:
    return tuple(f"right_{part}" for part in parts)


def moment_of(one: Solved, joint: str, axis: str) -> np.ndarray:
    slot = MOMENT_AXES[kind_of(joint)].index(axis)
    return one.loads.joint_moment_nm[:, JOINTS.index(joint), slot]


def share_of(one: Solved, action: str) -> np.ndarray:
    return action_shares(one)[:, [*ACTIONS].index(action)]


def test_the_largest_share_of_a_hold_is_found_again_joint_by_joint() -> None:
    """Own arithmetic from moments and strengths; only rounding may be between, 1e-9 of the share."""
    one = rung_of("front plank", "from the elbows")
    demand = demand_of(one)
    moment, strength = one.loads.joint_moment_nm, one.rep.bodies.strength_nm
    for person in range(2):
        largest, whose = 0.0, ""
        for joint, name in enumerate(JOINTS):
            for axis, word in enumerate(MOMENT_AXES[kind_of(name)]):
                nm = float(moment[person, joint, axis])
                share = abs(nm) / float(strength[person, joint, axis, 1 if nm >= 0.0 else 0])
                if joint and share > largest:
                    largest, whose = share, f"{name} {word} {'+' if nm > 0 else '-'}"
        assert demand.share[person] == pytest.approx(largest, rel=1e-9)
        assert whose == "lumbar flexion +"
        assert demand.action[person] == "trunk flexion"


def test_over_a_rep_it_is_the_largest_of_a_much_finer_rep() -> None:
    """The reading between five poses is stated to lie within 2 % of 25 poses (``demand.COURSE``)."""
    move = load_move("row")
    for rung in move.rungs:
        coarse, fine = (demand_of(solved(move, rung, reference_people(), RIG, n)).share for n in (5, 25))
        np.testing.assert_allclose(coarse, fine, rtol=0.02)


def test_actions_of_a_rung_are_its_largest_shares_in_each_direction() -> None:
    """At the poses themselves by plain loops; reading between them can only add to it."""
    one = rung_of("chest press", "leaning")
    found = action_shares(one)
    shares = one.loads.strength_share.reshape(2, one.steps, len(JOINTS), 3)
    for number, readings in enumerate(ACTIONS.values()):
        for person in range(2):
            values = [
                abs(v) if sign == 0 else sign * v
                for kind, axis, sign in readings
                for joint, name in enumerate(JOINTS)
                if kind_of(name) == kind
                for v in shares[person, :, joint, MOMENT_AXES[kind].index(axis)].tolist()
            ]
            assert found[person, number] >= max(values) - 1e-9
    assert found.max(axis=1) == pytest.approx(demand_of(one).share)


def test_every_axis_that_has_a_strength_is_read_by_an_action() -> None:
    strong = np.isfinite(typical_people().bodies.strength_nm[0]).any(axis=-1)
    axes = {
        (kind_of(JOINTS[joint]), MOMENT_AXES[kind_of(JOINTS[joint])][axis])
        for joint, axis in np.argwhere(strong)
        if joint
    }
    assert axes == {(kind, axis) for readings in ACTIONS.values() for kind, axis, _ in readings}


def test_holding_a_level_forearm_up_is_elbow_flexion() -> None:
    """Weight of forearm and hand times its lever. Hand and engine share only masses and places: 1e-6."""
    one = held({"elbow": {"flexion": 90}})
    by_hand = moment_left_nm(one, "right_forearm", right("forearm", "hand"))
    assert (-by_hand > 2.0).all()  # about 2 % of body weight at 0.15 m
    np.testing.assert_allclose(moment_of(one, "right_elbow", "flexion"), -by_hand, rtol=1e-6)
    assert (share_of(one, "elbow flexion") > 0.02).all()
    assert (share_of(one, "elbow extension") < 0.002).all()


def test_standing_on_bent_knees_is_knee_extension() -> None:
    """The floor pushes up behind the knee, which would fold it."""
    pose = {
        "root": {"pitch": 40},
        "hip": {"flexion": 85},
        "knee": {"flexion": 80},
        "ankle": {"dorsiflexion": 25},
    }
    one = held(pose, balance=BALANCED)
    by_hand = moment_left_nm(one, "right_shank", right("shank", "foot", "toes"))
    assert (by_hand < -20.0).all()
    np.testing.assert_allclose(moment_of(one, "right_knee", "flexion"), by_hand, rtol=1e-6)
    assert (share_of(one, "knee extension") > 0.1).all()
    assert (share_of(one, "knee flexion") < 0.01).all()


def test_leaning_back_on_the_straps_asks_hip_extension_and_shoulder_extension() -> None:
    """A straight body between heels and handles sags at the hips; the strap pulls the arms overhead."""
    one = rung_of("row", "leaning")
    at_start = np.arange(0, len(one.rep.bodies), one.steps)
    hips = -moment_left_nm(one, "right_thigh", right(*LEG))
    shoulders = -moment_left_nm(one, "right_upper_arm", right(*ARM))
    np.testing.assert_allclose(moment_of(one, "right_hip", "flexion"), hips, rtol=1e-3)
    assert (hips[at_start] < -5.0).all()
    assert (share_of(one, "hip extension") > 0.05).all()
    assert (shoulders < 0.0).all()
    assert (share_of(one, "shoulder extension") > share_of(one, "shoulder flexion")).all()


def test_many_rungs_at_once_answer_as_one() -> None:
    """Alike to the solver's closure, 1e-6."""
    move = load_move("fly")
    together = solved_together([(move, rung) for rung in move.rungs], reference_people(), RIG)
    for one, rung in zip(together, move.rungs, strict=True):
        alone = demand_of(solved(move, rung, reference_people(), RIG))
        np.testing.assert_allclose(demand_of(one).share, alone.share, rtol=1e-6)


def test_people_at_once_answer_as_one() -> None:
    move = load_move("row")
    both = demand_of(rung_of("row", "leaning"))
    for person, build in enumerate(typical_people().builds):
        alone = demand_of(solved(move, find_rung(move, "leaning"), people_of([build]), RIG))
        assert alone.share[0] == pytest.approx(both.share[person], rel=1e-6)
        assert alone.action[0] == both.action[person]


def test_a_person_whose_sex_is_not_stated_is_asked_the_larger_of_both_tables() -> None:
    move = load_move("row")
    rung = find_rung(move, "leaning")
    open_to_both, *stated = (
        demand_of(solved(move, rung, people_of([Build(70.0, 1.70, sex)]), RIG)).share[0]
        for sex in (None, "female", "male")
    )
    assert open_to_both == pytest.approx(max(stated), rel=1e-6)


def test_marks_of_one_person_are_positions_of_their_own() -> None:
    move = load_move("row")
    rung = find_rung(move, "leaning")
    standing = stand(move, rung, RIG, typical_people())
    own_m = mark_of(move, rung).start_m
    marks = demand_of(solved_at(standing, own_m + np.array([-0.1, 0.0, 0.1]), np.ones(3, dtype=np.intp)))
    assert marks.share[1] == pytest.approx(demand_of(rung_of("row", "leaning")).share[1], rel=1e-6)
    assert (np.diff(marks.share) > 0.0).all()  # nearer the plumb point is harder: common practice


def test_a_rung_that_cannot_be_held_says_so() -> None:
    move = load_move("row")
    standing = stand(move, find_rung(move, "leaning"), RIG, typical_people())
    demand = demand_of(solved_at(standing, np.array([-3.0]), np.zeros(1, dtype=np.intp)))
    assert not demand.fine.any()


def test_phases_are_named() -> None:
    hold, rep = demand_of(rung_of("front plank", "from the elbows")), demand_of(rung_of("row", "leaning"))
    assert hold.phase(0) == "hold"
    assert rep.phase(0) in PHASES
