"""Anchor and floor figures against what is published, source by source."""

from __future__ import annotations

import numpy as np
import pytest

from leanmark.rig.anchor_check import OVER, WITHIN, WORK_AT_HEIGHT, check_anchor
from leanmark.rig.floors import CAUTION_FRICTION, FLOORS

# Friction as printed: (low, high) of each source, and the preset that claims to stand for it.
#   ANSI A326.3: wet dynamic coefficient at least 0.42 for level interior floors, 0.42-0.55 by use in the 2022
#     edition (both as quoted by trade pages);
#   Blanchette & Powers 2015: shoes on wet porcelain tile, 0.080-0.344 (abstract);
#   DIN 18032-2 sports halls, sliding 0.4-0.6 (from memory);
#   dry rubber on glazed tile 0.90-0.95 (a trade page, weak source).
PUBLISHED_FRICTION = [
    ("tile made for wet use", 0.42, 0.55),
    ("wet smooth tile", 0.080, 0.344),
    ("dry gym floor", 0.4, 0.6),
    ("dry gym floor, cautious", 0.4, 0.6),
    (
        "wet or dusty floor",
        0.080,
        0.40,
    ),  # from wet porcelain to "low < .4" of ANSI/NFSI B101.1
]


@pytest.mark.parametrize(("preset", "low", "high"), PUBLISHED_FRICTION)
def test_presets_lie_inside_the_published_band(preset: str, low: float, high: float) -> None:
    assert low <= FLOORS[preset].friction <= high


def test_the_rubber_preset_stays_below_the_printed_dry_rubber_figure() -> None:
    assert FLOORS["dry rubber mat"].friction < 0.90


def test_the_caution_begins_where_the_walkway_standard_says_low() -> None:
    # ANSI/NFSI B101.1: high >= 0.6, moderate 0.4-0.6, low < 0.4 (as quoted by a trade page)
    assert CAUTION_FRICTION == 0.4


def test_yardsticks_are_those_of_en_795() -> None:
    # EN 795:2012: static 12 kN, 18 kN with any non-metallic load-bearing part (satra.com)
    assert WORK_AT_HEIGHT["metal"].force_n == 12_000
    assert WORK_AT_HEIGHT["other"].force_n == 18_000


# Gymnastic rings, swing to hold, peak 102.3-120.4 % of body weight (Sports Biomech 2025, 24:938, abstract);
# backward long swing, more than 9 body weights of cable tension (Brewin 2000, thesis abstract).
RINGS_SWING_TO_HOLD = (1.023, 1.204)
RINGS_LONG_SWING = 9.0


def test_a_heavy_athlete_on_rings_stands_within_a_12_kn_rating_and_a_long_swing_does_not() -> None:
    # 105 kg is the heaviest of the demo squad; 9.80665 m/s2 is standard gravity
    weight_n = 105 * 9.80665
    peaks_n = weight_n * np.array([*RINGS_SWING_TO_HOLD, RINGS_LONG_SWING])
    check = check_anchor([peaks_n], rated_load_n=WORK_AT_HEIGHT["metal"].force_n, pace="ballistic")
    assert check.verdict[:2].tolist() == [WITHIN, WITHIN]
    assert check.verdict[2] != WITHIN


def test_two_on_a_beam_with_a_door_hook_rating_are_over_it() -> None:
    # two people of the Gulmez 2017 sample's mean mass, 78.8 kg, at his 75.3 % of body weight (bent elbows)
    each_n = 0.753 * 78.8 * 9.80665
    check = check_anchor([each_n, each_n], rated_load_n=1000.0, pace="held")  # 1000 N: an invented rating
    assert check.verdict == OVER
