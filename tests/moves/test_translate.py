"""From a move file's words to the engine's task."""

from __future__ import annotations

from typing import Any

import msgspec
import numpy as np
import pytest
import yaml
from tests.moves.move_files import NEEDED_TEXTS

from leanmark.body.segments import JOINTS
from leanmark.errors import FieldError
from leanmark.mechanics.angles import angles_from_rotation
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.task import BalanceUse, HoldUse, PatchUse, Task
from leanmark.moves.library import load_move
from leanmark.moves.schema import FIRMNESS, Move
from leanmark.moves.translate import DEFAULT_FIRMNESS, mark_of, strap_setting, task_of

TEXT = (
    NEEDED_TEXTS
    + """
move: reach
family: shoulder
plane: sagittal
purpose: reaches
kit: handles
faces: the anchor
setup: Stand on the mark.
caution: Stop if a shoulder hurts.
cues: [reach, and back]
strap: short
mark: {of: heels, start-m: -0.5, low-m: -1.0, high-m: 0.0}
contacts:
  - {patch: sole, width: 1.5, turned-out-deg: 10, ahead-m: 0.1}
holds:
  - {point: grip, in-line: elbow_tip, in-line-upright-only: true}
firm: {shoulder: firm, left_shoulder: stiff}
phases:
  start:
    elbow: {flexion: 20}
    left_elbow: {flexion: 50}
    shoulder: {plane: 90, elevation: 40}
  end:
    elbow: {flexion: 5}
rungs:
  - {rung: first, note: the move's own}
"""
)


def move(**changes: object) -> Move:
    content = yaml.safe_load(TEXT) | changes
    return msgspec.convert(content, Move)


def task(rung: dict[str, Any] | None = None, **changes: object) -> Task:
    rungs = [{"rung": "first", "note": "one"} | (rung or {})]
    whole = move(rungs=rungs, **changes)
    return task_of(whole, whole.rungs[0])


def angle_deg(rotations: Floats, joint: str, angle: str) -> float:
    return float(np.degrees(angles_from_rotation(joint, rotations[JOINTS.index(joint)])[angle]))


def weight_of(found: Task, joint: str) -> float:
    return float(found.weight[JOINTS.index(joint)])


def test_degrees_become_rotations_and_an_entry_with_a_side_outranks_one_without() -> None:
    found = task()
    assert angle_deg(found.start, "right_elbow", "flexion") == pytest.approx(20.0)
    assert angle_deg(found.start, "left_elbow", "flexion") == pytest.approx(50.0)
    assert angle_deg(found.end, "left_elbow", "flexion") == pytest.approx(5.0)
    for joint in ("left_shoulder", "right_shoulder"):
        assert angle_deg(found.start, joint, "plane") == pytest.approx(90.0)
        assert angle_deg(found.start, joint, "elevation") == pytest.approx(40.0)
    np.testing.assert_allclose(found.start[JOINTS.index("left_knee")], np.eye(3), atol=1e-15)


def test_a_rungs_angles_are_laid_over_both_phases() -> None:
    found = task({"angles": {"shoulder": {"elevation": 70}, "left_knee": {"flexion": 30}}})
    for phase in (found.start, found.end):
        assert angle_deg(phase, "right_shoulder", "elevation") == pytest.approx(70.0)
        assert angle_deg(phase, "left_knee", "flexion") == pytest.approx(30.0)
    assert angle_deg(found.start, "right_shoulder", "plane") == pytest.approx(90.0)


def test_a_rungs_own_phases_are_laid_over_last_and_a_key_pose_lies_between() -> None:
    phases = {"start": {"elbow": {"flexion": 20}}, "key": {"elbow": {"flexion": 90}}, "end": {}}
    found = task(
        {
            "angles": {"elbow": {"flexion": 40}, "knee": {"flexion": 30}},
            "start": {"elbow": {"flexion": 60}},
            "key": {"right_elbow": {"flexion": 70}},
        },
        phases=phases,
    )
    assert found.key is not None
    for pose, elbow in ((found.start, 60.0), (found.key, 70.0), (found.end, 40.0)):
        assert angle_deg(pose, "right_elbow", "flexion") == pytest.approx(elbow)
        assert angle_deg(pose, "right_knee", "flexion") == pytest.approx(30.0)
    assert angle_deg(found.key, "left_elbow", "flexion") == pytest.approx(40.0)
    assert task().key is None


def test_a_partners_push_passes_through_in_newtons() -> None:
    push = {"point": "left_hip_side", "left-n": 20.0, "up-n": -50.0}
    found = task({"pushes": [push]})
    assert [(one.point, one.force_n) for one in found.pushes] == [("left_hip_side", (0.0, 20.0, -50.0))]
    with pytest.raises(FieldError, match=r"point in reach = 'hip_side' .*name a point with its side"):
        task({"pushes": [{"point": "hip_side"}]})


def test_a_hold_starts_and_ends_alike() -> None:
    found = task(phases={"start": {"elbow": {"flexion": 20}}})
    assert found.still
    np.testing.assert_array_equal(found.start, found.end)
    assert not task().still


def test_firmness_goes_from_default_to_move_to_rung_and_sides_outrank() -> None:
    found = task({"firm": {"right_shoulder": "locked", "hip": "soft"}})
    assert weight_of(found, "left_shoulder") == FIRMNESS["stiff"]
    assert weight_of(found, "right_shoulder") == FIRMNESS["locked"]
    assert weight_of(found, "left_hip") == FIRMNESS["soft"]
    assert weight_of(found, "neck") == FIRMNESS[DEFAULT_FIRMNESS["neck"]]


