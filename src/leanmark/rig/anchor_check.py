"""Peak force on an anchor against the maker's rating, with a stated safety factor.

The check compares numbers; it inspects nothing. The maker's instructions and local codes decide, and the
fixing and the structure behind the anchor need someone qualified to judge them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from leanmark.errors import FieldError

Pace = Literal["held", "tempo", "ballistic"]


@dataclass(frozen=True)
class PaceFactor:
    """The default safety factor for forces computed at one pace, and its ground."""

    factor: float
    ground: str


PACE_FACTORS: Final[dict[Pace, PaceFactor]] = {
    "held": PaceFactor(
        2.5, "own figure: a 0.6 s pull peaks at up to 2.10 × the held force (own model), rounded up"
    ),
    "tempo": PaceFactor(
        2.0, "own figure: 0.6 s instead of 1.0 s peaks at 2.10 / 1.23 = 1.7 × (own model), rounded up"
    ),
    "ballistic": PaceFactor(1.5, "own figure: the spread between quick reps of one person"),
}


@dataclass(frozen=True)
class Yardstick:
    """A published strength requirement for anchors of another trade."""

    force_n: float
    stands_for: str
    source: str


_EN_795: Final = "EN 795:2012, as summarised by a test house (satra.com)"
WORK_AT_HEIGHT: Final[dict[str, Yardstick]] = {
    "metal": Yardstick(12_000.0, "static test of a metal anchor for one user, held 3 min", _EN_795),
    "other": Yardstick(18_000.0, "the same where a load-bearing part is not metal", _EN_795),
}
DEFERENCE: Final = (
    "The maker's instructions and local codes decide; "
    "have the fixing and the beam judged by someone qualified."
)
YARDSTICK_NOTE: Final = (
    f"Anchors for work at height are tested with {WORK_AT_HEIGHT['metal'].force_n / 1000:g} kN "
    f"({WORK_AT_HEIGHT['other'].force_n / 1000:g} kN where a part is not metal; EN 795:2012): "
    "a yardstick, not a rule for strap training."
)

WITHIN: Final = "within the rating"
OVER_WITH_FACTOR: Final = "over the rating once the safety factor is counted"
OVER: Final = "over the rating"
UNKNOWN: Final = "rating unknown"


@dataclass(frozen=True)
class AnchorCheck:
    """The answer for each position or rep; all arrays have the shape of one person's peaks.

    Attributes:
        peak_n: summed peak force on the anchor.
        needed_n: ``peak_n`` times the safety factor, the force to compare with a rating.
        share_of_rating: ``needed_n`` over the rating, None when the rating is unknown.
        verdict: one of the four phrases of this module.
        rated_load_n, safety_factor: what was compared with, and the factor used.
    """

    peak_n: NDArray[np.float64]
    needed_n: NDArray[np.float64]
    share_of_rating: NDArray[np.float64] | None
    verdict: NDArray[np.str_]
    rated_load_n: float | None
    safety_factor: float

    def words(self) -> str:
        """The hardest case in one sentence, then who decides."""
        worst = int(np.argmax(self.peak_n))
        needed_kn, verdict = self.needed_n.flat[worst] / 1000, self.verdict.flat[worst]
        sum_words = (
            f"Peak {self.peak_n.flat[worst] / 1000:.2f} kN with a safety factor of {self.safety_factor:g} "
            f"asks for {needed_kn:.2f} kN"
        )
        if self.rated_load_n is None or self.share_of_rating is None:
            tail = f": {verdict}, compare this force with the maker's figure before use. {YARDSTICK_NOTE}"
        else:
            share = f"{100 * self.share_of_rating.flat[worst]:.0f} %"
            tail = f", {share} of the maker's {self.rated_load_n / 1000:g} kN: {verdict}."
            tail += (
                ""
                if verdict == WITHIN
                else " Do not use it so: fewer people, a gentler move, or a stronger anchor."
            )
        return f"{sum_words}{tail} {DEFERENCE}"


def check_anchor(
    peaks_n: ArrayLike, rated_load_n: float | None, pace: Pace = "tempo", safety_factor: float | None = None
) -> AnchorCheck:
    """Compare peak anchor forces with the maker's rating.

    People on one rated point (or one rated beam) are taken to peak at the same instant, the worst case.

    Args:
        peaks_n: peak force of each person [N], shape (people, ...) or a single number for one person.
        rated_load_n: the maker's rating of that point or beam [N], None when unknown.
        pace: how the forces were computed: for held positions, over a tempo, or for ballistic reps.
        safety_factor: at least 1; the factor of ``PACE_FACTORS`` when left out.

    Raises:
        FieldError: no forces, a force that is negative or not finite, a rating that is not positive, an
            unknown pace, or a factor below 1.
    """
    peaks = np.atleast_1d(np.asarray(peaks_n, dtype=np.float64))
    _check_inputs(peaks, rated_load_n, pace, safety_factor)
    factor = PACE_FACTORS[pace].factor if safety_factor is None else safety_factor
    peak_n = np.asarray(peaks.sum(axis=0))
    needed_n = np.asarray(factor * peak_n)
    if rated_load_n is None:
        return AnchorCheck(peak_n, needed_n, None, np.full(peak_n.shape, UNKNOWN), None, factor)
    verdict = np.where(
        peak_n > rated_load_n, OVER, np.where(needed_n > rated_load_n, OVER_WITH_FACTOR, WITHIN)
    )
    return AnchorCheck(peak_n, needed_n, np.asarray(needed_n / rated_load_n), verdict, rated_load_n, factor)


def _check_inputs(
    peaks_n: NDArray[np.float64], rated_load_n: float | None, pace: str, safety_factor: float | None
) -> None:
    if peaks_n.size == 0:
        raise FieldError(
            "peaks_n", peaks_n.shape, "one force or more", "leave out the check when nobody pulls"
        )
    wrong = peaks_n[~(np.isfinite(peaks_n) & (peaks_n >= 0))]
    if wrong.size:
        raise FieldError(
            "peaks_n", float(wrong[0]), "finite and not negative", "leave out positions that were not solved"
        )
    if rated_load_n is not None and not 0 < rated_load_n < np.inf:
        raise FieldError(
            "rated_load_n", rated_load_n, "above 0", "copy the maker's rating, or None when unknown"
        )
    if pace not in PACE_FACTORS:
        raise FieldError("pace", pace, ", ".join(PACE_FACTORS), "say how the forces were computed")
    if safety_factor is not None and not 1 <= safety_factor < np.inf:
        raise FieldError(
            "safety_factor", safety_factor, "1 or more", "leave it out to use the pace's own factor"
        )
