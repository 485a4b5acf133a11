"""Reference strengths of the neck and the trunk."""

from __future__ import annotations

from typing import Final

from leanmark.body.strength_reference import Reference, References, measured

POUND_FOOT_NM: Final = 1.3558179483  # NIST SP 811 (2008) appendix B.8, pound-force foot
NECK_MEN_OVER_WOMEN: Final = 1.45  # middle of the 1.2 to 1.7 of 91 people, abstract "Maximal isometric muscle
# strength of the cervical spine in healthy volunteers" (Chiu et al. 2002, Clin Rehabil 16:772, from memory)

_EXTENSORS: Final = (
    "J Korean Acad Rehabil Med 1997 21(1):1, lumbar extensors of 70 men and 30 women near 50 years, 164 and "
    "105 ft-lb at 12 of 72 deg flexion, the angle nearest to standing; abstract"
)
_SURVEY: Final = "order of McNeill et al. 1980, Spine 5:529, from memory"
_MEMORY: Final = "order of published isometric norms, from memory"
_NECK: Final = (
    "nine men, abstract 'Prediction of three-dimensional maximum isometric neck strength', 2014, "
    "doi 10.1007/s10439-014-1046-0; women by NECK_MEN_OVER_WOMEN"
)


def _neck(men_nm: float) -> Reference:
    return measured(men_nm / NECK_MEN_OVER_WOMEN, men_nm, _NECK)


_LUMBAR: Final[dict[str, Reference]] = {
    "extension": measured(105.0 * POUND_FOOT_NM, 164.0 * POUND_FOOT_NM, _EXTENSORS),
    "flexion": measured(85.0, 150.0, _SURVEY),
    "side_bend_left": measured(85.0, 145.0, _SURVEY),
    "side_bend_right": measured(85.0, 145.0, _SURVEY),
    "rotation_left": measured(45.0, 80.0, _MEMORY),
    "rotation_right": measured(45.0, 80.0, _MEMORY),
}

TRUNK: Final[References] = {
    **{("lumbar", action): row for action, row in _LUMBAR.items()},
    **{
        ("thoracic", action): row.like(1.0, "own figure: as lumbar, which the same muscles cross")
        for action, row in _LUMBAR.items()
    },
    ("neck", "extension"): _neck(51.0),
    ("neck", "flexion"): _neck(30.0),
    ("neck", "side_bend_left"): _neck(32.0),
    ("neck", "side_bend_right"): _neck(32.0),
    ("neck", "rotation_left"): _neck(13.0),
    ("neck", "rotation_right"): _neck(13.0),
}
