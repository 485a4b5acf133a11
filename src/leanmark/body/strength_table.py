"""Reference joint strengths: isometric moments of healthy young adults, by joint, action and sex."""

from __future__ import annotations

from typing import Final, NamedTuple


class Reference(NamedTuple):
    """Mean isometric moment [N m] of young women and men in one action of one joint, and its source."""

    female_nm: float
    male_nm: float
    source: str


MEMORY: Final = "order of published isometric norms, from memory"

ACTIONS: Final[dict[str, tuple[tuple[str, str] | None, ...]]] = {
    "lumbar": (
        ("extension", "flexion"),
        ("side_bend_left", "side_bend_right"),
        ("rotation_right", "rotation_left"),
    ),
    "thoracic": (
        ("extension", "flexion"),
        ("side_bend_left", "side_bend_right"),
        ("rotation_right", "rotation_left"),
    ),
    "neck": (
        ("extension", "flexion"),
        ("side_bend_left", "side_bend_right"),
        ("rotation_right", "rotation_left"),
    ),
    "shoulder": (
        ("extension", "flexion"),
        ("adduction", "abduction"),
        ("external_rotation", "internal_rotation"),
    ),
    "elbow": (("extension", "flexion"), None, None),
    "wrist": (("extension", "flexion"), ("ulnar_deviation", "radial_deviation"), ("supination", "pronation")),
    "hip": (("extension", "flexion"), ("adduction", "abduction"), ("external_rotation", "internal_rotation")),
    "knee": (("extension", "flexion"), None, None),
    "ankle": (
        ("plantarflexion", "dorsiflexion"),
        ("inversion", "eversion"),
        ("internal_rotation", "external_rotation"),
    ),
    "toe_joint": (("flexion", "extension"), None, None),
}
"""Per joint and anatomical axis: the action in the negative and in the positive direction; None for an axis
on which ligament and bone carry the load."""

REFERENCES: Final[dict[tuple[str, str], Reference]] = {
    ("lumbar", "extension"): Reference(150.0, 260.0, MEMORY),
    ("lumbar", "flexion"): Reference(90.0, 160.0, MEMORY),
    ("lumbar", "side_bend_left"): Reference(95.0, 160.0, MEMORY),
    ("lumbar", "side_bend_right"): Reference(95.0, 160.0, MEMORY),
    ("lumbar", "rotation_left"): Reference(50.0, 90.0, MEMORY),
    ("lumbar", "rotation_right"): Reference(50.0, 90.0, MEMORY),
    ("thoracic", "extension"): Reference(150.0, 260.0, MEMORY),
    ("thoracic", "flexion"): Reference(90.0, 160.0, MEMORY),
    ("thoracic", "side_bend_left"): Reference(95.0, 160.0, MEMORY),
    ("thoracic", "side_bend_right"): Reference(95.0, 160.0, MEMORY),
    ("thoracic", "rotation_left"): Reference(50.0, 90.0, MEMORY),
    ("thoracic", "rotation_right"): Reference(50.0, 90.0, MEMORY),
    ("neck", "extension"): Reference(28.0, 45.0, MEMORY),
    ("neck", "flexion"): Reference(15.0, 25.0, MEMORY),
    ("neck", "side_bend_left"): Reference(20.0, 35.0, MEMORY),
    ("neck", "side_bend_right"): Reference(20.0, 35.0, MEMORY),
    ("neck", "rotation_left"): Reference(9.0, 15.0, MEMORY),
    ("neck", "rotation_right"): Reference(9.0, 15.0, MEMORY),
    ("shoulder", "extension"): Reference(50.0, 95.0, MEMORY),
    ("shoulder", "flexion"): Reference(42.0, 80.0, MEMORY),
    ("shoulder", "adduction"): Reference(45.0, 85.0, MEMORY),
    ("shoulder", "abduction"): Reference(37.0, 70.0, MEMORY),
    ("shoulder", "external_rotation"): Reference(20.0, 38.0, MEMORY),
    ("shoulder", "internal_rotation"): Reference(28.0, 55.0, MEMORY),
    ("elbow", "extension"): Reference(28.0, 55.0, MEMORY),
    ("elbow", "flexion"): Reference(38.0, 75.0, MEMORY),
    ("wrist", "extension"): Reference(6.5, 11.0, MEMORY),
    ("wrist", "flexion"): Reference(10.0, 17.0, MEMORY),
    ("wrist", "ulnar_deviation"): Reference(9.0, 15.0, MEMORY),
    ("wrist", "radial_deviation"): Reference(9.0, 15.0, MEMORY),
    ("wrist", "supination"): Reference(5.0, 10.0, MEMORY),
    ("wrist", "pronation"): Reference(5.0, 9.0, MEMORY),
    ("hip", "extension"): Reference(150.0, 230.0, MEMORY),
    ("hip", "flexion"): Reference(85.0, 130.0, MEMORY),
    ("hip", "adduction"): Reference(85.0, 130.0, MEMORY),
    ("hip", "abduction"): Reference(75.0, 110.0, MEMORY),
    ("hip", "external_rotation"): Reference(40.0, 60.0, MEMORY),
    ("hip", "internal_rotation"): Reference(40.0, 60.0, MEMORY),
    ("knee", "extension"): Reference(150.0, 230.0, MEMORY),
    ("knee", "flexion"): Reference(70.0, 110.0, MEMORY),
    ("ankle", "plantarflexion"): Reference(115.0, 160.0, MEMORY),
    ("ankle", "dorsiflexion"): Reference(30.0, 45.0, MEMORY),
    ("ankle", "inversion"): Reference(24.0, 35.0, MEMORY),
    ("ankle", "eversion"): Reference(21.0, 30.0, MEMORY),
    ("ankle", "internal_rotation"): Reference(28.0, 40.0, MEMORY),
    ("ankle", "external_rotation"): Reference(28.0, 40.0, MEMORY),
    ("toe_joint", "flexion"): Reference(8.0, 12.0, MEMORY),
    ("toe_joint", "extension"): Reference(4.0, 6.0, MEMORY),
}

REFERENCE_MASS_KG: Final = {"female": 62.0, "male": 78.0}  # young adults of the studies, from memory
REFERENCE_STATURE_M: Final = {"female": 1.67, "male": 1.79}  # likewise
AGE_SHARES: Final[tuple[tuple[float, float, str], ...]] = (
    (0.0, 1.00, "no reduction for the young beyond body size; own figure"),
    (40.0, 0.95, MEMORY),
    (50.0, 0.88, MEMORY),
    (60.0, 0.78, MEMORY),
    (70.0, 0.66, MEMORY),
)
"""From this age [years] on, strength as a share of a young adult's."""
