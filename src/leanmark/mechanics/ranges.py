"""Joint ranges: how far each anatomical angle goes in a healthy adult.

AAOS rows: American Academy of Orthopaedic Surgeons, Joint Motion: Method of Measuring and Recording,
1965, from memory. Rows marked "own figure" are wider than a clinic's passive range where movement of the
shoulder girdle or of the spine's other parts adds to the one joint the model has.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import angles_from_rotation, kind_of, rotation_from_angles
from leanmark.mechanics.arrays import Bools, Floats

RANGES_DEG: Final[dict[tuple[str, str], tuple[float, float, str]]] = {
    ("lumbar", "flexion"): (-25.0, 60.0, "AAOS 1965, from memory: thoracolumbar 25 back, 80 forward, shared"),
    ("lumbar", "side_bend_right"): (-35.0, 35.0, "AAOS 1965, from memory"),
    ("lumbar", "rotation_left"): (-30.0, 30.0, "AAOS 1965, from memory: thoracolumbar 45, shared"),
    ("thoracic", "flexion"): (-25.0, 45.0, "own figure: the rest of the thoracolumbar range"),
    ("thoracic", "side_bend_right"): (-30.0, 30.0, "own figure"),
    ("thoracic", "rotation_left"): (-40.0, 40.0, "own figure"),
    ("neck", "flexion"): (-60.0, 50.0, "AAOS 1965, from memory: 45 each way; extension own figure"),
    ("neck", "side_bend_right"): (-45.0, 45.0, "AAOS 1965, from memory"),
    ("neck", "rotation_left"): (-70.0, 70.0, "AAOS 1965, from memory: 60; own figure"),
    ("hip", "flexion"): (-30.0, 125.0, "AAOS 1965, from memory: 30 back, 120 forward"),
    ("hip", "abduction"): (-30.0, 50.0, "AAOS 1965, from memory: 45 out, 30 in"),
    ("hip", "internal_rotation"): (-50.0, 50.0, "AAOS 1965, from memory: 45 each way"),
    ("knee", "flexion"): (-5.0, 150.0, "AAOS 1965, from memory: 135; heel to buttock own figure"),
    ("ankle", "dorsiflexion"): (-60.0, 40.0, "AAOS 1965, from memory: 20 up, 50 down; loaded own figure"),
    ("ankle", "inversion"): (-25.0, 40.0, "AAOS 1965, from memory: 35 in, 15 out"),
    ("ankle", "internal_rotation"): (-35.0, 35.0, "own figure"),
    ("toe_joint", "extension"): (-45.0, 90.0, "AAOS 1965, from memory: great toe 70; loaded own figure"),
    ("shoulder", "elevation"): (0.0, 185.0, "AAOS 1965, from memory: 180"),
    ("shoulder", "rotation"): (-110.0, 100.0, "AAOS 1965, from memory: 90 out, 70 in; girdle own figure"),
    ("elbow", "flexion"): (-5.0, 155.0, "AAOS 1965, from memory: 150"),
    ("wrist", "pronation"): (-20.0, 190.0, "AAOS 1965, from memory: 160 from full supination; own figure"),
    ("wrist", "flexion"): (-85.0, 85.0, "AAOS 1965, from memory: 80 down, 70 up; loaded palm own figure"),
    ("wrist", "radial_deviation"): (-45.0, 30.0, "AAOS 1965, from memory: 20 radial, 30 ulnar; own figure"),
}
"""(joint, angle): lowest, highest [deg], source. An angle not listed is not limited."""

REPORT_SLACK_RAD: Final = np.radians(1.0)
"""A joint is called past its range only beyond this, the fineness a goniometer reads."""


def past_range(rotation: Floats) -> dict[str, Bools]:
    """Which poses hold which joint angle past its range; keys ``joint angle``, values (N,).

    rotation: (N, 18, 3, 3). Only angles exceeded by some pose are listed.
    """
    found: dict[str, Bools] = {}
    for index, joint in enumerate(JOINTS):
        for name, value in _angles(joint, rotation[:, index]).items():
            low, high = _limits(joint, name)
            beyond = (value < low - REPORT_SLACK_RAD) | (value > high + REPORT_SLACK_RAD)
            if beyond.any():
                found[f"{joint} {name}"] = beyond
    return found


def within_range(rotation: Floats) -> tuple[Floats, Bools]:
    """The same poses with every angle brought inside its range, and which joints had to move.

    rotation: (N, 18, 3, 3); returns the clipped rotations and (N, 18).
    """
    clipped = rotation.copy()
    moved = np.zeros(rotation.shape[:2], dtype=bool)
    for index, joint in enumerate(JOINTS):
        angles = _angles(joint, rotation[:, index])
        inside = {name: np.clip(value, *_limits(joint, name)) for name, value in angles.items()}
        beyond = np.zeros(len(rotation), dtype=bool)
        for name, value in angles.items():
            beyond |= np.abs(inside[name] - value) > 1e-9
        if beyond.any():
            moved[:, index] = beyond
            fixed = rotation_from_angles(joint, inside)
            clipped[:, index] = np.where(beyond[:, None, None], fixed, rotation[:, index])
    return clipped, moved


def _angles(joint: str, rotation: Floats) -> dict[str, Floats]:
    """A joint's angles [rad], each within half a turn of its range's middle: a palm turned down reads 180 as
    well as -180 degrees, and only the first is in range. None of the root, which no range holds."""
    if joint == "root":
        return {}
    angles = angles_from_rotation(joint, rotation)
    for name in angles.keys() & {name for kind, name in RANGES_DEG if kind == kind_of(joint)}:
        middle = 0.5 * sum(_limits(joint, name))
        angles[name] = middle + (angles[name] - middle + np.pi) % (2.0 * np.pi) - np.pi
    return angles


def _limits(joint: str, name: str) -> tuple[float, float]:
    """Lowest and highest value [rad] of a joint's angle."""
    low, high, _ = RANGES_DEG.get((kind_of(joint), name), (-np.inf, np.inf, ""))
    return float(np.radians(low)), float(np.radians(high))
