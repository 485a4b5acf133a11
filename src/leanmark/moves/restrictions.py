"""What a rung asks of a person besides strength, read from its solved poses and loads: what somebody may be
told not to do. A coach or a licensed practitioner says who may not; nothing here is a diagnosis."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from leanmark.body.points import POINT_SEGMENT
from leanmark.body.segments import JOINTS, SEGMENT_INDEX, SEGMENTS
from leanmark.mechanics.angles import angle_names, kind_of, values_of
from leanmark.mechanics.arrays import Bools, Floats
from leanmark.mechanics.kinematics import Placement, place
from leanmark.moves.base import FEET, bearing, contacts_of
from leanmark.moves.ladder.demand import Solved
from leanmark.moves.of_rung import stages_of

WEIGHT_SHARE: Final = 0.05
"""A limb bears weight from this share of body weight on; own figure."""
LEVEL: Final = float(np.cos(np.radians(45.0)))
"""The trunk lies on its front, back or side when within 45 degrees of it; own figure."""
HEAD_LOW_M: Final = 0.10
"""The head is low when the base of the neck is so far below the hips; own figure."""


@dataclass(frozen=True)
class Look:
    """A solved rung as the restrictions look at it: all poses of all its people in one array."""

    one: Solved

    @cached_property
    def placement(self) -> Placement:
        """Every pose in the world."""
        return place(self.one.rep.bodies, self.one.rep.solution.pose)

    @cached_property
    def _angles_deg(self) -> Floats:
        return np.degrees(values_of(self.one.rep.solution.pose.rotation))

    def angle_deg(self, kind: str, angle: str) -> Floats:
        """An anatomical angle of all joints of a kind (N, J) [deg]."""
        slot = angle_names(kind).index(angle)
        joints = [number for number, joint in enumerate(JOINTS) if kind_of(joint) == kind]
        return self._angles_deg[:, joints, slot]

    def trunk_deg(self, angle: str) -> Floats:
        """Lumbar and thoracic angle together (N,) [deg]."""
        both: Floats = (self.angle_deg("lumbar", angle) + self.angle_deg("thoracic", angle))[:, 0]
        return both

    def trunk_axis_up(self, axis: int) -> Floats:
        """How far up the upper trunk's forward (0) or left (1) axis points, (N,) from -1 to 1."""
        up: Floats = self.placement.rotation[:, SEGMENT_INDEX["upper_trunk"], 2, axis]
        return up

    def floor_share(self, *patches: str) -> Floats:
        """Upright force of floor and boxes on patches of some kinds, share of body weight (N,)."""
        rep, loads = self.one.rep, self.one.loads
        members = [k for k, c in enumerate(rep.supports.contacts) if c.patch.split()[-1] in patches]
        share: Floats = loads.contact_force_n[:, members, 2].sum(axis=1) / loads.body_weight_n
        return share

    def push_on_hands_share(self) -> Floats:
        """Largest force with which a strap's handle presses a hand towards its elbow, share of body weight
        (N,)."""
        loads, joint_m = self.one.loads, self.placement.joint_m
        pushes = [np.zeros(len(loads.outcome))]
        for number, strap in enumerate(self.one.rep.supports.straps):
            hand = int(POINT_SEGMENT[strap.points[0]])
            if kind_of(SEGMENTS[hand]) != "hand":
                continue
            forearm = SEGMENT_INDEX[SEGMENTS[hand].replace("hand", "forearm")]
            to_elbow = joint_m[:, forearm] - joint_m[:, hand]
            to_elbow /= np.linalg.norm(to_elbow, axis=-1, keepdims=True)
            along = (loads.strap_unit[:, number] * to_elbow).sum(axis=-1)
            pushes.append(loads.strap_tension_n[:, number] * along / loads.body_weight_n)
        most: Floats = np.max(pushes, axis=0)
        return most

    def holds_by(self, end: str) -> bool:
        """Whether a strap is held by such an end."""
        return any(hold.end == end for hold in self.one.rep.task.holds)

    def weight_on_hands(self) -> Bools:
        """Whether hands bear weight on the floor, a box or handles, (N,)."""
        on_floor = self.floor_share("palm", "hand")
        bears: Bools = np.maximum(on_floor, self.push_on_hands_share()) > WEIGHT_SHARE
        return bears

    def height_m(self, segment: str) -> Floats:
        """Height of a segment's own joint (N,) [m]."""
        height: Floats = self.placement.joint_m[:, SEGMENT_INDEX[segment], 2]
        return height


@dataclass(frozen=True)
class Restriction:
    """One thing a rung may ask: its name, what counts, and how it is read: true for a rung, or for each of
    its poses, of which one is enough."""

    name: str
    means: str
    asked: Callable[[Look], bool | Bools]


