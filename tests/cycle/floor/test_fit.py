"""What to do about a session that does not fit."""

from __future__ import annotations

from msgspec.structs import replace
from tests.cycle.floor.squads import ask, spell, squad

from leanmark.cycle.floor.plan import plan_floor


def rows(people: int, minutes: float) -> tuple[str, ...]:
    return plan_floor(ask(*(spell(name, "row") for name in "ABCDEFGH"[:people]), minutes=minutes)).notes


def test_fewer_sets_groups_and_anchors_are_offered() -> None:
    # 6 × 3 sets take 710 s on one strap; two sets each 470 s; groups of three 350 s; two anchors 350 s or so
    notes = rows(6, 9.0)
    assert notes[0] == (
        "This squad does not fit into 9 min: the plan takes 12 min. No plan can take less than 12 min; "
        "the bottleneck is the work on the anchor's strap."
    )
    assert notes[1] == "It fits with one set less of every move (at least one is left): 8 min."
    assert notes[2] == "It fits in 2 groups of at most 3, one after another: each takes up to 6 min."
    assert notes[3] == "It fits with one anchor more: 6 min."


def test_what_one_trainee_alone_does_not_fit_is_not_split() -> None:
    notes = plan_floor(ask(*(spell("Ada", f"move {n}") for n in range(6)), minutes=3.0)).notes
    assert "the bottleneck is Ada's own sets and rests" in notes[0]
    assert notes[1:] == ("Neither fewer sets nor groups nor more anchors make it fit; allow more minutes.",)


def test_the_offered_groups_fit_when_planned() -> None:
    tight = squad(12, minutes=30.0)
    note = next(note for note in plan_floor(tight).notes if "groups" in note)
    groups = int(note.split()[3])
    for number in range(groups):
        who = tight.who[number::groups]
        part = replace(tight, who=who, spells=tuple(one for one in tight.spells if one.trainee in who))
        assert plan_floor(part, effort=0.1).fits


def test_a_session_that_fits_has_no_such_note() -> None:
    assert rows(6, 13.0) == ()
