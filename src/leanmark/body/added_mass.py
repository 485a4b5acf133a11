"""Mass worn or held on a segment: a vest, a belt, ankle weights."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from leanmark.body.arrays import Floats
from leanmark.body.bodies import Bodies
from leanmark.body.segments import SEGMENT_INDEX
from leanmark.errors import FieldError

MOST_ADDED_KG = 60.0  # own figure: above what anyone wears in a strap


@dataclass(frozen=True)
class AddedMass:
    """A point mass [kg] on a segment: at the segment's own mass centre, or ``at_m`` (3,) in its frame [m].

    Raises FieldError for an unknown segment and for a mass outside 0 to 60 kg.
    """

    segment: str
    mass_kg: float
    at_m: tuple[float, float, float] | None = None

    def __post_init__(self) -> None:
        if self.segment not in SEGMENT_INDEX:
            known = ", ".join(name.replace("_", " ") for name in SEGMENT_INDEX)
            raise FieldError("added mass", self.segment, known, "name the segment that wears it")
        if not 0.0 < self.mass_kg <= MOST_ADDED_KG:
            allowed = f"above 0 and up to {MOST_ADDED_KG:g} kg"
            raise FieldError("added mass", self.mass_kg, allowed, "give the mass that is worn")


def with_added_mass(bodies: Bodies, added: AddedMass) -> Bodies:
    """The same people wearing a mass; ``body_mass_kg`` stays theirs, so shares of body weight do too.

    Mass, mass centre and principal moments of the segment follow the parallel-axis theorem. Products of
    inertia that a mass off the segment's axes brings are left out: they act only in fast turning.
    """
    segment = SEGMENT_INDEX[added.segment]
    mass, com_m, inertia = bodies.mass_kg.copy(), bodies.com_m.copy(), bodies.inertia_kg_m2.copy()
    own, own_com = mass[:, segment].copy(), com_m[:, segment].copy()
    place = own_com if added.at_m is None else np.broadcast_to(np.array(added.at_m), own_com.shape)
    mass[:, segment] = own + added.mass_kg
    com_m[:, segment] = (own[:, None] * own_com + added.mass_kg * place) / mass[:, segment, None]
    new_com = com_m[:, segment]
    inertia[:, segment] += _about(own, own_com - new_com) + _about(
        np.full_like(own, added.mass_kg), place - new_com
    )
    return replace(bodies, mass_kg=mass, com_m=com_m, inertia_kg_m2=inertia)


def _about(mass_kg: Floats, arm_m: Floats) -> Floats:
    """Moments (B, 3) of point masses about axes through a point ``arm_m`` away."""
    squared = arm_m**2
    moments: Floats = mass_kg[:, None] * (squared.sum(axis=1, keepdims=True) - squared)
    return moments
