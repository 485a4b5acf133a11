"""Reference strengths of shoulder, elbow and wrist."""

from __future__ import annotations

from typing import Final

from leanmark.body.strength_reference import (
    ISOKINETIC,
    ISOMETRIC,
    Body,
    Reference,
    References,
    measured,
    of_harbo,
)

EXTENSION_OVER_FLEXION: Final = 1.25  # 5:4, isokinetic, 31 people: abstract "Isokinetic testing of shoulder
# strength: normal values", Arch Phys Med Rehabil 1985 66:384
WOMEN_OVER_MEN_WRIST: Final = (
    0.641  # isokinetic, 20 women and 20 men: abstract "Isokinetic strength profile of
)
# the wrist muscles", J Funct Morphol Kinesiol 2025 10(4):377

_FLEXION: Final = measured(
    0.5 * 68.6,
    68.6,
    "26 young men at 45 deg flexion, 25 women about half of that: abstract 'Dynamic shoulder flexion "
    "strength for use in occupational risk analysis and clinical assessment'",
)
_ROTATION: Final = (
    "15 women and 15 men: abstract 'Strength curve comparisons between gender for shoulder internal and "
    "external rotation'"
)
_ROTATION_WOMEN: Final = Body(70.1, 1.685)  # of that abstract
_ROTATION_MEN: Final = Body(85.4, 1.785)  # of that abstract
_FOREARM: Final = "Askew et al. 1987, Clin Orthop 222:261, from memory"


def _wrist(men_nm: float) -> Reference:
    source = (
        "ten men, abstract; Delp et al. 1996, J Biomech 29:1371 (citation from memory); women by "
        "WOMEN_OVER_MEN_WRIST"
    )
    return measured(WOMEN_OVER_MEN_WRIST * men_nm, men_nm, source)


ARM: Final[References] = {
    ("shoulder", "flexion"): _FLEXION,
    ("shoulder", "extension"): _FLEXION.like(
        EXTENSION_OVER_FLEXION, "shoulder flexion by EXTENSION_OVER_FLEXION"
    ),
    ("shoulder", "abduction"): of_harbo("shoulder", "abduction", ISOMETRIC),
    ("shoulder", "adduction"): of_harbo("shoulder", "adduction", ISOKINETIC),
    ("shoulder", "internal_rotation"): measured(24.7, 54.6, _ROTATION, _ROTATION_WOMEN, _ROTATION_MEN),
    ("shoulder", "external_rotation"): measured(20.4, 39.6, _ROTATION, _ROTATION_WOMEN, _ROTATION_MEN),
    ("elbow", "flexion"): of_harbo("elbow", "flexion", ISOMETRIC),
    ("elbow", "extension"): of_harbo("elbow", "extension", ISOKINETIC),
    ("wrist", "flexion"): of_harbo("wrist", "flexion", ISOMETRIC),
    ("wrist", "extension"): of_harbo("wrist", "extension", ISOKINETIC),
    ("wrist", "radial_deviation"): _wrist(11.0),
    ("wrist", "ulnar_deviation"): _wrist(9.5),
    ("wrist", "pronation"): measured(3.5, 7.2, _FOREARM),
    ("wrist", "supination"): measured(4.3, 8.9, _FOREARM),
}
