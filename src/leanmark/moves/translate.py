"""Turn a move file's rung into the engine's task: degrees to radians, words to weights, sides laid out."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import JOINTS
from leanmark.errors import FieldError
from leanmark.mechanics.angles import ANGLES, angle_names, joint_rotations, kind_of
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.patches import PATCHES
from leanmark.mechanics.task import BalanceUse, HoldUse, PatchUse, PushUse, Task
from leanmark.moves.schema import FIRMNESS, Angles, Balance, Contact, Firmness, Hold, Mark, Move, Push, Rung

DEFAULT_FIRMNESS: Final[dict[str, Firmness]] = {
    "root": "soft",
    "lumbar": "stiff",
    "thoracic": "stiff",
    "neck": "firm",
    "hip": "firm",
    "knee": "firm",
    "ankle": "free",
    "toe_joint": "free",
    "shoulder": "soft",
    "elbow": "firm",
    "wrist": "free",
}
"""How firmly joints keep their angles unless a move says otherwise: the trunk stays as set, the ankle lets
the body lean, the shoulder and wrist follow the strap. Own choice."""


def task_of(move: Move, rung: Rung) -> Task:
    """The engine's task for one rung. Raises FieldError naming the entry that cannot be read."""
    start, key, end = poses_of(move, rung)
    contacts = rung.contacts if rung.contacts is not None else move.contacts
    holds = rung.holds if rung.holds is not None else move.holds
    return Task(
        start=_rotations(move, start),
        end=_rotations(move, start if end is None else end),
        key=None if key is None else _rotations(move, key),
        weight=_weights(move, rung),
        patches=tuple(use for contact in contacts for use in _patch_uses(move, contact)),
        holds=tuple(use for hold in holds for use in _hold_uses(move, hold)),
        balances=tuple(
            _balance_use(move, entry)
            for entry in (rung.balance if rung.balance is not None else move.balance)
        ),
        pushes=tuple(_push_use(move, push) for push in rung.pushes),
        mark_across=mark_of(move, rung).across,
        still=end is None,
        found_at_end=(rung.phases or move.phases).comes_down == "end",
        strap_runs=rung.strap_runs,
    )


def poses_of(move: Move, rung: Rung) -> tuple[Angles, Angles | None, Angles | None]:
    """A rung's target angles [deg] at the start, at a key pose if any, and at the end unless held."""
    phases = rung.phases or move.phases
    return (
        _overlaid(_overlaid(phases.start, rung.angles), rung.start),
        _overlaid(_overlaid(phases.key, rung.angles), rung.key) if phases.key is not None else None,
        _overlaid(_overlaid(phases.end, rung.angles), rung.end) if phases.end is not None else None,
    )


def mark_of(move: Move, rung: Rung) -> Mark:
    """The rung's floor mark."""
    return rung.mark or move.mark


def strap_setting(move: Move, rung: Rung) -> str:
    """The rung's named strap setting."""
    return rung.strap or move.strap


def _overlaid(base: Angles, over: Angles) -> Angles:
    joints = {**base, **{joint: {} for joint in over if joint not in base}}
    return {joint: {**angles, **over.get(joint, {})} for joint, angles in joints.items()}


def _sided(move: Move, joint: str) -> tuple[str, ...]:
    """The joints that an entry names: itself, or both sides of it."""
    if joint in JOINTS:
        return (joint,)
    both = tuple(name for name in JOINTS if kind_of(name) == joint)
    if not both:
        raise FieldError(f"joint in {move.move}", joint, f"one of {', '.join(ANGLES)}", "check the spelling")
    return both


def _rotations(move: Move, angles: Angles) -> Floats:
    """(18, 3, 3); entries with a side are laid over entries without."""
    laid: dict[str, dict[str, float]] = {}
    for joint in sorted(angles, key=lambda name: name in JOINTS and kind_of(name) != name):
        for name in _sided(move, joint):
            unknown = set(angles[joint]) - set(angle_names(name))
            if unknown:
                raise FieldError(
                    f"{joint} in {move.move}",
                    ", ".join(sorted(unknown)),
                    f"angles {', '.join(angle_names(name))}",
                    "check the spelling",
                )
            radians = {key: float(np.radians(value)) for key, value in angles[joint].items()}
            laid[name] = {**laid.get(name, {}), **radians}
    rotations: Floats = joint_rotations(laid)[0]
    return rotations


def _weights(move: Move, rung: Rung) -> Floats:
    words: dict[str, str] = {joint: DEFAULT_FIRMNESS[kind_of(joint)] for joint in JOINTS}
    for entries in (move.firm, rung.firm):
        for joint in sorted(entries, key=lambda name: name in JOINTS and kind_of(name) != name):
            for name in _sided(move, joint):
                words[name] = entries[joint]
    return np.array([FIRMNESS[words[joint]] for joint in JOINTS])


def _patch_uses(move: Move, contact: Contact) -> list[PatchUse]:
    if contact.patch not in PATCHES:
        known = ", ".join(PATCHES)
        raise FieldError(f"patch in {move.move}", contact.patch, f"one of {known}", "check the spelling")
    if contact.under:
        _check_paired_point(f"under in {move.move}", contact.under)
    sides = contact.sides if PATCHES[contact.patch].sided else ("",)
    heading = None if contact.turned_out_deg is None else float(np.radians(contact.turned_out_deg))
    share = None if contact.share_percent is None else contact.share_percent / 100.0 / len(sides)
    return [
        PatchUse(
            contact.patch,
            side,
            contact.ahead_m,
            contact.width,
            heading,
            contact.height_m,
            contact.found or contact.slides,
            contact.touching or contact.slides,
            share,
            contact.slides,
            contact.under,
            contact.taps,
        )
        for side in sides
    ]


def _push_use(move: Move, push: Push) -> PushUse:
    if push.point not in POINT_INDEX:
        known = ", ".join(POINT_INDEX)
        raise FieldError(f"point in {move.move}", push.point, f"one of {known}", "name a point with its side")
    return PushUse(push.point, (push.ahead_n, push.left_n, push.up_n))


def _check_paired_point(field: str, point: str) -> None:
    if f"left_{point}" not in POINT_INDEX:
        known = ", ".join(name.removeprefix("left_") for name in POINT_INDEX if name.startswith("left_"))
        raise FieldError(field, point, f"one of {known}", "check the spelling")


def _balance_use(move: Move, entry: Balance) -> BalanceUse:
    for point in entry.over:
        if point not in POINT_INDEX:
            known = ", ".join(POINT_INDEX)
            raise FieldError(f"over in {move.move}", point, f"one of {known}", "name a point with its side")
    return BalanceUse(("ahead", "across").index(entry.axis), tuple(entry.over.items()), entry.offset_m)


def _hold_uses(move: Move, hold: Hold) -> list[HoldUse]:
    for field, point in (("point", hold.point), ("in-line", hold.in_line or hold.point)):
        _check_paired_point(f"{field} in {move.move}", point)
    if hold.together:
        points = tuple(f"{side}_{hold.point}" for side in hold.sides)
        return [HoldUse(points, "both", hold.end, plumb=hold.plumb)]
    return [
        HoldUse(
            (f"{side}_{hold.point}",),
            side,
            hold.end,
            (f"{side}_{hold.in_line}",) if hold.in_line else (),
            hold.in_line_upright_only,
            hold.plumb,
        )
        for side in hold.sides
    ]
