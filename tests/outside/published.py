"""Published figures that the model is held against, as printed, with what may lie between them and the model.

Bands and their grounds were written down before the model was run on these positions. No number here is
tuned to, and none is left out because the model misses it. What has no band says why.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

Band = tuple[float, float]


@dataclass(frozen=True)
class Published:
    """One published figure.

    printed: as in the source. measured: its number, in ``unit``. band: least and greatest value of model
    less measured that the stated limits of model and source allow; None where it is shown and not judged.
    """

    study: str
    what: str
    printed: str
    measured: float
    unit: str
    band: Band | None
    ground: str


@dataclass(frozen=True)
class Miss:
    """A figure that the model misses: between which values model less measured lies, and why. Written after
    the run; the band that is missed stays as it was."""

    low: float
    high: float
    why: str


SUPRAK: Final = "Suprak et al. 2011, J Strength Cond Res 25(2):497; exact figures from memory, rounded seen"
GOUVALI: Final = "Gouvali and Boudolos 2005, J Strength Cond Res 19(1):146; 8 men; abstract"
EBBEN: Final = (
    "Ebben et al. 2011, J Strength Cond Res 25(10):2891; 14 men, 9 women; heights from the abstract, numbers "
    "second-hand"
)
GULMEZ: Final = "Gulmez 2017, J Strength Cond Res 31(4):1017; 28 men of 179.4 cm and 78.8 kg; abstract"
MELROSE: Final = "Melrose and Dawes 2015, J Athl Enhanc; 40 students, both sexes; abstract"
TEXTBOOK: Final = "textbooks, from memory"

PERCENT: Final = "% of body weight"
RATIO: Final = "ratio"
STATURE: Final = "share of stature"

TOES: Final = (
    "mass centre ±0.01 of stature (docs/body.md): 1.2; toes bear within ±5 cm: 1.3; hands along the body "
    "within ±5 cm, which no study states: 2.4 of 70 on a lever of 1.45 m"
)
KNEES: Final = (
    "as from the toes, on a lever of 0.93 m: mass centre 1.9; knees bear within ±2 cm: 1.2; hands within "
    "±5 cm: 2.9"
)
KNEES_RATIO: Final = (
    "hands move both loads alike, apart from 2 % by the shorter lever; mass centre 2 %; toes and knees 4 %"
)
DEPTH: Final = "hands stay put, so only the slopes of the body count: depth and top within ±5 cm of height"
PEAK: Final = "peak of a moving rep at a pace not stated, so only their order is judged"
STEEP: Final = (
    "an untuned rigid lever lies 4–7 points off over the series: anchor height, place of the feet under it "
    "and pressure under the soles are not stated"
)
DEFINITION: Final = "the choice of segment endpoints moves it by 0.01 (docs/body.md)"

PUSH_UPS: Final[dict[str, Published]] = {
    "toes, arms straight": Published(
        SUPRAK, "push-up from the toes, arms straight", "69.16", 69.16, PERCENT, (-5, 5), TOES
    ),
    "toes, elbows bent": Published(
        SUPRAK, "push-up from the toes, elbows bent", "75.04", 75.04, PERCENT, (-5, 5), TOES
    ),
    "knees, arms straight": Published(
        SUPRAK, "push-up from the knees, arms straight", "53.56", 53.56, PERCENT, (-6, 6), KNEES
    ),
    "knees, elbows bent": Published(
        SUPRAK, "push-up from the knees, elbows bent", "61.80", 61.80, PERCENT, (-6, 6), KNEES
    ),
    "knees to toes, arms straight": Published(
        SUPRAK, "knees over toes, arms straight", "53.56 / 69.16", 0.774, RATIO, (-0.06, 0.06), KNEES_RATIO
    ),
    "knees to toes, elbows bent": Published(
        SUPRAK, "knees over toes, elbows bent", "61.80 / 75.04", 0.824, RATIO, (-0.06, 0.06), KNEES_RATIO
    ),
    "bent to straight, toes": Published(
        SUPRAK, "elbows bent over arms straight, toes", "75.04 / 69.16", 1.085, RATIO, (-0.03, 0.03), DEPTH
    ),
    "bent to straight, knees": Published(
        SUPRAK, "elbows bent over arms straight, knees", "61.80 / 53.56", 1.154, RATIO, (-0.05, 0.05), DEPTH
    ),
    "toes, initial": Published(
        GOUVALI, "push-up from the toes, at the start", "66.4", 66.4, PERCENT, (-5, 5), TOES
    ),
    "knees, initial": Published(
        GOUVALI, "push-up from the knees, at the start", "52.9", 52.9, PERCENT, (-6, 6), KNEES
    ),
    "knees to toes, initial": Published(
        GOUVALI, "knees over toes, at the start", "52.9 / 66.4", 0.797, RATIO, (-0.06, 0.06), KNEES_RATIO
    ),
    "hands on 0.61 m": Published(EBBEN, "hands on a box of 60.96 cm", "41", 41.0, PERCENT, None, PEAK),
    "from the knees": Published(EBBEN, "from the knees", "49", 49.0, PERCENT, None, PEAK),
    "hands on 0.30 m": Published(EBBEN, "hands on a box of 30.48 cm", "55", 55.0, PERCENT, None, PEAK),
    "from the toes": Published(EBBEN, "from the toes", "64", 64.0, PERCENT, None, PEAK),
    "feet on 0.30 m": Published(EBBEN, "feet on a box of 30.48 cm", "70", 70.0, PERCENT, None, PEAK),
    "feet on 0.61 m": Published(EBBEN, "feet on a box of 60.96 cm", "74", 74.0, PERCENT, None, PEAK),
    "knees to toes, peak": Published(
        EBBEN, "knees over toes, peak", "49 / 64", 0.766, RATIO, (-0.06, 0.06), KNEES_RATIO
    ),
}
"""Share of body weight under the hands."""

EBBEN_ORDER: Final = (
    "hands on 0.61 m",
    "from the knees",
    "hands on 0.30 m",
    "from the toes",
    "feet on 0.30 m",
    "feet on 0.61 m",
)
"""Easiest to hardest, as measured."""

STRAP_PRESS: Final[dict[str, Published]] = {
    "straps, body level, elbows bent": Published(
        GULMEZ, "push-up in the straps, body level, elbows bent", "75.3", 75.3, PERCENT, (-5, 5), TOES
    ),
    "straps, body level, arms straight": Published(
        GULMEZ,
        "push-up in the straps, body level, arms straight",
        "50.4",
        50.4,
        PERCENT,
        None,
        "no floor study and no level lever comes near it; the straps can hardly have hung upright, and the "
        "geometry is not in the abstract: shown only",
    ),
}
"""Sum of both straps."""

ROWS: Final[dict[float, Published]] = {
    lean_deg: Published(
        MELROSE, f"row, arms straight, {lean_deg:g}° from the vertical", printed, share, PERCENT, None, STEEP
    )
    for lean_deg, printed, share in (
        (30.0, "37.44 ± 1.45", 37.44),
        (45.0, "52.88 ± 0.59", 52.88),
        (60.0, "68.08 ± 1.95", 68.08),
        (75.0, "79.38 ± 2.14", 79.38),
    )
}
"""One dynamometer at the anchor, feet under it, by lean [deg]."""

ROW_SERIES: Final = Published(
    MELROSE, "the four rows together, root mean square of the misses", "–", 0.0, PERCENT, (0, 7), STEEP
)

STANDING: Final[dict[str, Published]] = {
    "male": Published(
        TEXTBOOK,
        "mass centre of standing men above the floor",
        "0.56–0.57",
        0.565,
        STATURE,
        (-0.015, 0.015),
        DEFINITION,
    ),
    "female": Published(
        TEXTBOOK,
        "mass centre of standing women above the floor",
        "0.55",
        0.55,
        STATURE,
        (-0.01, 0.01),
        DEFINITION,
    ),
}


SHALLOW: Final = (
    "with the elbows at a right angle the model's chest is still 0.30 m above the floor and its feet stay; "
    "people go lower and rock forward over their toes. A mass centre 1 cm further ahead adds 0.8 % of body "
    "weight, so some 5 cm would close the gap. From the knees the lever is shorter, and depth counts for "
    "more"
)
PEAKS: Final = (
    "the largest load of the model's rep held still, elbows bent, stands here for a moving rep's peak. The "
    "49 % from the knees lie below the 53–54 % that the two other studies measured in people holding still"
)
MISSES: Final[dict[str, Miss]] = {
    "bent to straight, toes": Miss(-0.09, -0.03, SHALLOW),
    "knees to toes, elbows bent": Miss(0.06, 0.09, SHALLOW),
    "knees to toes, peak": Miss(0.06, 0.16, PEAKS),
}
"""Known misses, by key."""

OUT_OF_ORDER: Final = ("from the knees", "hands on 0.30 m")
"""The one pair of EBBEN_ORDER that the model puts the other way round: see PEAKS."""
