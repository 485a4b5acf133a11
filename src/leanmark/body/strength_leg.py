"""Reference strengths of hip, knee, ankle and toes."""

from __future__ import annotations

from typing import Final

from leanmark.body.strength_reference import YOUNG, Body, References, measured, of_anderson

ADDUCTION_OVER_ABDUCTION: Final = (
    1.14  # hip, isometric, 82 footballers, 1.16 and 1.12 in two groups: abstract
)
# in BMC Sports Sci Med Rehabil 2024, s13102-024-00838-0
TOE_EXTENSION_SHARE: Final = 0.4  # of toe flexion; own figure

_PER_KG: Final = (Body(1.0, YOUNG["female"].stature_m), Body(1.0, YOUNG["male"].stature_m))
"""Those measured, where a source gives N m per kg; statures own figure."""
_HIP_ABDUCTION: Final = measured(
    1.13,
    1.29,
    "20 women and 16 men, college athletes, N m per kg: Sugimoto et al. 2014, Clin J Sport Med 24:422; "
    "abstract",
    *_PER_KG,
    contraction="isokinetic, concentric, 60 deg/s",
)
_ANKLES: Final = Body(76.0, 1.72)  # BMI 25.8 as below; stature own figure
_ANKLE: Final = (
    "200 ankles of 69 men and 31 women, mean 38.5 years, BMI 25.8: da Fonseca et al. 2023, preprint 'New "
    "values of normal ankle strength'; abstract; both sexes by body size"
)
_ANKLE_MODE: Final = "isokinetic"
_INVERSION: Final = measured(34.8, 34.8, _ANKLE, _ANKLES, _ANKLES, _ANKLE_MODE)
_EVERSION: Final = measured(29.9, 29.9, _ANKLE, _ANKLES, _ANKLES, _ANKLE_MODE)
_TOE_FLEXION: Final = measured(
    14.2,
    14.2,
    "20 men at the best angle: Goldmann and Brüggemann 2012, J Anat 221:187; abstract; women by body size",
    YOUNG["male"],
    YOUNG["male"],
)
_MEMORY: Final = "order of published isometric norms, from memory"
_AS_TILT: Final = "own figure: as inversion and eversion"

LEG: Final[References] = {
    ("hip", "extension"): of_anderson("hip", "extension"),
    ("hip", "flexion"): of_anderson("hip", "flexion"),
    ("hip", "abduction"): _HIP_ABDUCTION,
    ("hip", "adduction"): _HIP_ABDUCTION.like(
        ADDUCTION_OVER_ABDUCTION, "hip abduction by ADDUCTION_OVER_ABDUCTION"
    ),
    ("hip", "internal_rotation"): measured(40.0, 60.0, _MEMORY),
    ("hip", "external_rotation"): measured(40.0, 60.0, _MEMORY),
    ("knee", "extension"): of_anderson("knee", "extension"),
    ("knee", "flexion"): of_anderson("knee", "flexion"),
    ("ankle", "plantarflexion"): of_anderson("ankle", "plantarflexion"),
    ("ankle", "dorsiflexion"): of_anderson("ankle", "dorsiflexion"),
    ("ankle", "inversion"): _INVERSION,
    ("ankle", "eversion"): _EVERSION,
    ("ankle", "internal_rotation"): _INVERSION.like(1.0, _AS_TILT),
    ("ankle", "external_rotation"): _EVERSION.like(1.0, _AS_TILT),
    ("toe_joint", "flexion"): _TOE_FLEXION,
    ("toe_joint", "extension"): _TOE_FLEXION.like(TOE_EXTENSION_SHARE, "own figure: TOE_EXTENSION_SHARE"),
}
