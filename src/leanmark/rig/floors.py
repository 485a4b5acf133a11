"""Floor presets: how much a shoe grips, row by row with the source.

Friction here is the coefficient a planted contact can count on: sideways force over pressing force. It is
the least certain number of a rig, since dust, sweat and worn soles can halve it (common practice, no
published source). Where a floor was measured, use that figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from leanmark.errors import FieldError


@dataclass(frozen=True)
class Floor:
    """One preset: its name, the friction to count on, what it stands for, and where the figure comes from."""

    name: str
    friction: float
    stands_for: str
    source: str


_FLOOR_ROWS: Final[tuple[Floor, ...]] = (
    Floor("dry gym floor", 0.60, "clean sports floor, clean rubber soles",
          "common practice; top of the 0.4–0.6 sliding band of DIN 18032-2 (from memory)"),
    Floor("dry gym floor, cautious", 0.40, "the same floor with worn soles or a little dust",
          "common practice; low end of the 0.4–0.6 sliding band of DIN 18032-2 (from memory)"),
    Floor("dry rubber mat", 0.80, "clean rubber mat that does not slide itself, clean rubber soles",
          "own figure, set below the 0.90–0.95 of dry rubber on tile (a trade page, weak source)"),
    Floor("wet or dusty floor", 0.30, "any hard floor with dust, sweat or damp on it",
          "common practice, no published source; near the 0.30 of EN 14041 class DS (from memory)"),
    Floor("tile made for wet use", 0.42, "level indoor tile sold for wet areas, wet",
          "least wet dynamic friction of ANSI A326.3 for level interior floors, as quoted by a trade page"),
    Floor("wet smooth tile", 0.08, "polished or glazed tile, wet: dry it, or train elsewhere",
          "low end of 0.080–0.344, shoes on wet porcelain, Blanchette & Powers 2015 (abstract)"),
)  # fmt: skip
FLOORS: Final[dict[str, Floor]] = {floor.name: floor for floor in _FLOOR_ROWS}
DEFAULT_FLOOR: Final = "dry gym floor"
CAUTION_FRICTION: Final = (
    0.40  # judgement, common practice: a position that needs more gets a caution in words
)


def floor(name: str) -> Floor:
    """The preset of that name.

    Raises:
        FieldError: no preset has that name.
    """
    if name not in FLOORS:
        names = ", ".join(f'"{known}"' for known in FLOORS)
        raise FieldError("floor", name, names, "name one of these, or give your own floor_friction")
    return FLOORS[name]
