"""Goals: each row whole and sound, patterns of all families, emphasis, dose along the wave."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.effort import rpe_of
from leanmark.dose.goals import (
    EMPHASIS,
    GOALS,
    PATTERNS,
    goal,
    pattern_of,
    recovery_h,
    wanted_share,
    with_emphasis,
)
from leanmark.dose.levels import LEVELS, level
from leanmark.dose.rep_max import reps_at
from leanmark.dose.stages import STAGES
from leanmark.dose.waves import WAVE_KINDS
from leanmark.errors import FieldError
from leanmark.moves.library import families

EVERY = pytest.mark.parametrize("name", GOALS)
HEIGHTS = st.floats(0.0, 1.0)
SUM = 1e-12
"""Some ten shares written with two decimals: rounding alone."""


def test_the_six_goals_and_the_four_levels() -> None:
    assert [*GOALS] == [
        "general strength", "strength-endurance", "power", "trunk", "return after a break", "sport emphasis",
    ]  # fmt: skip
    assert [*LEVELS] == ["new", "used to straps", "trained", "strong"]


def test_every_family_of_the_library_has_a_pattern() -> None:
    assert set(PATTERNS) == set(families())


@EVERY
def test_shares_sum_to_one_over_the_patterns(name: str) -> None:
    shares = GOALS[name].pattern_shares
    assert sum(shares.values()) == pytest.approx(1.0, abs=SUM)
    assert set(shares) == set(PATTERNS.values()) - {"mobility"}
    assert min(shares.values()) >= 0.0


@EVERY
def test_every_goal_is_sound(name: str) -> None:
    row = GOALS[name]
    assert row.reps[0] >= row.reps[1] >= 1
    assert row.reps_in_reserve[0] >= row.reps_in_reserve[1] >= 0
    assert 1 <= row.sets[0] <= row.sets[1] <= max(level.most_sets for level in LEVELS.values())
    assert row.hold_s[0] < row.hold_s[1]
    assert row.stages == STAGES[: len(row.stages)], "stages open in order"
    assert row.wave in WAVE_KINDS
    assert row.sources
    assert row.means


def test_no_ballistic_reps_in_return_after_a_break() -> None:
    assert "ballistic" not in GOALS["return after a break"].stages


@EVERY
@given(height=HEIGHTS)
def test_reps_and_reserve_say_the_wanted_load(name: str, height: float) -> None:
    """Whole reps and what is left in reserve are together the reps to failure at the wanted load."""
    row = GOALS[name]
    limit = row.reps_at(height) + row.reserve_at(height)
    # Epley and back: rounding alone.
    assert limit == pytest.approx(float(reps_at(wanted_share(row, height))), abs=1e-9)
    assert min(row.reps) <= row.reps_at(height) <= max(row.reps)
    assert 5.0 <= float(rpe_of(row.reserve_at(height))) <= 10.0


@EVERY
def test_the_load_climbs_with_the_wave(name: str) -> None:
    loads = [wanted_share(GOALS[name], height) for height in np.linspace(0.0, 1.0, 50)]
    assert (np.diff(loads) > 0.0).all()
    assert 0.5 < loads[0] < loads[-1] < 0.85


@given(families=st.sets(st.sampled_from([*PATTERNS])), name=st.sampled_from([*GOALS]))
def test_emphasis_doubles_patterns_against_the_others(families: set[str], name: str) -> None:
    before = GOALS[name].pattern_shares
    after = with_emphasis(GOALS[name], families).pattern_shares
    assert sum(after.values()) == pytest.approx(1.0, abs=SUM)
    more = {PATTERNS[family] for family in families}
    whole = sum(share * (EMPHASIS if pattern in more else 1.0) for pattern, share in before.items())
    for pattern, share in after.items():
        assert share * whole == pytest.approx(before[pattern] * (2.0 if pattern in more else 1.0))


def test_two_families_of_one_pattern_double_it_once() -> None:
    one = with_emphasis(GOALS["sport emphasis"], ["squat"])
    assert with_emphasis(GOALS["sport emphasis"], ["squat", "lunge"]) == one


@pytest.mark.parametrize(
    ("family", "hours"), [("horizontal pull", 48), ("squat", 48), ("hop and sprint", 48), ("rotation", 24),
                          ("calf and foot", 24), ("shoulder care", 24), ("mobility", 24)],
)  # fmt: skip
def test_recovery_by_family(family: str, hours: float) -> None:
    assert recovery_h(family) == hours


def test_unknown_names_are_refused() -> None:
    with pytest.raises(FieldError, match=r"goal = 'bulk'.*allowed: general strength"):
        goal("bulk")
    with pytest.raises(FieldError, match=r"level = 'pro'.*allowed: new"):
        level("pro")
    with pytest.raises(FieldError, match=r"family = 'curls'.*allowed: vertical pull"):
        pattern_of("curls")


@pytest.mark.parametrize("height", [-0.1, 1.1, float("nan")])
def test_heights_off_the_wave_are_refused(height: float) -> None:
    for ask in (GOALS["power"].reps_at, GOALS["power"].reserve_at, GOALS["power"].limit_at):
        with pytest.raises(FieldError, match=r"^height = .*allowed: 0 to 1"):
            ask(height)


def test_levels_rise() -> None:
    rows = [*LEVELS.values()]
    assert [row.capacity for row in rows] == sorted({row.capacity for row in rows})
    assert [row.most_sets for row in rows] == sorted(row.most_sets for row in rows)
    assert not LEVELS["new"].ballistic
    assert all(row.fast for row in rows if row.ballistic)
