"""Joint ranges: how far each anatomical angle goes in a healthy adult.

AAOS rows: American Academy of Orthopaedic Surgeons, Joint Motion: Method of Measuring and Recording,
1965, from memory. Rows marked "own figure" are wider than a clinic's passive range where movement of the
shoulder girdle or of the spine's other parts adds to the one joint the model has.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.segments import JOINTS
from leanmark.mechanics.angles import angle_names, kind_of, rotations_of, values_of
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
    values = _values(rotation)
    beyond = (values < _LOW - REPORT_SLACK_RAD) | (values > _HIGH + REPORT_SLACK_RAD)
    return {
        f"{JOINTS[joint]} {angle_names(JOINTS[joint])[slot]}": beyond[:, joint, slot]
        for joint, slot in np.argwhere(beyond.any(axis=0))
    }


def within_range(rotation: Floats) -> tuple[Floats, Bools]:
    """The same poses with every angle brought inside its range, and which joints had to move.

    rotation: (N, 18, 3, 3); returns the clipped rotations and (N, 18).
    """
    values = _values(rotation)
    inside = np.clip(values, _LOW, _HIGH)
    moved: Bools = np.any(np.abs(inside - values) > 1e-9, axis=-1)
    if not moved.any():
        return rotation, moved
    return np.where(moved[..., None, None], rotations_of(inside), rotation), moved


def _limits() -> tuple[Floats, Floats]:
    """Lowest and highest value (18, 3) [rad] of every joint's angles; none of the root, which no range
    holds."""
    low, high = np.full((len(JOINTS), 3), -np.inf), np.full((len(JOINTS), 3), np.inf)
    for joint, name in enumerate(JOINTS):
        for slot, angle in enumerate(angle_names(name)):
            least, most, _ = RANGES_DEG.get((kind_of(name), angle), (-np.inf, np.inf, ""))
            low[joint, slot], high[joint, slot] = np.radians([least, most])
    return low, high


_LOW, _HIGH = _limits()
_LIMITED: Final = np.isfinite(_LOW)
_MIDDLE: Final = 0.5 * (np.where(_LIMITED, _LOW, 0.0) + np.where(_LIMITED, _HIGH, 0.0))


def _values(rotation: Floats) -> Floats:
    """All joints' angles (N, 18, 3) [rad], limited ones within half a turn of their range's middle: a palm
    turned down reads 180 as well as -180 degrees, and only the first is in range."""
    values = values_of(rotation)
    wrapped = _MIDDLE + (values - _MIDDLE + np.pi) % (2.0 * np.pi) - np.pi
    return np.where(_LIMITED, wrapped, values)
