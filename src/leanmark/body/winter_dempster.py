"""Segment masses, mass centres and radii of gyration after Dempster as tabulated by Winter.

Source of every number in ``PRINTED`` and ``RADII``: Winter DA. 2009. Biomechanics and Motor Control of
Human Movement, 4th ed., table 4.1 (after Dempster 1955), read in a public data copy (BMClab, file
BSP_DempsterWinter.txt), not in the book. Lengths are those of Drillis and Contini 1966, which the book uses
with this table.

The set was measured on cadavers of old men and its rows for the parts of the trunk do not agree with each
other. What we add so that it fills our segments is named below as our own figure.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from leanmark.body import de_leva_1996
from leanmark.body.drillis_contini_1966 import share
from leanmark.body.foot import (
    ANKLE_FROM_HEEL,
    ANKLE_HEIGHT_SHARE,
    TOE_JOINT_FROM_HEEL,
    TOE_JOINT_HEIGHT_SHARE,
)
from leanmark.body.segment_table import Part, SegmentTable

SOURCE: Final = (
    "Winter 2009, table 4.1, after Dempster 1955 (read in a public data copy); Drillis & Contini 1966"
)


class Row(NamedTuple):
    """One printed row: endpoints, mass fraction, and mass centre from the first endpoint as a fraction of
    the length."""

    endpoints: str
    mass_fraction: float
    com_fraction: float


PRINTED: Final[dict[str, Row]] = {  # Winter 2009 table 4.1; see the head of this file
    "hand": Row("wrist axis-knuckle II middle finger", 0.006, 0.506),
    "forearm": Row("elbow axis-ulnar styloid", 0.016, 0.430),
    "upper arm": Row("glenohumeral axis-elbow axis", 0.028, 0.436),
    "forearm and hand": Row("elbow axis-ulnar styloid", 0.022, 0.682),
    "total arm": Row("glenohumeral joint-ulnar styloid", 0.050, 0.530),
    "foot": Row("lateral malleolus-head metatarsal II", 0.0145, 0.500),
    "leg": Row("femoral condyles-medial malleolus", 0.0465, 0.433),
    "thigh": Row("greater trochanter-femoral condyles", 0.100, 0.433),
    "foot and leg": Row("femoral condyles-medial malleolus", 0.061, 0.606),
    "total leg": Row("greater trochanter-medial malleolus", 0.161, 0.447),
    "head and neck": Row("C7-T1 and 1st rib-ear canal", 0.081, 1.000),
    "thorax": Row("C7-T1-T12-L1 and diaphragm", 0.216, 0.82),
    "abdomen": Row("T12-L1-L4-L5", 0.139, 0.44),
    "pelvis": Row("L4-L5-greater trochanter", 0.142, 0.105),
    "thorax and abdomen": Row("C7-T1-L4-L5", 0.355, 0.63),
    "abdomen and pelvis": Row("T12-L1-greater trochanter", 0.281, 0.27),
    "trunk": Row("greater trochanter-glenohumeral joint", 0.497, 0.50),
    "trunk, head and neck": Row("greater trochanter-glenohumeral joint", 0.578, 0.66),
    "head, arms and trunk": Row("greater trochanter-glenohumeral joint", 0.678, 0.626),
}
RADII: Final[dict[str, tuple[float, float, float]]] = {  # Winter 2009 table 4.1: about the mass centre, the
    "hand": (0.297, 0.587, 0.577),  # first and the second endpoint, fractions of the length
    "forearm": (0.303, 0.526, 0.647),
    "upper arm": (0.322, 0.542, 0.645),
    "forearm and hand": (0.468, 0.827, 0.565),
    "total arm": (0.368, 0.645, 0.596),
    "foot": (0.475, 0.690, 0.690),
    "leg": (0.302, 0.528, 0.643),
    "thigh": (0.323, 0.540, 0.653),
    "foot and leg": (0.416, 0.735, 0.572),
    "total leg": (0.326, 0.560, 0.650),
    "trunk, head and neck": (0.503, 0.830, 0.607),
    "head, arms and trunk": (0.496, 0.798, 0.621),
}
HEAD_RADIUS: Final = 0.495  # of C7-T1 to ear canal, about the mass centre; Winter 2009 table 4.1
EAR_HEIGHT_SHARE: Final = share("eye height")  # ear canal level with the eye: own figure

_MALE: Final = de_leva_1996.MALE
_TRUNK_PARTS: Final = {"pelvis": "pelvis", "lower_trunk": "abdomen", "upper_trunk": "thorax"}


def _trunk_scale() -> float:
    """Drillis and Contini's shoulder-to-hip length against de Leva's for men; both shares of stature."""
    below = _MALE.parts["pelvis"].length_share + _MALE.parts["lower_trunk"].length_share
    return share("shoulder to hip") / (below + _MALE.shoulder_share)


def _trunk_parts() -> dict[str, Part]:
    """Winter's three trunk masses on lengths divided as in de Leva's men, with his radii (own figure).

    The mass centres lie at the printed fractions of our three lengths, all shifted along the trunk by one
    distance so that the whole has its mass centre where the row ``trunk`` prints it (own figure).
    """
    lengths = {name: _MALE.parts[name].length_share * _trunk_scale() for name in _TRUNK_PARTS}
    masses = {name: PRINTED[row].mass_fraction for name, row in _TRUNK_PARTS.items()}
    base, height = 0.0, {}
    for name, row in _TRUNK_PARTS.items():
        height[name] = base + (1.0 - PRINTED[row].com_fraction) * lengths[name]
        base += lengths[name]
    mean = sum(masses[name] * height[name] for name in masses) / sum(masses.values())
    shift = PRINTED["trunk"].com_fraction * share("shoulder to hip") - mean
    parts, base = {}, 0.0
    for name, length in lengths.items():
        com_fraction = (height[name] + shift - base) / length
        parts[name] = Part(length, masses[name], com_fraction, _MALE.parts[name].radius_fraction)
        base += length
    return parts


def _head(neck_height: float) -> Part:
    """Head and neck from C7 to the vertex; the mass centre lies at the ear canal as printed. One printed
    radius serves all three axes (own figure)."""
    length, to_ear = 1.0 - neck_height, EAR_HEIGHT_SHARE - neck_height
    radius = HEAD_RADIUS * to_ear / length
    row = PRINTED["head and neck"]
    return Part(length, row.mass_fraction, row.com_fraction * to_ear / length, (radius, radius, radius))


def _limb(name: str, row_name: str, length: float, reach: float = 1.0) -> Part:
    """A limb whose printed length is ``reach`` of ours. The printed radius serves x and y; the one about
    the long axis has de Leva's ratio to it (own figure)."""
    row = PRINTED[row_name]
    cross = RADII[row_name][0] * reach
    model = _MALE.parts[name].radius_fraction
    return Part(
        length, row.mass_fraction, row.com_fraction * reach, (cross, cross, cross * model[2] / model[1])
    )


