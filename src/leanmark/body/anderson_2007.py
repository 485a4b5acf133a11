"""Greatest isometric moments of the leg by sex and age, by Anderson, Madigan and Nussbaum.

Source of every number here: Anderson DE, Madigan ML, Nussbaum MA. 2007. Maximum voluntary joint torque as
a function of joint angle and angular velocity: model development and application to the lower limb. J
Biomech 40:3105-3113, table 3, parameter C1, read in the source of a public dynamics library that cites the
table, not in the paper.

C1 is the isometric moment at the best joint angle over body weight times stature. What the paper adds for
other angles and for speed is not used here.
"""

from __future__ import annotations

from typing import Final

from leanmark.body.build import Sex

GRAVITY_M_S2: Final = 9.81  # as the copy we read takes the moments out of their normalised form
AGE_GROUPS: Final = ("18 to 25", "55 to 65", "over 65")  # years; Anderson et al. 2007

C1: Final[dict[tuple[str, str], dict[Sex, tuple[float, float, float]]]] = {
    # Anderson et al. 2007 table 3; columns in the order of AGE_GROUPS
    ("hip", "extension"): {"male": (0.161, 0.171, 0.144), "female": (0.181, 0.140, 0.138)},
    ("hip", "flexion"): {"male": (0.113, 0.107, 0.101), "female": (0.127, 0.091, 0.081)},
    ("knee", "extension"): {"male": (0.163, 0.156, 0.137), "female": (0.159, 0.128, 0.124)},
    ("knee", "flexion"): {"male": (0.087, 0.081, 0.069), "female": (0.080, 0.060, 0.060)},
    ("ankle", "plantarflexion"): {"male": (0.095, 0.114, 0.106), "female": (0.104, 0.093, 0.125)},
    ("ankle", "dorsiflexion"): {"male": (0.033, 0.028, 0.029), "female": (0.027, 0.024, 0.022)},
}


def moment_per_size(joint: str, action: str, sex: Sex) -> float:
    """Moment of an 18 to 25 year old over body mass times stature [N m / (kg m)].

    Raises KeyError for an action that is not in the table.
    """
    return C1[joint, action][sex][0] * GRAVITY_M_S2
