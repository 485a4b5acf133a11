"""What holds a person up: straps, contact points, and outside pushes of known size."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINT_SEGMENT
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.kinematics import Placement

SIDES: Final = ("left", "right", "both")


@dataclass(frozen=True)
class StrapHold:
    """One strap and the body points that hold it.

    points: the body points whose mean is the strap's end; with several, each point's segment carries a
    part of the tension, all acting at that mean (hands on one handle). anchor_m: (3,) or (N, 3).
    side: left, right or both.
    """

    points: tuple[int, ...]
    anchor_m: Floats
    side: str


@dataclass(frozen=True)
class ContactPoint:
    """A body point pressed on a level surface: it can push, not pull, and grips up to ``friction``."""

    point: int
    friction: float
    patch: str


@dataclass(frozen=True)
class KnownForce:
    """A force [N] of known size and direction on a body point: a partner's push, a stated support.

    force_n: (3,) or (N, 3), in world axes.
    """

    point: int
    force_n: Floats


@dataclass(frozen=True)
class Supports:
    """Everything outside that acts on the person.

    loop_ratio: with one strap running through a loop, the most that one side's tension can exceed the
    other's before it slips (capstan ratio); None for independent straps.
    """

    straps: tuple[StrapHold, ...] = ()
    contacts: tuple[ContactPoint, ...] = ()
    known: tuple[KnownForce, ...] = ()
    loop_ratio: float | None = None

    def take(self, index: Ints) -> Supports:
        """The supports of the positions at ``index``."""

        def pick(array: Floats) -> Floats:
            return array[index] if np.ndim(array) > 1 and len(array) > 1 else array

        return replace(
            self,
            straps=tuple(replace(strap, anchor_m=pick(strap.anchor_m)) for strap in self.straps),
            known=tuple(replace(known, force_n=pick(known.force_n)) for known in self.known),
        )

    @property
    def key(self) -> tuple[object, ...]:
        """Alike for supports that differ only in where anchors are and how hard known forces push."""
        held = tuple((strap.points, strap.side) for strap in self.straps)
        return held, self.contacts, tuple(known.point for known in self.known), self.loop_ratio

    @property
    def tension_count(self) -> int:
        """Unknown tensions: one for each point that holds a strap."""
        return sum(len(strap.points) for strap in self.straps)

    @property
    def unknown_count(self) -> int:
        """Unknown tensions and contact force components."""
        return self.tension_count + 3 * len(self.contacts)


def joined(parts: Sequence[Supports], counts: Sequence[int]) -> Supports:
    """Supports of several sets of ``counts`` positions one after another; their keys must be alike."""

    def whole(arrays: Iterable[Floats]) -> Floats:
        return np.concatenate([np.broadcast_to(a, (n, 3)) for a, n in zip(arrays, counts, strict=True)])

    straps = tuple(
        replace(strap, anchor_m=whole(part.straps[k].anchor_m for part in parts))
        for k, strap in enumerate(parts[0].straps)
    )
    known = tuple(
        replace(force, force_n=whole(part.known[k].force_n for part in parts))
        for k, force in enumerate(parts[0].known)
    )
    return replace(parts[0], straps=straps, known=known)


@dataclass(frozen=True)
class Pushes:
    """Unknown forces of N poses as unit pushes: at point_m (N, G, 3) on segment (G,), along direction
    (N, G, 3). Tensions come first (straps in order), then x, y, z of every contact point."""

    point_m: Floats
    segment: Ints
    direction: Floats


def unit_pushes(supports: Supports, bodies: Bodies, placement: Placement) -> Pushes:
    """Lay out the unknown forces at the placed bodies; tensions pull towards the anchor."""
    points: list[Floats] = []
    segments: list[int] = []
    directions: list[Floats] = []
    count = len(placement.joint_m)
    for strap in supports.straps:
        end = placement.point_m(bodies, np.array(strap.points)).mean(axis=1)
        line = strap.anchor_m - end
        unit = line / np.linalg.norm(line, axis=-1, keepdims=True)
        for point in strap.points:
            points.append(end)
            segments.append(int(POINT_SEGMENT[point]))
            directions.append(unit)
    for contact in supports.contacts:
        at = placement.point_m(bodies, np.array([contact.point]))[:, 0]
        for axis in np.eye(3):
            points.append(at)
            segments.append(int(POINT_SEGMENT[contact.point]))
            directions.append(np.broadcast_to(axis, (count, 3)))
    return Pushes(np.stack(points, 1), np.array(segments, dtype=np.intp), np.stack(directions, 1))


def known_wrenches(supports: Supports, bodies: Bodies, placement: Placement) -> tuple[Floats, Floats]:
    """Known outside forces summed by segment: force (N, 18, 3) [N] and moment about the world origin
    (N, 18, 3) [N m]."""
    force = np.zeros_like(placement.joint_m)
    moment = np.zeros_like(placement.joint_m)
    for known in supports.known:
        segment = int(POINT_SEGMENT[known.point])
        at = placement.point_m(bodies, np.array([known.point]))[:, 0]
        push = np.broadcast_to(known.force_n, at.shape)
        force[:, segment] += push
        moment[:, segment] += np.cross(at, push)
    return force, moment
