"""The one table of units: what a field's suffix means, and how lengths, masses and forces are shown.

Inside the package every quantity is in SI units. Other units live at the edges only: a field such as
``stature_in`` is turned into ``stature_m`` when it is read, and ``show_length`` turns metres back into
feet and inches when they are printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal, get_args

UnitSystem = Literal["metric", "us"]
UNIT_SYSTEMS: Final[tuple[UnitSystem, ...]] = get_args(UnitSystem)


@dataclass(frozen=True)
class Unit:
    """One unit: field suffix, symbol, name in words and exact factor to the SI unit of its quantity."""

    suffix: str
    symbol: str
    word: str
    si_suffix: str
    factor: Decimal
    source: str


_B8: Final = "NIST SP 811 (2008) appendix B.8"
_UNIT_ROWS: Final[tuple[Unit, ...]] = (
    Unit("m", "m", "metres", "m", Decimal("1"), "SI base unit"),
    Unit("cm", "cm", "centimetres", "m", Decimal("0.01"), "SI prefix, NIST SP 811 (2008) table 5"),
    Unit("in", "in", "inches", "m", Decimal("0.0254"), f"{_B8}, inch, exact"),
    Unit("kg", "kg", "kilograms", "kg", Decimal("1"), "SI base unit"),
    Unit("lb", "lb", "pounds", "kg", Decimal("0.45359237"), f"{_B8}, pound (avoirdupois), exact by footnote"),
    Unit("n", "N", "newtons", "n", Decimal("1"), "SI derived unit"),
    Unit("kn", "kN", "kilonewtons", "n", Decimal("1000"), "SI prefix, NIST SP 811 (2008) table 5"),
    Unit("kgf", "kg-force", "kilograms-force", "n", Decimal("9.80665"), f"{_B8}, kilogram-force, exact"),
    Unit(
        "lbf",
        "lbf",
        "pounds-force",
        "n",
        Decimal("4.4482216152605"),
        f"{_B8}, pound-force, exact by footnote 23",
    ),
)
UNITS: Final[dict[str, Unit]] = {unit.suffix: unit for unit in _UNIT_ROWS}
INCHES_PER_FOOT: Final = 12  # NIST SP 811 (2008) appendix B.8: foot 0.3048 m, inch 0.0254 m, both exact
INCH_STEP: Final = Decimal("0.5")  # own figure: finer than the 2 cm to which a mark is measured


def to_si(value: float, suffix: str) -> float:
    """The SI value of ``value`` given in the unit ``suffix``, as the nearest float to the exact product.

    Raises:
        KeyError: the suffix is not in ``UNITS``.
    """
    return float(Decimal(str(value)) * UNITS[suffix].factor)


def from_si(value_si: float, suffix: str) -> float:
    """The value in the unit ``suffix`` of a quantity given in its SI unit; the inverse of ``to_si``.

    Raises:
        KeyError: the suffix is not in ``UNITS``.
    """
    return float(Decimal(str(value_si)) / UNITS[suffix].factor)


def si_unit_of(field: str) -> Unit | None:
    """The SI unit that a field name such as ``stature_m`` ends in, or None when it names no quantity."""
    stem, _, suffix = field.rpartition("_")
    unit = UNITS.get(suffix) if stem else None
    return unit if unit is not None and unit.suffix == unit.si_suffix else None


def spellings(field: str) -> dict[str, Unit]:
    """Every accepted spelling of an SI field with its unit, the SI spelling first.

    ``spellings("mass_kg")`` has the keys ``mass_kg`` and ``mass_lb``; a field without an SI suffix has none.
    """
    unit = si_unit_of(field)
    if unit is None:
        return {}
    stem = field.removesuffix(unit.suffix)
    return {stem + other.suffix: other for other in _UNIT_ROWS if other.si_suffix == unit.suffix}


def show_length(length_m: float, system: UnitSystem) -> str:
    """A length [m], also a signed floor mark: ``−97 cm``, or ``−3 ft 2 in`` to the nearest half inch."""
    if system == "metric":
        return _shown(length_m, "cm", 0)
    steps = round(Decimal(str(from_si(abs(length_m), "in"))) / INCH_STEP)
    feet, inches = divmod(steps * INCH_STEP, INCHES_PER_FOOT)
    sign = "−" if length_m < 0 and steps else ""
    shown_inches = f"{inches.normalize():f} in"
    return f"{sign}{feet:f} ft {shown_inches}" if feet else f"{sign}{shown_inches}"


def show_mass(mass_kg: float, system: UnitSystem, decimals: int = 0) -> str:
    """A mass [kg] in kilograms or pounds: ``74 kg``, ``163 lb``."""
    return _shown(mass_kg, "kg" if system == "metric" else "lb", decimals)


def show_force(force_n: float, system: UnitSystem, decimals: int = 0) -> str:
    """A force [N] as a coach reads it on a scale: ``35 kg-force``, ``77 lbf``."""
    return _shown(force_n, "kgf" if system == "metric" else "lbf", decimals)


def show_force_range(low_n: float, high_n: float, system: UnitSystem) -> str:
    """Two forces [N] as a range: ``29 to 38 kg-force``."""
    low, high = (show_force(force_n, system) for force_n in (low_n, high_n))
    return f"{low.partition(' ')[0]} to {high}"


def _shown(value_si: float, suffix: str, decimals: int) -> str:
    """A rounded value and its symbol, with a real minus sign and never a negative zero."""
    value = from_si(value_si, suffix)
    text = f"{abs(value):.{decimals}f}"
    sign = "−" if value < 0 and float(text) else ""
    return f"{sign}{text} {UNITS[suffix].symbol}"
