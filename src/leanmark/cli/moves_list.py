"""``leanmark moves`` without another word: what the library holds, or what of it fits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Final, get_args

import typer

from leanmark.cli.printed import named_rows, print_json, table
from leanmark.errors import FieldError
from leanmark.squad.text import nearest

if TYPE_CHECKING:
    from leanmark.moves.find import Found, Wanted

_Text = str | None
Words = Annotated[_Text, typer.Option("--find", help="Words that all stand somewhere in the move's texts.")]
Family = Annotated[_Text, typer.Option("--family", help="Only this family of moves.")]
Kit = Annotated[_Text, typer.Option("--kit", help="handles, cradles, single handle, under the arms or none.")]
Plane = Annotated[_Text, typer.Option("--plane", help="sagittal, frontal or transverse.")]
Joint = Annotated[
    _Text, typer.Option("--joint", help="Trains this joint, or this action of it: hip, hip extension.")
]
Muscle = Annotated[_Text, typer.Option("--muscle", help="Trains this muscle, or has its help.")]
Gate = Annotated[
    _Text, typer.Option("--gate", help="Rungs with any gate, with none, or with one on this move.")
]
Stage = Annotated[_Text, typer.Option("--stage", help="Rungs done controlled, fast or ballistic.")]
Without = Annotated[
    list[str] | None,
    typer.Option("--without", help="Rungs for somebody who may not do this, such as kneeling."),
]
LISTED_WORDS: Final = 30
"""Allowed words that a message lists; own figure."""
_NAME: Final = 26


def asked_for(
    find: _Text,
    family: _Text,
    kit: _Text,
    plane: _Text,
    joint: _Text,
    muscle: _Text,
    gate: _Text,
    stage: _Text,
    without: Sequence[str],
) -> Wanted:
    """The filters as typed, each a word that the library has. Raises FieldError for another word."""
    from leanmark.moves import find as finding
    from leanmark.moves.library import families, move_names
    from leanmark.moves.muscles import MUSCLES
    from leanmark.moves.restrictions import RESTRICTIONS
    from leanmark.moves.schema import Kit as KitWord
    from leanmark.moves.schema import Stage as StageWord

    planes = ("sagittal", "frontal", "transverse")
    gates = (finding.ANY_GATE, finding.NO_GATE, *move_names())
    return finding.Wanted(
        text=find,
        family=known_word("--family", family, [*families()]),
        kit=known_word("--kit", kit, get_args(KitWord)),
        plane=known_word("--plane", plane, planes),
        joint=known_word("--joint", joint, finding.joint_words()),
        muscle=known_word("--muscle", muscle, [*MUSCLES]),
        gate=known_word("--gate", gate, gates),
        stage=known_word("--stage", stage, get_args(StageWord)),
        without=tuple(
            word for given in without if (word := known_word("--without", given, [*RESTRICTIONS])) is not None
        ),
    )


def known_word(option: str, given: _Text, known: Sequence[str]) -> _Text:
    """The known word that was typed, however it is spelled, or None. Raises FieldError for another."""
    if given is None:
        return None
    plain = " ".join(given.casefold().replace("-", " ").replace("_", " ").split())
    for word in known:
        if plain == word.casefold().replace("-", " "):
            return word
    meant = nearest(plain, known)
    holding = [word for word in known if plain and plain in word.casefold()]
    listed = [*known] if len(known) <= LISTED_WORDS else (holding or [*known])[:LISTED_WORDS]
    more = f" and {len(known) - len(listed)} more" if len(listed) < len(known) else ""
    remedy = f"did you mean '{meant}'?" if meant else "choose one of these"
    raise FieldError(option, given, ", ".join(listed) + more, remedy)


def print_found(wanted: Wanted, as_json: bool) -> None:
    """List the moves that fit."""
    from leanmark.moves.find import find
    from leanmark.moves.library import load_move, move_names

    found = find([load_move(name) for name in move_names()], wanted)
    if as_json:
        print_json([_as_data(one) for one in found])
        return
    if not found:
        typer.echo("no move fits all of this; leave out one of the filters")
        return
    head = ("move", "family", "kit", "plane", "rungs")
    typer.echo(table(head, [row for one in found for row in _rows(one)]))
    rungs = sum(len(one.rungs) for one in found)
    typer.echo(f"\n{_counted(len(found), 'move')}, {_counted(rungs, 'rung')}")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")


def _rows(one: Found) -> list[tuple[str, ...]]:
    move, fits = one.move, len(one.rungs)
    rungs = str(fits) if fits == len(move.rungs) else f"{fits} of {len(move.rungs)}"
    return named_rows(move.move, _NAME, move.family, move.kit, move.plane, rungs)


def _as_data(one: Found) -> dict[str, object]:
    move = one.move
    return {
        "move": move.move,
        "family": move.family,
        "kit": move.kit,
        "plane": move.plane,
        "works": [*move.works],
        "rungs": [rung.rung for rung in one.rungs],
    }
