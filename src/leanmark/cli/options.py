"""Options that several commands share, and what they add up to."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Annotated, Final, Literal, TypeVar, cast

import typer

from leanmark.cli.quantities import read_quantity
from leanmark.errors import FieldError
from leanmark.units import UNIT_SYSTEMS, UnitSystem

MoveName = Annotated[str, typer.Argument(help="The move, as `leanmark moves` lists it.")]
RungName = Annotated[
    str | None,
    typer.Option("--rung", help="Rung by name or number, 1 the easiest; the middle one if left out."),
]
SquadFile = Annotated[
    Path | None, typer.Option("--squad", help="A squad file to take the rig and the person from.")
]
TraineeName = Annotated[
    str | None, typer.Option("--trainee", help="Whom of the squad file; the first if left out.")
]
Stature = Annotated[
    str | None,
    typer.Option("--stature", help="Body height: 178 cm, 5 ft 10 in; needed without a squad file."),
]
Mass = Annotated[
    str | None, typer.Option("--mass", help="Body mass: 75 kg, 165 lb; needed without a squad file.")
]
Sex = Annotated[str | None, typer.Option("--sex", help="female or male; left out, answers span both tables.")]
Anchor = Annotated[
    str | None, typer.Option("--anchor", help="Anchor height: 95 in; the squad file's or 2.4 m if left out.")
]
Setting = Annotated[
    str | None, typer.Option("--setting", help="Named strap setting of the rig; the move's own if left out.")
]
Strap = Annotated[str | None, typer.Option("--strap", help="Strap length instead of a setting: 1.5 m.")]
Floor = Annotated[
    str | None, typer.Option("--floor", help="Floor preset; the squad file's or 'dry gym floor' if left out.")
]
Straps = Annotated[
    str | None,
    typer.Option(
        "--straps", help="independent or slipping loop; the squad file's or independent if left out."
    ),
]
TempoText = Annotated[
    str | None,
    typer.Option("--tempo", help="Seconds down-pause-up-pause: 2-1-1-0; the move's own if left out."),
]
Units = Annotated[
    str | None, typer.Option("--units", help="metric or us; the squad file's or metric if left out.")
]
Mark = Annotated[
    str | None,
    typer.Option("--mark", help="Floor mark from the plumb point: '-40 cm'; the move's own if left out."),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON instead of a table.")]
Figure = Annotated[Path | None, typer.Option("--figure", help="Write the drawn position to this SVG file.")]

OPTION_OF: Final[dict[str, str]] = {
    "stature_m": "--stature",
    "mass_kg": "--mass",
    "anchor_height_m": "--anchor",
    "strap_m": "--strap",
    "setting": "--setting",
    "floor": "--floor",
    "added mass": "--add",
    "flight_m": "--flight",
}
"""Fields of the engine that the command line asks for by another name."""


def in_option_words(error: FieldError) -> FieldError:
    """An error of the engine, with its field called as the command line calls it."""
    field = OPTION_OF.get(error.field, error.field)
    return FieldError(field, error.value, error.allowed, error.remedy)


def unit_system(units: str) -> UnitSystem:
    """The unit system asked for. Raises FieldError for another word."""
    if units not in UNIT_SYSTEMS:
        raise FieldError("--units", units, " or ".join(UNIT_SYSTEMS), "choose one of the two")
    return units


def given(option: str, text: str | None, default: float | None = None) -> float | None:
    """The SI value of an option that takes a quantity, or the default where it is left out.

    Raises FieldError for text that is no such quantity.
    """
    return default if text is None else read_quantity(option, text)


def stated_sex(sex: str | None) -> Literal["female", "male"] | None:
    """The sex stated. Raises FieldError for another word."""
    if sex not in (None, "female", "male"):
        raise FieldError("--sex", sex, "female or male", "leave it out to span both tables")
    return cast(Literal["female", "male"] | None, sex)


_Word = TypeVar("_Word", bound=str)


def one_of(option: str, word: str, allowed: Iterable[_Word]) -> _Word:
    """The word itself. Raises FieldError unless it is one of those allowed."""
    known = list(allowed)
    for one in known:
        if one == word:
            return one
    raise FieldError(option, word, ", ".join(known), "choose one of them")
