"""The rig: defaults from the anchor height, named settings, and what is refused."""

from __future__ import annotations

import copy
import pickle
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.errors import FieldError
from leanmark.rig.ranges import RIG_RANGES
from leanmark.rig.rig import Rig, standard_rig
from leanmark.rig.settings import DEFAULT_SETTINGS, HANDLE_CLEARANCE_M

BEAM: dict[str, Any] = {
    "name": "beam",
    "anchor_height_m": 2.45,
    "strap_shortest_m": 0.9,
    "strap_longest_m": 2.2,
    "settings_m": {"long": 2.15},
}


@given(anchor_height_m=st.floats(min_value=1.5, max_value=5.9))
def test_default_settings_hang_the_grip_at_their_stated_height(anchor_height_m: float) -> None:
    rig = standard_rig(anchor_height_m)
    heights_m = {row.name: row.grip_height_m for row in DEFAULT_SETTINGS}
    assert "long" in rig.settings_m
    for name in rig.settings_m:
        # lengths are rounded to 0.1 mm, so the height may be half of that off
        assert rig.grip_height_m(name) == pytest.approx(heights_m[name], abs=0.6e-4)


@given(anchor_height_m=st.floats(min_value=1.5, max_value=5.9))
def test_the_longest_default_strap_hangs_clear_of_the_floor(anchor_height_m: float) -> None:
    rig = standard_rig(anchor_height_m)
    # as above: half of the 0.1 mm to which the length is rounded
    clear_m = anchor_height_m - rig.strap_longest_m - rig.handle_offset_m
    assert clear_m == pytest.approx(HANDLE_CLEARANCE_M, abs=0.6e-4)


def test_the_highest_anchor_has_straps_as_long_as_straps_may_be() -> None:
    highest_m = RIG_RANGES["anchor_height_m"].high
    assert standard_rig(highest_m).strap_longest_m == RIG_RANGES["strap_longest_m"].high


def test_cradles_hang_higher_than_grips_by_the_difference_of_their_offsets() -> None:
    rig = standard_rig(2.45)
    for name in rig.settings_m:
        difference_m = rig.cradle_height_m(name) - rig.grip_height_m(name)
        assert difference_m == pytest.approx(rig.handle_offset_m - rig.cradle_offset_m, abs=1e-12)


def test_given_settings_are_added_to_the_defaults_and_win() -> None:
    rig = standard_rig(2.45, settings_m={"long": 2.15, "chest": 1.0})
    assert rig.settings_m["long"] == 2.15
    assert rig.settings_m["chest"] == 1.0
    assert "mid-shin" in rig.settings_m


def test_a_low_anchor_has_no_setting_shorter_than_the_strap() -> None:
    assert list(standard_rig(1.5).settings_m) == ["long", "mid-shin", "below the knee"]


def test_a_given_short_setting_lowers_the_shortest_strap() -> None:
    assert standard_rig(2.45, settings_m={"chest": 0.6}).strap_shortest_m == 0.6


def test_the_floor_preset_gives_the_friction_unless_measured() -> None:
    assert standard_rig(2.4, floor_name="wet or dusty floor").floor_friction == 0.3
    assert standard_rig(2.4, floor_name="our hall", floor_friction=0.52).floor_friction == 0.52


def test_settings_are_the_rigs_own_and_survive_copies() -> None:
    given_m = {"long": 2.15}
    rig = Rig(**(BEAM | {"settings_m": given_m}))
    given_m["long"] = 9.0
    assert rig.settings_m == {"long": 2.15}
    assert pickle.loads(pickle.dumps(rig)) == rig == copy.deepcopy(rig)


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"anchor_height_m": 1.49}, "anchor_height_m", "1.5–6"),
        ({"anchor_height_m": 6.01}, "anchor_height_m", "1.5–6"),
        ({"anchor_height_m": float("nan")}, "anchor_height_m", "measure from the floor"),
        ({"strap_shortest_m": 2.2}, "strap_shortest_m", "below strap_longest_m = 2.2"),
        ({"strap_longest_m": 2.31}, "strap_longest_m", "at most 2.3 under an anchor at 2.45 m"),
        ({"settings_m": {"long": 2.5}}, "settings_m.long", "lays the handle on the floor"),
        ({"settings_m": {"long": 2.25}}, "settings_m.long", "0.9–2.2, the strap's own range"),
        ({"settings_m": {"tiny": 0.0}}, "settings_m.tiny", "0.2–5.8"),
        ({"settings_m": {"odd": float("nan")}}, "settings_m.odd", "0.2–5.8"),
        ({"floor_friction": 0.04}, "floor_friction", "0.05–1.2"),
        ({"floor_friction": float("inf")}, "floor_friction", "0.05–1.2"),
        ({"loop_friction": -0.1}, "loop_friction", "0–0.6"),
        ({"rated_load_n": 12}, "rated_load_n", "500–200000"),
        ({"rated_load_n": 0.0}, "rated_load_n", "maker's rating"),
        ({"anchor_count": 0}, "anchor_count", "1–200"),
        ({"handle_offset_m": float("nan")}, "handle_offset_m", "0–0.4"),
        ({"strap_mode": "bungee"}, "strap_mode", "independent or slipping loop"),
    ],
)
def test_a_wrong_value_is_refused_with_field_range_and_remedy(
    change: dict[str, Any], field: str, says: str
) -> None:
    with pytest.raises(FieldError) as caught:
        Rig(**(BEAM | change))
    assert caught.value.field == field
    assert says in str(caught.value)
    assert caught.value.remedy


def test_a_bad_setting_is_named_also_when_the_shortest_strap_is_derived() -> None:
    with pytest.raises(FieldError, match=r"settings_m\.tiny = 0\.05"):
        standard_rig(2.45, settings_m={"tiny": 0.05})


def test_a_bad_offset_is_named_also_when_the_longest_strap_is_derived() -> None:
    with pytest.raises(FieldError, match="handle_offset_m = nan"):
        standard_rig(2.45, handle_offset_m=float("nan"))


def test_an_unknown_setting_lists_the_known_ones() -> None:
    with pytest.raises(FieldError, match=r"setting = 'knee'.*long"):
        Rig(**BEAM).grip_height_m("knee")


def test_an_unknown_floor_lists_the_presets() -> None:
    with pytest.raises(FieldError, match='"dry gym floor"'):
        standard_rig(2.45, floor_name="ice")


def test_every_range_gives_its_reason() -> None:
    for name, allowed in RIG_RANGES.items():
        assert allowed.low < allowed.high, name
        assert allowed.reason, name
