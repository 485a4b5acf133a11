"""Outside help and hindrance as written on the command line: worn mass, a partner's push."""

from __future__ import annotations

from typing import Annotated, Final

import typer

from leanmark.body.added_mass import AddedMass
from leanmark.body.points import POINT_INDEX
from leanmark.cli.quantities import read_quantity
from leanmark.errors import FieldError
from leanmark.mechanics.task import PushUse
from leanmark.squad.text import nearest

Added = Annotated[list[str] | None, typer.Option("--add", help="Worn mass: '10 kg on upper trunk'.")]
Pushed = Annotated[
    list[str] | None, typer.Option("--push", help="A partner's push: '50 n forward at chest'.")
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
        if not on:
            raise FieldError(
                "--add", text, "a mass, 'on', a segment", "write for example '10 kg on upper trunk'"
            )
        found.append(AddedMass(_plain(segment), read_quantity("--add", mass)))
    return tuple(found)


def pushes(texts: list[str] | None) -> tuple[PushUse, ...]:
    """Partner's pushes in world axes. Raises FieldError for text that is none."""
    found = []
    for text in texts or []:
        what, _, point = text.lower().partition(" at ")
        force, _, direction = what.strip().rpartition(" ")
        if direction not in DIRECTIONS:
            raise FieldError(
                "--push",
                text,
                f"a force, one of {', '.join(DIRECTIONS)}, 'at', a body point",
                "write for example '50 n forward at chest'",
            )
        size_n = read_quantity("--push", force)
        x, y, z = (size_n * part for part in DIRECTIONS[direction])
        found.append(PushUse(_point(text, point), (x, y, z)))
    return tuple(found)


def _point(text: str, point: str) -> str:
    """The name of a body point. Raises FieldError where there is none of that name."""
    name = _plain(point)
    if name in POINT_INDEX:
        return name
    spoken = [known.replace("_", " ") for known in POINT_INDEX]
    meant = nearest(point.strip(), spoken)
    near = f"did you mean '{meant}'?" if meant else "write for example '50 n forward at chest'"
    parts = dict.fromkeys(known.removeprefix("left ").removeprefix("right ") for known in spoken)
    allowed = f"a point of the body, with left or right where there are two: {', '.join(parts)}"
    raise FieldError("--push", text, allowed, near)


def _plain(name: str) -> str:
    return "_".join(name.lower().replace("_", " ").split())
