"""Options that several commands share, and what they add up to."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal, cast

import typer

from leanmark.errors import FieldError
from leanmark.units import UNIT_SYSTEMS, UnitSystem, spellings, to_si

MoveName = Annotated[str, typer.Argument(help="The move, as `leanmark moves` lists it.")]
RungName = Annotated[str | None, typer.Option("--rung", help="Rung by name or number, 1 the easiest.")]
SquadFile = Annotated[
    Path | None, typer.Option("--squad", help="A squad file to take the rig and people from.")
]
TraineeName = Annotated[
    str | None, typer.Option("--trainee", help="Whom of the squad file; the first if left out.")
]
Stature = Annotated[
    str | None, typer.Option("--stature", help="Body height: 1.78 m, 178 cm, 70 in, 5 ft 10 in.")
]
Mass = Annotated[str | None, typer.Option("--mass", help="Body mass: 75 kg, 165 lb.")]
Sex = Annotated[str | None, typer.Option("--sex", help="female or male; left out, answers span both tables.")]
Anchor = Annotated[str | None, typer.Option("--anchor", help="Anchor height: 2.4 m, 95 in.")]
Setting = Annotated[str | None, typer.Option("--setting", help="Named strap setting of the rig.")]
Strap = Annotated[str | None, typer.Option("--strap", help="Strap length instead of a setting: 1.5 m.")]
Floor = Annotated[str | None, typer.Option("--floor", help="Floor preset, such as 'dry gym floor'.")]
Straps = Annotated[str | None, typer.Option("--straps", help="independent, or slipping loop.")]
Units = Annotated[str, typer.Option("--units", help="metric or us.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON instead of a table.")]
Figure = Annotated[Path | None, typer.Option("--figure", help="Write the drawn position to this SVG file.")]


def unit_system(units: str) -> UnitSystem:
    """The unit system asked for. Raises FieldError for another word."""
    if units not in UNIT_SYSTEMS:
        raise FieldError("--units", units, " or ".join(UNIT_SYSTEMS), "choose one of the two")
    return units


def length_m(option: str, text: str | None, default: float | None = None) -> float | None:
    """A length written with its unit, in metres. Raises FieldError for text that is no length."""
    return _quantity(option, text, "m", default)


def mass_kg(option: str, text: str | None, default: float | None = None) -> float | None:
    """A mass written with its unit, in kilograms. Raises FieldError for text that is no mass."""
    return _quantity(option, text, "kg", default)


def force_n(option: str, text: str) -> float:
    """A force written with its unit, in newtons. Raises FieldError for text that is no force."""
    return cast(float, _quantity(option, text, "n", None))


def _quantity(option: str, text: str | None, si: str, default: float | None) -> float | None:
    if text is None:
        return default
    known = {unit.suffix: unit for unit in spellings(f"x_{si}").values()}
    words = text.lower().replace("ft", " ft ").split()
    if si == "m" and "ft" in words:
        return _feet(option, text, words)
    number = text.strip().lower()
    suffix = si
    for candidate in sorted(known, key=len, reverse=True):
        if number.endswith(candidate):
            number, suffix = number.removesuffix(candidate).strip(), candidate
            break
    try:
        value = float(number)
    except ValueError:
        raise FieldError(
            option, text, f"a number with {', '.join(known)}", f"write for example '1.2 {si}'"
        ) from None
    return to_si(value, suffix)


def _feet(option: str, text: str, words: list[str]) -> float:
    numbers = [word.removesuffix("in") for word in words if word not in ("ft", "in")]
    try:
        feet, inches = float(numbers[0]), float(numbers[1]) if len(numbers) > 1 else 0.0
    except (ValueError, IndexError):
        raise FieldError(option, text, "feet and inches", "write for example '5 ft 10 in'") from None
    return to_si(12.0 * feet + inches, "in")


def stated_sex(sex: str | None) -> Literal["female", "male"] | None:
    """The sex stated. Raises FieldError for another word."""
    if sex not in (None, "female", "male"):
        raise FieldError("--sex", sex, "female or male", "leave it out to span both tables")
    return cast(Literal["female", "male"] | None, sex)
