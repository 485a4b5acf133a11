"""Squads for the floor planner's tests: made by hand, and drawn at random."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from leanmark.cycle.floor.form import FloorAsk, Spell

PEOPLE = ("Ada", "Bo", "Cy", "Dee", "Eli", "Flo")
ANCHORS = ("beam 1", "beam 2", "beam 3")


def spell(trainee: str, line: str, strap: str = "long", **changed: object) -> Spell:
    """A spell of three sets of 30 s with 60 s of rest."""
    given: dict[str, Any] = {
        "move": line,
        "rung": "plain",
        "sets": 3,
        "set_s": 30.0,
        "rest_s": 60.0,
        **changed,
    }
    return Spell(trainee=trainee, line=line, strap=strap, **given)


def ask(*spells: Spell, **changed: object) -> FloorAsk:
    """A session of an hour with one anchor for the spells' trainees."""
    given: dict[str, Any] = {
        "who": tuple(dict.fromkeys(one.trainee for one in spells)),
        "anchors": ("beam 1",),
        "people_per_anchor": 3,
        "change_s": 40.0,
        "walk_s": 15.0,
        "swap_s": 10.0,
        "minutes": 60.0,
        **changed,
    }
    return FloorAsk(spells=spells, **given)


def squad(people: int, moves: int = 4, **changed: object) -> FloorAsk:
    """So many trainees who do the same moves on three settings in turn, the last on the floor."""
    straps = ("long", "mid-thigh", "mid-shin")
    return ask(
        *(
            spell(
                f"trainee {one}",
                f"move {move}",
                straps[move % 3] if move < moves - 1 else "",
                order=move // 2,
            )
            for one in range(people)
            for move in range(moves)
        ),
        **changed,
    )


@st.composite
def asks(draw: DrawFn) -> FloorAsk:
    """Small random squads: odd seconds, ties to anchors, several classes, walks longer than rests."""
    who = PEOPLE[: draw(st.integers(1, len(PEOPLE)))]
    anchors = ANCHORS[: draw(st.integers(1, len(ANCHORS)))]
    spells = []
    for name in who:
        for number in range(draw(st.integers(0 if spells else 1, 3))):
            strap = draw(st.sampled_from(("long", "mid-thigh", "")))
            tied = draw(st.sampled_from((None, None, *anchors))) if strap else None
            spells.append(
                spell(
                    name,
                    f"{name} {number}",
                    strap,
                    sets=draw(st.integers(1, 3)),
                    set_s=draw(st.sampled_from((12.5, 20.0, 41.0))),
                    rest_s=draw(st.sampled_from((0.0, 7.5, 30.0, 90.0))),
                    order=draw(st.integers(0, 2)),
                    spotter=draw(st.booleans()),
                    anchor=tied,
                )
            )
    return ask(
        *spells,
        who=who,
        anchors=anchors,
        people_per_anchor=draw(st.integers(1, 3)),
        change_s=draw(st.sampled_from((0.0, 25.5, 40.0))),
        walk_s=draw(st.sampled_from((0.0, 15.0, 45.0))),
        swap_s=draw(st.sampled_from((0.0, 8.0))),
        minutes=draw(st.sampled_from((1.0, 8.0, 60.0))),
        seed=draw(st.integers(0, 3)),
    )
