"""Options that take a number with its unit: what each allows, and how it is read from text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from leanmark.body.added_mass import MOST_ADDED_KG
from leanmark.body.build import MASS_RANGE_KG, STATURE_RANGE_M
from leanmark.errors import FieldError
from leanmark.rig.ranges import RIG_RANGES
from leanmark.units import INCHES_PER_FOOT, UNITS, to_si

_ANCHOR, _STRAP = RIG_RANGES["anchor_height_m"], RIG_RANGES["settings_m"]
_NUMBER: Final = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?")
_FEET: Final = re.compile(r"([-+]?)([\d.]+)\s*ft(?:\s*([\d.]+)\s*(?:in)?)?")
_LARGEST_GUESS: Final = 1e6  # own figure: no unit turns a larger number into one of these quantities


@dataclass(frozen=True)
class Quantity:
    """The SI unit of an option, the lowest and highest value it takes in that unit, and an example."""

    si: str
    low: float
    high: float
    example: str


QUANTITIES: Final[dict[str, Quantity]] = {
    "--stature": Quantity("m", *STATURE_RANGE_M, "1.78 m"),
    "--mass": Quantity("kg", *MASS_RANGE_KG, "75 kg"),
    "--anchor": Quantity("m", _ANCHOR.low, _ANCHOR.high, "2.4 m"),
    "--strap": Quantity("m", _STRAP.low, _STRAP.high, "1.5 m"),
    "--mark": Quantity("m", -8.0, 8.0, "-40 cm"),  # own figure: farther than any strap and body reach
    "--flight": Quantity("m", 0.005, 0.8, "10 cm"),  # as mechanics.ballistic; own figure for the least
    "--add": Quantity("kg", 0.05, MOST_ADDED_KG, "10 kg"),  # own figure for the least: a wrist watch
    "--push": Quantity("n", 0.0, 2000.0, "50 n"),  # own figure: what a strong partner pushes
    "--reading": Quantity("n", 1.0, 5000.0, "32 kgf"),  # own figure: what a crane scale for one person shows
    "--scale-error": Quantity("n", 0.1, 200.0, "0.5 kgf"),  # own figure: finer or coarser is no luggage scale
}


LOADS_PERCENT: Final = (0.1, 200.0)  # own figure: twice what hangs from the straps in any held position
MOST_PEOPLE: Final = 8  # own figure: people on one beam


def read_percent(option: str, text: str) -> float:
    """A wanted load such as ``35`` or ``35 %``, in per cent. Raises FieldError for anything else."""
    low, high = LOADS_PERCENT
    number = _number(text.strip().removesuffix("%"))
    if number is None or not low <= number <= high:
        raise FieldError(option, text.strip(), f"{low:g} to {high:g} %", f"write for example {option} 35")
    return number


def read_people(option: str, text: str) -> int:
    """A number of people. Raises FieldError for anything else."""
    if text.strip() not in map(str, range(1, MOST_PEOPLE + 1)):
        raise FieldError(option, text.strip(), f"1 to {MOST_PEOPLE}", f"write for example {option} 2")
    return int(text)


def read_quantity(option: str, text: str, kind: str | None = None) -> float:
    """The SI value of text such as ``178 cm`` or ``5 ft 10 in``; a bare number is in the SI unit.

    kind: the option whose limits hold, where one option takes several quantities.

    Raises:
        FieldError: the text is no number with a unit of its kind, or outside what the option takes.
    """
    quantity = QUANTITIES[kind or option]
    plain = " ".join(text.lower().replace("−", "-").split())
    number, suffix = _feet(plain) if quantity.si == "m" and "ft" in plain else _split(plain, quantity.si)
    if number is None:
        raise FieldError(option, text.strip(), _allowed(quantity), _how_to_write(text, quantity))
    value_si = to_si(number, suffix)
    if not quantity.low <= value_si <= quantity.high:
        bare = plain[-1:] in ".0123456789"
        remedy = _other_unit(number, quantity) if bare else _example(quantity)
        raise FieldError(option, text.strip(), _allowed(quantity), remedy)
    return value_si


def _split(plain: str, si: str) -> tuple[float | None, str]:
    """The number and the suffix of its unit; no number where the text is not of that form."""
    units = [suffix for suffix, unit in UNITS.items() if unit.si_suffix == si]
    for suffix in sorted(units, key=len, reverse=True):
        if plain.endswith(suffix):
            return _number(plain.removesuffix(suffix)), suffix
    return _number(plain), si


def _number(text: str) -> float | None:
    return float(text) if _NUMBER.fullmatch(text.strip()) else None


def _feet(plain: str) -> tuple[float | None, str]:
    """Feet and inches in inches; a sign counts for both."""
    found = _FEET.fullmatch(plain)
    feet, inches = (_number(part or "0") for part in found.group(2, 3)) if found else (None, None)
    if found is None or feet is None or inches is None:
        return None, "in"
    size = INCHES_PER_FOOT * feet + inches
    return (-size if found[1] == "-" else size), "in"


def _allowed(quantity: Quantity) -> str:
    return f"{quantity.low:g} to {quantity.high:g} {UNITS[quantity.si].symbol}"


def _how_to_write(text: str, quantity: Quantity) -> str:
    if re.fullmatch(r"\s*[-+−]?\d+,\d+\s*\w*\s*", text):
        return f"write decimals with a point, as in '{quantity.example}'"
    units = ", ".join(suffix for suffix, unit in UNITS.items() if unit.si_suffix == quantity.si)
    feet = ", or feet and inches as in '5 ft 10 in'" if quantity.si == "m" else ""
    return f"write a number with {units}{feet}: for example '{quantity.example}'"


def _other_unit(number: float, quantity: Quantity) -> str:
    """What to do about a bare number out of range, guessing the unit that was meant."""
    if abs(number) <= _LARGEST_GUESS:
        for suffix, unit in UNITS.items():
            fits = unit.si_suffix == quantity.si and quantity.low <= to_si(number, suffix) <= quantity.high
            if fits and suffix != quantity.si:
                return f"it looks like {unit.word}: write '{number:g} {suffix}'"
    return _example(quantity)


def _example(quantity: Quantity) -> str:
    return f"write for example '{quantity.example}'"