def _hand() -> Part:
    """The knuckle lies as far along the hand as in de Leva's men (own figure)."""
    return _limb("hand", "hand", share("hand"), de_leva_1996.KNUCKLE_FRACTION)


def _foot() -> Part:
    """Ankle and ball as in ``foot.py``; about the long axis de Leva's radius for men (own figure)."""
    row, length = PRINTED["foot"], share("foot length")
    along = TOE_JOINT_FROM_HEEL - ANKLE_FROM_HEEL
    drop = (ANKLE_HEIGHT_SHARE - TOE_JOINT_HEIGHT_SHARE) / length
    cross = RADII["foot"][0] * (along**2 + drop**2) ** 0.5
    com = ANKLE_FROM_HEEL + row.com_fraction * along
    return Part(length, row.mass_fraction, com, (_MALE.parts["foot"].radius_fraction[0], cross, cross))


def _table() -> SegmentTable:
    trunk = _trunk_parts()
    neck_height = share("hip height") + sum(part.length_share for part in trunk.values())
    parts = {
        **trunk,
        "head": _head(neck_height),
        "upper_arm": _limb("upper_arm", "upper arm", share("upper arm")),
        "forearm": _limb("forearm", "forearm", share("forearm")),
        "hand": _hand(),
        "thigh": _limb("thigh", "thigh", share("thigh")),
        "shank": _limb("shank", "leg", share("shank")),
        "foot": _foot(),
    }
    return SegmentTable("winter_dempster", SOURCE, None, parts, _MALE.shoulder_share * _trunk_scale())


TABLE: Final = _table()
