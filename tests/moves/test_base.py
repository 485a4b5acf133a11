"""The base of support in words, from contacts and holds."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.moves.whole_library import RUNGS, named

from leanmark.moves.base import base_words
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.schema import Contact, Hold, Move, Rung


@pytest.mark.parametrize(
    ("move", "rung", "words"),
    [
        ("row", "leaning", "both soles, hip-wide; hands in the handles"),
        ("front plank", "from the elbows", "both forearms; feet in the cradles"),
        ("side plank", "hand on hip", "right forearm; feet in the cradles"),
        ("push-up", "from the knees, shanks up", "both knees; both palms"),
        ("calf raise", "one leg, near upright", "left ball of the foot; straps under the arms"),
    ],
)
def test_known_bases(move: str, rung: str, words: str) -> None:
    whole = load_move(move)
    assert base_words(whole, find_rung(whole, rung)) == words


@pytest.mark.parametrize(("move", "rung"), RUNGS, ids=lambda part: getattr(part, "rung", None) or part.move)
def test_every_rung_has_a_base_in_words(move: Move, rung: Rung) -> None:
    assert base_words(move, rung), named(move, rung)


@pytest.mark.parametrize(
    ("contacts", "holds", "words"),
    [
        ([Contact("sole", width=0.0)], [], "both soles, in line"),
        ([Contact("sole", width=2.1)], [], "both soles, shoulder-wide"),
        ([Contact("sole", width=3.0)], [], "both soles, wide"),
        (
            [Contact("sole", ("left",), 0.3), Contact("sole", ("right",))],
            [],
            "both soles, one ahead of the other",
        ),
        ([Contact("palm", height_m=0.3)], [], "both palms on a box of 30 cm"),
        (
            [Contact("head"), Contact("heel", touching=True), Contact("toe", taps=True)],
            [],
            "back of the head",
        ),
        (
            [Contact("sole", ("left",))],
            [Hold("instep", ("right",), "cradle")],
            "left sole; right foot in one cradle",
        ),
        (
            [Contact("sole")],
            [Hold("grip", together=True)],
            "both soles, hip-wide; hands together on one handle",
        ),
    ],
)
def test_contacts_and_holds_in_words(contacts: list[Contact], holds: list[Hold], words: str) -> None:
    row = load_move("row")
    assert base_words(row, replace(row.rungs[0], contacts=contacts, holds=holds)) == words
