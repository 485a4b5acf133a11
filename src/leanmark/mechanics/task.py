"""One rung as the engine sees it: target poses along a rep, what is planted, what the straps hold.

A task carries no person and no rig: the same task is solved for any number of people, marks and straps
at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_INDEX
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.mechanics.arrays import GRAVITY_M_S2, Floats, Ints
from leanmark.mechanics.constraints import AlignRow, BalanceRow, Constraints, PlantedRow, StrapRow, SumRow
from leanmark.mechanics.patches import Patch, contact_points, planted_rows
from leanmark.mechanics.supports import KnownForce, StrapHold, Supports


@dataclass(frozen=True)
class PatchUse:
    """How a rung uses a patch.

    ahead_m: of the floor mark, along the way the person faces. width: half the stance, in half distances
    between the hip joints (1 = feet under the hips), towards the patch's own side. heading_rad: outward
    from straight ahead; None = free. height_m: of a box. found: it only touches in the first pose, its
    heading kept, and stays where it came down. touching: the surface is touched but takes no force. share:
    stated part of body weight carried there instead of an unknown force. slides: a found patch that touches
    all along but never stays put. under: the body point (without side) that a found patch comes down under.
    taps: it touches in the landing pose only and takes no force.
    """

    kind: str
    side: str
    ahead_m: float = 0.0
    width: float = 1.0
    heading_rad: float | None = 0.0
    height_m: float = 0.0
    found: bool = False
    touching: bool = False
    share: float | None = None
    slides: bool = False
    under: str = ""
    taps: bool = False

    @property
    def lands(self) -> bool:
        """Whether it comes down somewhere and stays there."""
        return self.found and not self.slides


@dataclass(frozen=True)
class HoldUse:
    """How a rung holds a strap: the body points (several = together on one handle), the side, what kind of
    end it is (handle, cradle or none), and the body point kept in line with the strap, if any. plumb: the
    strap hangs upright, straight under its anchor."""

    points: tuple[str, ...]
    side: str
    end: str = "handle"
    in_line: tuple[str, ...] = ()
    upright_only: bool = False
    plumb: bool = False


@dataclass(frozen=True)
class PushUse:
    """A partner's push or pull at a named body point: force [N] in world axes, or as a share of body
    weight in that direction."""

    point: str
    force_n: tuple[float, float, float] = (0.0, 0.0, 0.0)
    share: tuple[float, float, float] = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class BalanceUse:
    """The body's mass centre is kept, along one level axis (0 ahead, 1 to the left), over a weighted mean
    of body points plus an offset [m]."""

    axis: int
    points: tuple[tuple[str, float], ...]
    offset_m: float = 0.0


@dataclass(frozen=True)
class Task:
    """start, end: (18, 3, 3) target rotations; weight: (18,) firmness; mark_across: the floor mark runs to
    the person's left instead of ahead; still: a hold, without an end; found_at_end: found patches come down
    in the end pose instead of the start pose; strap_runs: on a kit whose one strap slips through a loop, the
    two sides pull in turn, so that only their whole length is held; key: (18, 3, 3) target half way along the
    rep, if the path is not straight."""

    start: Floats
    end: Floats
    weight: Floats
    patches: tuple[PatchUse, ...]
    holds: tuple[HoldUse, ...] = ()
    pushes: tuple[PushUse, ...] = ()
    balances: tuple[BalanceUse, ...] = ()
    mark_across: bool = False
    still: bool = False
    found_at_end: bool = False
    strap_runs: bool = False
    key: Floats | None = None

    @property
    def landing(self) -> Floats:
        """Target rotations (18, 3, 3) of the pose in which found patches come down."""
        return self.end if self.found_at_end else self.start

    @property
    def staying(self) -> Task:
        """The task once landed: without the patches that only tap."""
        return replace(self, patches=tuple(use for use in self.patches if not use.taps))


@dataclass(frozen=True)
class Geometry:
    """The kit of N positions: anchor_m (N, 3); strap_m (N,) anchor to strap end; mark_m (N,); the handle's
    and the cradle's reach beyond the strap's end [m]; floor friction; the loop's capstan ratio or None."""

    anchor_m: Floats
    strap_m: Floats
    mark_m: Floats
    handle_m: float = 0.0
    cradle_m: float = 0.0
    friction: float = 0.6
    loop_ratio: float | None = None

    def __len__(self) -> int:
        return len(self.mark_m)

    def take(self, index: Ints) -> Geometry:
        """The positions at ``index``, repeats allowed."""
        return replace(
            self, anchor_m=self.anchor_m[index], strap_m=self.strap_m[index], mark_m=self.mark_m[index]
        )


