"""Outside help and hindrance as written on the command line: worn mass, a partner's push."""

from __future__ import annotations

from typing import Annotated, Final

import typer

from leanmark.body.added_mass import AddedMass
from leanmark.body.points import POINT_INDEX
from leanmark.cli import options as o
from leanmark.errors import FieldError
from leanmark.mechanics.task import PushUse

Added = Annotated[
    list[str] | None, typer.Option("--add", help="Worn mass: '10 kg on upper trunk'; may be repeated.")
]
Pushed = Annotated[
    list[str] | None, typer.Option("--push", help="A partner: '50 n forward at chest'; may be repeated.")
]

DIRECTIONS: Final[dict[str, tuple[float, float, float]]] = {
    "forward": (1.0, 0.0, 0.0),
    "back": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}


def added_masses(texts: list[str] | None) -> tuple[AddedMass, ...]:
    """Worn masses. Raises FieldError for text that is none."""
    found = []
    for text in texts or []:
        mass, on, segment = text.partition(" on ")
        value = o.mass_kg("--add", mass) if on else None
        if value is None:
            raise FieldError(
                "--add", text, "a mass, 'on', a segment", "write for example '10 kg on upper trunk'"
            )
        found.append(AddedMass(segment.strip().lower().replace(" ", "_"), value))
    return tuple(found)


def pushes(texts: list[str] | None) -> tuple[PushUse, ...]:
    """Partner's pushes in world axes. Raises FieldError for text that is none."""
    found = []
    for text in texts or []:
        what, _, point = text.lower().partition(" at ")
        force, _, direction = what.strip().rpartition(" ")
        name = point.strip().replace(" ", "_")
        if direction not in DIRECTIONS or name not in POINT_INDEX:
            allowed = f"a force, one of {', '.join(DIRECTIONS)}, 'at', one of {', '.join(POINT_INDEX)}"
            raise FieldError("--push", text, allowed, "write for example '50 n forward at chest'")
        size = o.force_n("--push", force)
        x, y, z = (size * part for part in DIRECTIONS[direction])
        found.append(PushUse(name, (x, y, z)))
    return tuple(found)