def test_contacts_are_laid_out_on_both_sides_in_radians() -> None:
    left, right = task().patches
    assert left == PatchUse("sole", "left", 0.1, 1.5, np.radians(10.0))
    assert right == PatchUse("sole", "right", 0.1, 1.5, np.radians(10.0))


def test_a_contact_in_the_middle_has_no_side() -> None:
    (only,) = task(contacts=[{"patch": "head", "found": True}]).patches
    assert (only.side, only.found) == ("", True)


def test_a_stated_support_is_shared_by_its_sides() -> None:
    both = task(contacts=[{"patch": "hand", "share-percent": 10}]).patches
    assert [use.share for use in both] == pytest.approx([0.05, 0.05])
    (one,) = task(contacts=[{"patch": "hand", "sides": ["left"], "share-percent": 10}]).patches
    assert one.share == pytest.approx(0.10)


def test_a_sliding_contact_is_found_and_takes_no_force() -> None:
    use = task(contacts=[{"patch": "palm", "slides": True}]).patches[0]
    assert use.found
    assert use.touching
    assert use.slides
    assert not use.lands


def test_a_tapping_contact_is_gone_once_landed() -> None:
    contacts = [{"patch": "toe", "sides": ["left"], "taps": True}, {"patch": "sole", "sides": ["right"]}]
    found = task(contacts=contacts)
    assert [use.taps for use in found.patches] == [True, False]
    assert [use.kind for use in found.staying.patches] == ["sole"]


def test_a_free_heading_and_a_landing_in_the_end_pose_pass_through() -> None:
    found = task(
        contacts=[{"patch": "sole", "turned-out-deg": None}],
        phases={"start": {"elbow": {"flexion": 5}}, "end": {"elbow": {"flexion": 9}}, "comes-down": "end"},
    )
    assert found.patches[0].heading_rad is None
    assert found.found_at_end


def test_holds_are_one_strap_a_side_with_the_limb_in_line() -> None:
    left, right = task().holds
    assert left == HoldUse(("left_grip",), "left", "handle", ("left_elbow_tip",), True)
    assert right.side == "right"


def test_hands_together_are_one_strap_with_two_points() -> None:
    (both,) = task(holds=[{"point": "grip", "together": True}]).holds
    assert both == HoldUse(("left_grip", "right_grip"), "both")


def test_a_plumb_hold_and_its_end_pass_through() -> None:
    (foot,) = task(holds=[{"point": "instep", "sides": ["left"], "end": "cradle", "plumb": True}]).holds
    assert foot == HoldUse(("left_instep",), "left", "cradle", plumb=True)


def test_balance_rows_name_their_axis_by_number() -> None:
    over = {"left_heel": 0.5, "right_heel": 0.5}
    ahead, across = task(
        balance=[{"axis": "ahead", "over": over, "offset-m": 0.02}, {"axis": "across", "over": over}]
    ).balances
    assert ahead == BalanceUse(0, (("left_heel", 0.5), ("right_heel", 0.5)), 0.02)
    assert across.axis == 1


def test_what_a_rung_states_replaces_what_the_move_states() -> None:
    mark = {"of": "toes", "start-m": 0.0, "low-m": 0.0, "high-m": 0.1, "across": True}
    rung = {
        "rung": "second",
        "note": "all its own",
        "strap": "long",
        "mark": mark,
        "contacts": [{"patch": "heel"}],
        "holds": [],
        "balance": [],
        "phases": {"start": {"elbow": {"flexion": 33}}},
    }
    whole = move(rungs=[{"rung": "first", "note": "the move's own"}, rung])
    first, second = whole.rungs
    assert mark_of(whole, first) is whole.mark
    assert mark_of(whole, second).of == "toes"
    assert (strap_setting(whole, first), strap_setting(whole, second)) == ("short", "long")
    found = task_of(whole, second)
    assert [use.kind for use in found.patches] == ["heel", "heel"]
    assert (found.holds, found.balances) == ((), ())
    assert found.mark_across
    assert not task_of(whole, first).mark_across
    assert angle_deg(found.start, "left_elbow", "flexion") == pytest.approx(33.0)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"phases": {"start": {"elbw": {"flexion": 5}}}}, "joint in reach = 'elbw' .* one of root, lumbar"),
        ({"phases": {"start": {"elbow": {"bend": 5}}}}, r"elbow in reach = 'bend' .* angles flexion"),
        ({"firm": {"left_elbw": "soft"}}, "joint in reach = 'left_elbw'"),
        ({"contacts": [{"patch": "foot"}]}, "patch in reach = 'foot' .* one of sole, forefoot"),
        ({"contacts": [{"patch": "palm", "found": True, "under": "ear"}]}, "under in reach = 'ear'"),
        ({"holds": [{"point": "left_grip"}]}, "point in reach = 'left_grip' .* one of heel"),
        ({"holds": [{"point": "grip", "in-line": "elbow"}]}, "in-line in reach = 'elbow'"),
        ({"balance": [{"axis": "ahead", "over": {"heel": 1.0}}]}, "over in reach = 'heel' .* with its side"),
    ],
)
def test_a_name_that_is_not_known_is_refused_with_the_known_ones(
    changes: dict[str, Any], message: str
) -> None:
    with pytest.raises(FieldError, match=message):
        task(**changes)


@pytest.mark.parametrize("name", ["row", "sprint start", "standing trunk rotation"])
def test_moves_of_the_library_become_tasks_with_every_joint_placed(name: str) -> None:
    whole = load_move(name)
    for rung in whole.rungs:
        found = task_of(whole, rung)
        for phase in (found.start, found.end):
            assert phase.shape == (len(JOINTS), 3, 3)
            turned = phase @ np.swapaxes(phase, -1, -2)
            np.testing.assert_allclose(turned, np.broadcast_to(np.eye(3), turned.shape), atol=1e-12)
