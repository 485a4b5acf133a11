"""Segment masses, mass centres and radii of gyration of young men and women by de Leva.

Source of every number here: de Leva P. 1996. Adjustments to Zatsiorsky-Seluyanov's segment inertia
parameters. J Biomech 29:1223-1230, table 4, read in two public data copies that agree (BMClab, files
BSPmale_ZdeLeva.txt and BSPfemale_ZdeLeva.txt, and a second copy with the lengths), not in the paper.

The mass centre is counted from the FIRST endpoint named. The same mass between other endpoints has
another percentage, so a row is only true with its own endpoints. Radii are about the sagittal,
transverse and longitudinal axes through the mass centre: sagittal is our x (forward), transverse our y
(to the left), longitudinal our z. The foot's long axis lies along x, so there longitudinal is our x and
sagittal our z.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from leanmark.body.build import Sex
from leanmark.body.segment_table import Part, SegmentTable

SOURCE: Final = "de Leva 1996, J Biomech 29:1223-1230, table 4 (read in public data copies)"
STATURE_M: Final[dict[Sex, float]] = {"male": 1.741, "female": 1.735}  # de Leva 1996; 73.0 and 61.9 kg


class Row(NamedTuple):
    """One printed row: endpoints, length [m, printed in mm], mass [% of body mass], mass centre [% of length
    from the first endpoint], and radii of gyration [% of length], sagittal, transverse, longitudinal."""

    endpoints: str
    length_m: float
    mass_percent: float
    com_percent: float
    radii_percent: tuple[float, float, float]


# fmt: off
MALE_PRINTED: Final[dict[str, Row]] = {  # de Leva 1996 table 4, males; see the head of this file
    "head": Row("vertex-mid gonion", 0.2033, 6.94, 59.76, (36.2, 37.6, 31.2)),
    "head 2": Row("vertex-C7", 0.2429, 6.94, 50.02, (30.3, 31.5, 26.1)),
    "trunk": Row("suprasternale-mid hip", 0.5319, 43.46, 44.86, (37.2, 34.7, 19.1)),
    "trunk 2": Row("C7-mid hip", 0.6033, 43.46, 51.38, (32.8, 30.6, 16.9)),
    "trunk 3": Row("mid shoulder-mid hip", 0.5155, 43.46, 43.10, (38.4, 35.8, 19.7)),
    "upper trunk": Row("suprasternale-xiphion", 0.1707, 15.96, 29.99, (71.6, 45.4, 65.9)),
    "upper trunk 2": Row("C7-xiphion", 0.2421, 15.96, 50.66, (50.5, 32.0, 46.5)),
    "mid trunk": Row("xiphion-navel", 0.2155, 16.33, 45.02, (48.2, 38.3, 46.8)),
    "lower trunk": Row("navel-mid hip", 0.1457, 11.17, 61.15, (61.5, 55.1, 58.7)),
    "upper arm": Row("SJC-EJC", 0.2817, 2.71, 57.72, (28.5, 26.9, 15.8)),
    "forearm": Row("EJC-WJC", 0.2689, 1.62, 45.74, (27.6, 26.5, 12.1)),
    "forearm 2": Row("EJC-stylion", 0.2669, 1.62, 46.08, (27.8, 26.7, 12.2)),
    "hand": Row("WJC-MET3", 0.0862, 0.61, 79.00, (62.8, 51.3, 40.1)),
    "hand 2": Row("WJC-fingertip", 0.1879, 0.61, 36.24, (28.8, 23.5, 18.4)),
    "hand 3": Row("stylion-fingertip", 0.1899, 0.61, 36.91, (28.5, 23.3, 18.2)),
    "hand 4": Row("stylion-MET3", 0.0882, 0.61, 79.48, (61.4, 50.2, 39.2)),
    "thigh": Row("HJC-KJC", 0.4222, 14.16, 40.95, (32.9, 32.9, 14.9)),
    "shank": Row("KJC-lateral malleolus", 0.4340, 4.33, 44.59, (25.5, 24.9, 10.3)),
    "shank 2": Row("KJC-AJC", 0.4403, 4.33, 43.95, (25.1, 24.6, 10.2)),
    "shank 3": Row("KJC-sphyrion", 0.4277, 4.33, 45.24, (25.8, 25.3, 10.5)),
    "foot": Row("heel-toe tip", 0.2581, 1.37, 44.15, (25.7, 24.5, 12.4)),
}
FEMALE_PRINTED: Final[dict[str, Row]] = {  # de Leva 1996 table 4, females; see the head of this file
    "head": Row("vertex-mid gonion", 0.2002, 6.68, 58.94, (33.0, 35.9, 31.8)),
    "head 2": Row("vertex-C7", 0.2437, 6.68, 48.41, (27.1, 29.5, 26.1)),
    "trunk": Row("suprasternale-mid hip", 0.5293, 42.57, 41.51, (35.7, 33.9, 17.1)),
    "trunk 2": Row("C7-mid hip", 0.6148, 42.57, 49.64, (30.7, 29.2, 14.7)),
    "trunk 3": Row("mid shoulder-mid hip", 0.4979, 42.57, 37.82, (37.9, 36.1, 18.2)),
    "upper trunk": Row("suprasternale-xiphion", 0.1425, 15.45, 20.77, (74.6, 50.2, 71.8)),
    "upper trunk 2": Row("C7-xiphion", 0.2280, 15.45, 50.50, (46.6, 31.4, 44.9)),
    "mid trunk": Row("xiphion-navel", 0.2053, 14.65, 45.12, (43.3, 35.4, 41.5)),
    "lower trunk": Row("navel-mid hip", 0.1815, 12.47, 49.20, (43.3, 40.2, 44.4)),
    "upper arm": Row("SJC-EJC", 0.2751, 2.55, 57.54, (27.8, 26.0, 14.8)),
    "forearm": Row("EJC-WJC", 0.2643, 1.38, 45.59, (26.1, 25.7, 9.4)),
    "forearm 2": Row("EJC-stylion", 0.2624, 1.38, 45.92, (26.3, 25.9, 9.5)),
    "hand": Row("WJC-MET3", 0.0780, 0.56, 74.74, (53.1, 45.4, 33.5)),
    "hand 2": Row("WJC-fingertip", 0.1701, 0.56, 34.27, (24.4, 20.8, 15.4)),
    "hand 3": Row("stylion-fingertip", 0.1720, 0.56, 35.02, (24.1, 20.6, 15.2)),
    "hand 4": Row("stylion-MET3", 0.0799, 0.56, 75.34, (51.9, 44.3, 32.7)),
    "thigh": Row("HJC-KJC", 0.3685, 14.78, 36.12, (36.9, 36.4, 16.2)),
    "shank": Row("KJC-lateral malleolus", 0.4323, 4.81, 44.16, (27.1, 26.7, 9.3)),
    "shank 2": Row("KJC-AJC", 0.4386, 4.81, 43.52, (26.7, 26.3, 9.2)),
    "shank 3": Row("KJC-sphyrion", 0.4260, 4.81, 44.81, (27.5, 27.1, 9.4)),
    "foot": Row("heel-toe tip", 0.2283, 1.29, 40.14, (29.9, 27.9, 13.9)),
}
# fmt: on
PRINTED: Final[dict[Sex, dict[str, Row]]] = {"male": MALE_PRINTED, "female": FEMALE_PRINTED}
KNUCKLE_FRACTION: Final = MALE_PRINTED["hand"].length_m / MALE_PRINTED["hand 2"].length_m
"""Where the knuckle of the middle finger lies on the way from wrist to fingertip, men."""

ROW_OF: Final[dict[str, tuple[str, bool]]] = {
    "pelvis": ("lower trunk", True),
    "lower_trunk": ("mid trunk", True),
    "upper_trunk": ("upper trunk 2", True),
    "head": ("head 2", True),
    "upper_arm": ("upper arm", False),
    "forearm": ("forearm", False),
    "hand": ("hand 2", False),
    "thigh": ("thigh", False),
    "shank": ("shank 2", False),
    "foot": ("foot", False),
}
"""The row each of our parts is taken from, and whether our origin is the row's second endpoint."""


def _part(name: str, sex: Sex) -> Part:
    row_name, from_second = ROW_OF[name]
    row = PRINTED[sex][row_name]
    sagittal, transverse, longitudinal = (percent / 100.0 for percent in row.radii_percent)
    upright = (sagittal, transverse, longitudinal)
    com_fraction = row.com_percent / 100.0
    return Part(
        length_share=row.length_m / STATURE_M[sex],
        mass_fraction=row.mass_percent / 100.0,
        com_fraction=1.0 - com_fraction if from_second else com_fraction,
        radius_fraction=upright[::-1] if name == "foot" else upright,
    )


def shoulder_above_xiphion_m(sex: Sex) -> float:
    """Height of the shoulder line over the xiphion: row "trunk 3" less the rows under the xiphion [m]."""
    rows = PRINTED[sex]
    return rows["trunk 3"].length_m - rows["mid trunk"].length_m - rows["lower trunk"].length_m


def _table(sex: Sex) -> SegmentTable:
    parts = {name: _part(name, sex) for name in ROW_OF}
    return SegmentTable(f"de_leva_{sex}", SOURCE, sex, parts, shoulder_above_xiphion_m(sex) / STATURE_M[sex])


MALE: Final = _table("male")
FEMALE: Final = _table("female")
