"""The load of a position: strap tensions, floor forces, joint moments, grip and strength shares."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.mechanics.arrays import GRAVITY_M_S2, Bools, Floats, Ints
from leanmark.mechanics.distribution import (
    HOLDS,
    Programme,
    extreme_forces,
    least_effort,
    tension_range,
)
from leanmark.mechanics.kinematics import Placement, Pose, place
from leanmark.mechanics.moments import moment_axes, needed_moments, push_moments, weight_wrenches
from leanmark.mechanics.pose import PIECE
from leanmark.mechanics.supports import Pushes, Supports, known_wrenches, unit_pushes

SLACK_SHARE: Final = 1e-6
"""A strap counts as slack at or below this share of body weight."""


@dataclass(frozen=True)
class Loads:
    """The load of N positions; S straps, C contact points.

    body_weight_n: (N,). strap_tension_n: (N, S); part_tension_n: (N, U) by holding point.
    strap_end_m, strap_unit: (N, S, 3), unit from the body towards the anchor.
    contact_point_m, contact_force_n: (N, C, 3). joint_moment_nm: (N, 18, 3) about the anatomical axes, row
    0 (the free root) is what is left over and must be zero. strength_share: (N, 18, 3), signed like the
    moment. friction_needed: (N,) level force over upright force at the contacts. outcome: (N,) codes of
    ``distribution``. world_moment_nm: (N, 18, 3) the moments in world axes.
    """

    body_weight_n: Floats
    strap_tension_n: Floats
    part_tension_n: Floats
    strap_end_m: Floats
    strap_unit: Floats
    contact_point_m: Floats
    contact_force_n: Floats
    joint_moment_nm: Floats
    world_moment_nm: Floats
    strength_share: Floats
    friction_needed: Floats
    outcome: Ints

    def take(self, index: Ints) -> Loads:
        """The loads of the positions at ``index``."""
        return Loads(**{field.name: getattr(self, field.name)[index] for field in fields(self)})

    @property
    def total_tension_share(self) -> Floats:
        """All strap tension as a share of body weight, (N,)."""
        share: Floats = self.strap_tension_n.sum(axis=1) / self.body_weight_n
        return share

    @property
    def slack(self) -> Bools:
        """Whether any strap carries nothing (or would have to push), (N,)."""
        if not self.strap_tension_n.shape[1]:
            return np.zeros(len(self.body_weight_n), dtype=bool)
        floor = SLACK_SHARE * self.body_weight_n[:, None]
        slack: Bools = np.any(self.strap_tension_n <= floor, axis=1)
        return slack

    @property
    def held(self) -> Bools:
        """Whether the position holds with every strap taut, (N,)."""
        held: Bools = (self.outcome == HOLDS) & ~self.slack
        return held

    @property
    def largest_share(self) -> Floats:
        """The largest joint moment as a share of reference strength, (N,)."""
        share: Floats = np.abs(self.strength_share[:, 1:]).max(axis=(1, 2))
        return share


@dataclass(frozen=True)
class Balance:
    """A position's equations before the forces are chosen; kept to reuse for ranges and intervals.

    needed_nm: (N, 18, 3) moments needed without help, world axes; unit_nm: (N, 18, 3, G) per unit push;
    axes: (N, 18, 3, 3); strength_nm: (N, 18, 3, 2) or (1, ...); programme: the quadratic programmes.
    """

    placement: Placement
    needed_nm: Floats
    unit_nm: Floats
    axes: Floats
    pushes: Pushes
    strength_nm: Floats
    body_weight_n: Floats
    programme: Programme


def balance_of(
    bodies: Bodies,
    pose: Pose,
    supports: Supports,
    needs: tuple[Floats, Floats] | None = None,
) -> Balance:
    """Set up the equations of N posed bodies.

    ``needs`` gives force and moment about the world origin that each segment needs, (N, 18, 3) each, for a
    moving body; left out, the body is at rest.
    """
    placement = place(bodies, pose)
    force, moment = needs or weight_wrenches(bodies, placement.com_m(bodies))
    known_force, known_moment = known_wrenches(supports, bodies, placement)
    needed_nm, needed_n = needed_moments(placement, force - known_force, moment - known_moment)
    pushes = unit_pushes(supports, bodies, placement)
    unit_nm = push_moments(placement, pushes)
    axes = moment_axes(placement, pose.rotation)
    weight = np.broadcast_to(bodies.body_mass_kg * GRAVITY_M_S2, (len(needed_nm),))
    programme = _programme(bodies, supports, pushes, needed_nm, needed_n, unit_nm, axes, weight)
    return Balance(placement, needed_nm, unit_nm, axes, pushes, bodies.strength_nm, weight, programme)


def _programme(
    bodies: Bodies,
    supports: Supports,
    pushes: Pushes,
    needed_nm: Floats,
    needed_n: Floats,
    unit_nm: Floats,
    axes: Floats,
    weight: Floats,
) -> Programme:
    count, unknowns = len(needed_nm), supports.unknown_count
    give = weight[:, None, None] / bodies.strength_nm[:, 1:].mean(axis=-1)
    turned = np.swapaxes(axes[:, 1:], -1, -2)
    effort = (turned @ unit_nm[:, 1:]) * give[..., None]
    offset = (turned @ (needed_nm[:, 1:] / weight[:, None, None])[..., None])[..., 0] * give
    balance = np.concatenate([np.swapaxes(pushes.direction, 1, 2), unit_nm[:, 0]], axis=1)
    needed = np.concatenate([needed_n, needed_nm[:, 0]], axis=1) / weight[:, None]
    return Programme(
        effort.reshape(count, -1, unknowns), offset.reshape(count, -1), balance, needed, supports
    )


def loads_of(balance: Balance, pressure: Floats | None = None) -> Loads:
    """Choose the least-effort forces, or move the pressure from their place, and read off every load.

    pressure: (N,) from -1, all at the end of the patches that gives the least total strap tension, over 0,
    least effort, to 1, the greatest.
    """
    if pressure is None or not pressure.any():
        return loads_under(balance, *least_effort(balance.programme))
    return loads_at(balance, pressure)[0]


def loads_at(balance: Balance, *pressures: Floats) -> tuple[Loads, ...]:
    """Loads at several places of the pressure, (N,) each, as in ``loads_of``.

    Forces in between are shares of the least-effort and the extreme ones, so that all of them balance and
    keep within the friction. Where the position cannot be held, the pressure stays where least effort is.
    """
    shares, outcome = least_effort(balance.programme)
    low, high = extreme_forces(balance.programme)
    found = []
    for pressure in pressures:
        end = np.where(pressure[:, None] < 0.0, low, high)
        moved = shares + np.abs(pressure)[:, None] * (end - shares)
        found.append(loads_under(balance, np.where(np.isnan(moved), shares, moved), outcome))
    return tuple(found)


def loads_under(balance: Balance, shares: Floats, outcome: Ints) -> Loads:
    """Every load under given forces (N, G) [share of body weight]."""
    forces = shares * balance.body_weight_n[:, None]
    supports = balance.programme.supports
    world = balance.needed_nm - (balance.unit_nm @ forces[:, None, :, None])[..., 0]
    moment = (np.swapaxes(balance.axes, -1, -2) @ world[..., None])[..., 0]
    tension, contact = _split(forces, supports)
    ends = np.cumsum([0, *(len(strap.points) for strap in supports.straps)])
    first = ends[:-1]
    return Loads(
        body_weight_n=balance.body_weight_n,
        strap_tension_n=np.stack([tension[:, a:b].sum(1) for a, b in zip(first, ends[1:], strict=True)], 1)
        if len(first)
        else np.zeros((len(forces), 0)),
        part_tension_n=tension,
        strap_end_m=balance.pushes.point_m[:, first],
        strap_unit=balance.pushes.direction[:, first],
        contact_point_m=balance.pushes.point_m[:, supports.tension_count :: 3],
        contact_force_n=contact,
        joint_moment_nm=moment,
        world_moment_nm=world,
        strength_share=share_of_strength(moment, balance.strength_nm),
        friction_needed=_friction_needed(contact),
        outcome=outcome,
    )


def statics(bodies: Bodies, pose: Pose, supports: Supports, pressure: Floats | None = None) -> Loads:
    """The load of N posed bodies at rest; large batches are taken in pieces, to bound their memory.

    pressure: (N,), as in ``loads_of``.
    """
    count = len(pose.root_m)
    parts = []
    for first in range(0, count, PIECE):
        index = np.arange(first, min(first + PIECE, count))
        people = bodies.take(index) if len(bodies.body_mass_kg) > 1 else bodies
        balance = balance_of(people, pose.take(index), supports.take(index))
        parts.append(loads_of(balance, None if pressure is None else pressure[index]))
    if len(parts) == 1:
        return parts[0]
    names = [field.name for field in fields(Loads)]
    return Loads(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})


def tension_limits(balance: Balance) -> Floats:
    """Least and greatest total tension [N] that the contact patches allow, (N, 2); NaN where none."""
    low, high = tension_range(balance.programme)
    return np.stack([low, high], axis=1) * balance.body_weight_n[:, None]


def share_of_strength(moment_nm: Floats, strength_nm: Floats) -> Floats:
    """Moments as shares of the reference strength in their own direction; structural axes count as zero."""
    strength = np.where(moment_nm < 0.0, strength_nm[..., 0], strength_nm[..., 1])
    share = moment_nm / strength
    share[:, 0] = 0.0
    return share


def _split(forces: Floats, supports: Supports) -> tuple[Floats, Floats]:
    tensions = supports.tension_count
    return forces[:, :tensions], forces[:, tensions:].reshape(len(forces), -1, 3)


def _friction_needed(contact_force_n: Floats) -> Floats:
    total = contact_force_n.sum(axis=1)
    level = np.hypot(total[:, 0], total[:, 1])
    needed: Floats = level / np.maximum(total[:, 2], 1e-9)
    return needed