_HIP: Final = SEGMENT_INDEX["left_thigh"]
_SIGN: Final = {"left": 1.0, "right": -1.0, "": 0.0}


def patch_places(task: Task, bodies: Bodies, geometry: Geometry, found: dict[int, Floats]) -> list[Patch]:
    """The rung's patches at their places for N positions.

    ``found``: places (N, 2), by patch number, where found patches came down; a found patch not in it is only
    touching yet.
    """
    half = bodies.joint_offset_m[:, _HIP, 1]
    patches = []
    for number, use in enumerate(task.patches):
        side = _SIGN[use.side]
        place: Floats | None
        heading = None if use.heading_rad is None else np.asarray(side * use.heading_rad)
        if use.found:
            place = found.get(number)
        else:
            along, across = geometry.mark_m + use.ahead_m, side * use.width * half
            if task.mark_across:
                along, across = use.ahead_m + 0.0 * along, across + geometry.mark_m
            place = np.stack(np.broadcast_arrays(along, across), axis=-1)
        pressed = not use.touching and use.share is None
        patches.append(
            Patch(use.kind, use.side, place, heading, use.height_m, geometry.friction, pressed, use.under)
        )
    return patches


def strap_rows(task: Task, geometry: Geometry) -> list[StrapRow]:
    """One row per held strap."""
    reach = {"handle": geometry.handle_m, "cradle": geometry.cradle_m, "none": 0.0}
    return [
        StrapRow(
            tuple(POINT_INDEX[p] for p in hold.points), geometry.anchor_m, geometry.strap_m + reach[hold.end]
        )
        for hold in task.holds
    ]


def constraints_of(task: Task, patches: Sequence[Patch], geometry: Geometry) -> Constraints:
    """All rows of the rung: planted patches, taut straps, limbs in line, hands together."""
    straps = strap_rows(task, geometry)
    planted = [row for patch in patches for row in planted_rows(patch)]
    aligned = []
    for hold, strap in zip(task.holds, straps, strict=True):
        aligned += [AlignRow(POINT_INDEX[p], strap, hold.upright_only) for p in hold.in_line]
        first = strap.points[0]
        for other in strap.points[1:]:
            planted += [PlantedRow(first, axis, np.zeros(()), other=other) for axis in np.eye(3)]
        if hold.plumb:
            planted += [PlantedRow(first, np.eye(3)[k], geometry.anchor_m[:, k]) for k in (0, 1)]
    balanced = tuple(
        BalanceRow(tuple((POINT_INDEX[p], w) for p, w in use.points), np.eye(3)[use.axis], use.offset_m)
        for use in task.balances
    )
    sums: tuple[SumRow, ...] = ()
    if task.strap_runs and geometry.loop_ratio is not None and len(straps) == 2:
        sums, straps = (SumRow((straps[0], straps[1]), straps[0].length_m + straps[1].length_m),), []
    return Constraints(tuple(planted), tuple(straps), sums, tuple(aligned), balanced)


def supports_of(task: Task, patches: Sequence[Patch], geometry: Geometry, bodies: Bodies) -> Supports:
    """What holds the person: strap tensions and pressed patches to be found, and stated outside forces."""
    weight = (bodies.body_mass_kg * GRAVITY_M_S2)[:, None]
    known = [
        KnownForce(patch.points()[0], weight * use.share * np.array([0.0, 0.0, 1.0]))
        for patch, use in zip(patches, task.patches, strict=True)
        if use.share is not None
    ]
    known += [
        KnownForce(POINT_INDEX[push.point], np.array(push.force_n) + weight * np.array(push.share))
        for push in task.pushes
    ]
    holds = tuple(
        StrapHold(tuple(POINT_INDEX[p] for p in hold.points), geometry.anchor_m, hold.side)
        for hold in task.holds
    )
    return Supports(holds, contact_points(patches), tuple(known), geometry.loop_ratio)
