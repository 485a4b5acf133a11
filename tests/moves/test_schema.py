"""What a move file may hold, and what is refused with the place of the mistake."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
import yaml
from tests.moves.move_files import NEEDED_TEXTS

from leanmark.moves.schema import FIRMNESS, Move

TEXT = (
    NEEDED_TEXTS
    + """
move: shrug
family: shoulder girdle
plane: frontal
purpose: lifts the shoulders
kit: handles
faces: the anchor
setup: Stand on the mark and hold both handles.
caution: Stop if the neck hurts.
cues: [shoulders to the ears, neck long]
strap: short
mark: {of: heels, start-m: -0.5, low-m: -1.0, high-m: 0.0}
contacts:
  - {patch: sole}
holds:
  - {point: grip}
phases:
  start: {elbow: {flexion: 5}}
  end: {elbow: {flexion: 10}}
rungs:
  - {rung: first, note: the only one}
"""
)


def plain() -> dict[str, Any]:
    content: dict[str, Any] = yaml.safe_load(TEXT)
    return content


def read(content: dict[str, Any]) -> Move:
    return msgspec.convert(content, Move)


def test_what_a_file_leaves_out_is_filled_in() -> None:
    move = read(plain())
    assert move.tempo_s == (2.0, 1.0, 1.0, 0.0)
    assert move.stages == ("controlled",)
    assert move.load == "straps"
    contact, hold, rung = move.contacts[0], move.holds[0], move.rungs[0]
    assert contact.sides == hold.sides == ("left", "right")
    assert (contact.width, contact.turned_out_deg, contact.height_m) == (1.0, 0.0, 0.0)
    assert not any([contact.found, contact.touching, contact.slides, contact.taps])
    assert (hold.end, hold.together, hold.plumb, hold.in_line) == ("handle", False, False, None)
    assert rung.harder_by == "load"
    assert rung.mark is None
    assert rung.phases is None


def test_a_hold_has_no_end_phase() -> None:
    content = plain()
    del content["phases"]["end"]
    assert read(content).phases.end is None


NEEDED = [
    "move", "works", "caution", "not-for", "stop", "breathing", "lever", "cues", "faults", "mark", "contacts",
    "phases", "rungs",
]  # fmt: skip


@pytest.mark.parametrize("field", NEEDED)
def test_a_move_cannot_go_without(field: str) -> None:
    content = plain()
    del content[field]
    with pytest.raises(msgspec.ValidationError, match=f"missing required field `{field}`"):
        read(content)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"colour": "blue"}, r"unknown field `colour`"),
        ({"kit": "rope"}, r"Invalid enum value 'rope' - at `\$.kit`"),
        ({"plane": "slanted"}, r"\$.plane"),
        ({"load": "everything"}, r"\$.load"),
        ({"stages": ["slow"]}, r"\$.stages\[0\]"),
        ({"tempo-s": [2, 1, 1]}, r"length 4.*tempo-s"),
        ({"rungs": []}, r"\$.rungs"),
        ({"setup": ""}, r"\$.setup"),
        ({"firm": {"hip": "loose"}}, r"\$.firm\[\.\.\.\]"),
        ({"contacts": [{"patch": "sole", "ahead": 0.1}]}, r"unknown field `ahead`"),
        ({"contacts": [{"patch": "sole", "sides": ["middle"]}]}, r"\$.contacts\[0\].sides"),
        ({"contacts": [{"patch": "sole", "height-m": -0.1}]}, r"height-m"),
        ({"contacts": [{"patch": "sole", "share-percent": 61}]}, r"share-percent"),
        ({"holds": [{"point": "grip", "end": "hook"}]}, r"\$.holds\[0\].end"),
        ({"phases": {"start": {"elbow": {"flexion": 361}}}}, r"<= 360"),
    ],
)
def test_a_wrong_entry_is_refused_with_its_place(change: dict[str, Any], message: str) -> None:
    with pytest.raises(msgspec.ValidationError, match=message):
        read(plain() | change)


@pytest.mark.parametrize("start_m", [-1.1, 0.1])
def test_a_mark_starts_within_its_range(start_m: float) -> None:
    mark = {"of": "heels", "start-m": start_m, "low-m": -1.0, "high-m": 0.0}
    with pytest.raises(msgspec.ValidationError, match=r"start-m = .* \(allowed: -1 to 0, its own range\)"):
        read(plain() | {"mark": mark})


def test_a_mark_may_start_at_the_end_of_its_range() -> None:
    mark = {"of": "heels", "start-m": 0.0, "low-m": 0.0, "high-m": 0.0}
    assert read(plain() | {"mark": mark}).mark.start_m == 0.0


def test_balance_weights_share_out_the_whole() -> None:
    rows = [{"axis": "ahead", "over": {"left_heel": 0.5, "right_heel": 0.4}}]
    with pytest.raises(msgspec.ValidationError, match=r"over = 0.9 .* weights that add up to 1"):
        read(plain() | {"balance": rows})
    rows = [{"axis": "across", "over": {"left_heel": 0.1, "right_heel": 0.2, "left_instep": 0.7}}]
    assert read(plain() | {"balance": rows}).balance[0].offset_m == 0.0


def test_each_word_for_firmness_is_firmer_than_the_one_before() -> None:
    assert list(FIRMNESS) == ["free", "soft", "firm", "stiff", "locked"]
    weights = list(FIRMNESS.values())
    assert weights == sorted(weights)
    assert len(set(weights)) == len(weights)
