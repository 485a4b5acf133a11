"""What a move file inherits by ``like`` and by its family, laid out."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.errors import FieldError
from leanmark.moves.inherit import laid_out, merged

FAMILIES = {"pull": {"family": "pull", "breathing": "out while pulling", "stop": ["pain"]}}
POSES = {
    "hands on hips": {"elbow": {"flexion": 100}, "wrist": {"pronation": 150}},
    "arms long": {"elbow": {"flexion": 3}},
}
SET_UPS: dict[str, dict[str, Any]] = {
    "facing": {"kit": "handles", "firm": {"hip": "locked", "knee": "locked"}, "stop": ["feet that slip"]},
    "leaning": {"like": "facing", "firm": {"hip": "soft"}, "cues": ["long", "straight"]},
    "tow": {
        "move": "tow",
        "family": "pull",
        "strap": "short",
        "rungs": [{"rung": "upright", "note": "easy"}, {"rung": "deep", "note": "hard", "lever": "long"}],
    },
}
PLAIN = st.dictionaries(
    st.sampled_from("abcd"),
    st.recursive(st.integers(), lambda inner: st.dictionaries(st.sampled_from("abcd"), inner), max_leaves=6),
)


def named(name: str) -> dict[str, Any]:
    if name not in SET_UPS:
        raise FieldError("like", name, "a set-up", "check the spelling")
    return SET_UPS[name]


def whole(raw: dict[str, Any]) -> dict[str, Any]:
    return laid_out(raw, named, FAMILIES, POSES)


@given(PLAIN, PLAIN)
def test_what_a_file_says_itself_stands_and_nothing_inherited_is_lost(
    base: dict[str, Any], own: dict[str, Any]
) -> None:
    out = merged(base, own)
    assert out.keys() == base.keys() | own.keys()
    for key, value in own.items():
        if not isinstance(value, dict):
            assert out[key] == value
    for key in base.keys() - own.keys():
        assert out[key] == base[key]
    assert merged(out, own) == out


def test_a_set_up_that_is_like_another_hands_both_on() -> None:
    out = whole({"move": "row", "like": "leaning", "firm": {"elbow": "stiff"}, "rungs": []})
    assert out["kit"] == "handles"
    assert out["firm"] == {"hip": "soft", "knee": "locked", "elbow": "stiff"}
    assert "like" not in out


def test_lists_are_replaced_but_reasons_to_stop_are_added_to() -> None:
    out = whole(
        {
            "like": "leaning",
            "family": "pull",
            "cues": ["own", "words"],
            "stop": ["cramp", "pain"],
            "rungs": [],
        }
    )
    assert out["cues"] == ["own", "words"]
    assert out["stop"] == ["pain", "feet that slip", "cramp"]
    assert out["breathing"] == "out while pulling"


def test_a_rung_takes_over_an_earlier_one_but_not_what_makes_it_harder() -> None:
    first = {"rung": "one", "note": "first", "harder-by": "speed", "angles": {"elbow": {"flexion": 90}}}
    second = {"rung": "two", "note": "second", "like": "one", "angles": {"elbow": {"flexion": 5}, "hip": {}}}
    out = whole({"rungs": [first, second]})["rungs"]
    assert out[0] == first
    assert out[1] == {"rung": "two", "note": "second", "angles": {"elbow": {"flexion": 5}, "hip": {}}}


def test_a_rung_cannot_be_like_a_later_one() -> None:
    with pytest.raises(FieldError, match=r"like = 'two' .* an earlier rung: one"):
        whole({"rungs": [{"rung": "one"}, {"rung": "three", "like": "two"}, {"rung": "two"}]})


def test_a_move_like_a_move_changes_its_rungs_by_name_and_adds_others() -> None:
    changes = [{"rung": "deep", "note": "harder still"}, {"rung": "own", "note": "new"}]
    out = whole({"move": "my tow", "like": "tow", "rungs": changes})
    assert out["move"] == "my tow"
    assert out["rungs"] == [
        {"rung": "upright", "note": "easy"},
        {"rung": "deep", "note": "harder still", "lever": "long"},
        {"rung": "own", "note": "new"},
    ]
    assert SET_UPS["tow"]["rungs"][1]["note"] == "hard"


def test_named_poses_lie_under_the_angles_that_call_on_them() -> None:
    phases = {"start": {"like": ["hands on hips", "arms long"], "elbow": {"flexion": 10}, "hip": {}}}
    out = whole({"phases": phases, "rungs": [{"rung": "one", "end": {"like": "arms long"}}]})
    assert out["phases"]["start"] == {"elbow": {"flexion": 10}, "wrist": {"pronation": 150}, "hip": {}}
    assert out["rungs"][0]["end"] == {"elbow": {"flexion": 3}}


def test_a_pose_or_set_up_that_is_not_there_is_refused() -> None:
    with pytest.raises(FieldError, match="a named pose: hands on hips, arms long"):
        whole({"phases": {"start": {"like": "hands up"}}, "rungs": []})
    with pytest.raises(FieldError, match="like = 'fcing'"):
        whole({"like": "fcing", "rungs": []})