def _one_foot(look: Look) -> bool:
    contacts = bearing(contacts_of(look.one.move, look.one.rung))
    feet = {side for contact in contacts if contact.patch in FEET for side in contact.sides}
    others = any(contact.patch not in FEET and contact.share_percent is None for contact in contacts)
    return len(feet) == 1 and not others


def _kneels(look: Look) -> bool:
    return any(contact.patch in ("knee", "shin") for contact in contacts_of(look.one.move, look.one.rung))


def _deeper(kind: str, angle: str, deg: float) -> Callable[[Look], Bools]:
    return lambda look: np.asarray((look.angle_deg(kind, angle) > deg).any(axis=1), dtype=np.bool_)


RESTRICTIONS: Final[dict[str, Restriction]] = {
    row.name: row
    for row in (
        Restriction(
            "weight on the hands",
            "hands carry more than 5 % of body weight on floor or box, or handles press them so hard towards "
            "the elbow; own figure",
            lambda look: look.weight_on_hands(),
        ),
        Restriction(
            "wrists bent back",
            "hands carry weight with the wrist extended beyond 60°; own figure",
            lambda look: look.weight_on_hands() & (look.angle_deg("wrist", "flexion") < -60.0).any(axis=1),
        ),
        Restriction(
            "weight on the forearms",
            "forearms or elbows carry more than 5 % of body weight; own figure",
            lambda look: look.floor_share("forearm", "elbow") > WEIGHT_SHARE,
        ),
        Restriction("gripping", "a handle is held", lambda look: look.holds_by("handle")),
        Restriction("kneeling", "a knee or shin is on the floor", _kneels),
        Restriction(
            "feet in cradles", "a foot or a knee hangs in a cradle", lambda look: look.holds_by("cradle")
        ),
        Restriction(
            "arms overhead",
            "an arm is raised beyond 120°; own figure",
            _deeper("shoulder", "elevation", 120.0),
        ),
        Restriction(
            "deep knee bend", "a knee is bent beyond 100°; own figure", _deeper("knee", "flexion", 100.0)
        ),
        Restriction(
            "deep hip bend", "a hip is bent beyond 100°; own figure", _deeper("hip", "flexion", 100.0)
        ),
        Restriction(
            "face up",
            "the chest faces up, the trunk within 45° of level; own figure",
            lambda look: look.trunk_axis_up(0) > LEVEL,
        ),
        Restriction(
            "face down",
            "the chest faces down, the trunk within 45° of level; own figure",
            lambda look: look.trunk_axis_up(0) < -LEVEL,
        ),
        Restriction(
            "on the side",
            "a side faces down, the trunk within 45° of level; own figure",
            lambda look: np.abs(look.trunk_axis_up(1)) > LEVEL,
        ),
        Restriction(
            "head low",
            "the base of the neck is more than 10 cm below the hips; own figure",
            lambda look: look.height_m("head") < look.height_m("left_thigh") - HEAD_LOW_M,
        ),
        Restriction(
            "trunk bent forward",
            "the back is bent forward by more than 30°; own figure",
            lambda look: look.trunk_deg("flexion") > 30.0,
        ),
        Restriction(
            "trunk arched",
            "the back is arched by more than 15°; own figure",
            lambda look: look.trunk_deg("flexion") < -15.0,
        ),
        Restriction(
            "trunk bent sideways",
            "the back is bent to a side by more than 15°; own figure",
            lambda look: np.abs(look.trunk_deg("side_bend_right")) > 15.0,
        ),
        Restriction(
            "trunk turned",
            "the chest is turned against the hips by more than 20°; own figure",
            lambda look: np.abs(look.trunk_deg("rotation_left")) > 20.0,
        ),
        Restriction("single-leg stance", "one foot alone stands on the floor", _one_foot),
        Restriction(
            "jumping",
            "every speed stage of the rung is ballistic",
            lambda look: set(stages_of(look.one.move, look.one.rung)) == {"ballistic"},
        ),
    )
}
"""Every restriction by name, in the order in which they are listed."""


def asks_of(one: Solved) -> tuple[str, ...]:
    """The names of all restrictions that a solved rung touches, for anybody among its people."""
    touched = asks_by_position(one)
    return tuple(name for name in RESTRICTIONS if any(name in own for own in touched))


def asks_by_position(one: Solved) -> list[frozenset[str]]:
    """The names of all restrictions that a solved rung touches at each of its positions (N,)."""
    look = Look(one)
    found: list[set[str]] = [set() for _ in range(one.count)]
    for name, row in RESTRICTIONS.items():
        poses = np.broadcast_to(row.asked(look), (len(one.position) * one.steps,))
        for position in set(one.position[poses.reshape(-1, one.steps).any(axis=1)].tolist()):
            found[position].add(name)
    return [frozenset(own) for own in found]
