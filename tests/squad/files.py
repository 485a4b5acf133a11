"""Pieces of squad files for the tests."""

from __future__ import annotations

import pytest

from leanmark.squad.problems import SquadFileError
from leanmark.squad.read import squad_from_bytes

TOP = 'squad = "S"\n[rig]\nanchor_height_m = 2.45\n'
"""Lines 1 to 3."""
EDDA = '[[trainee]]\nname = "Edda"\nstature_m = 1.7\nmass_kg = 60\n'
"""Lines 4 to 7 after TOP."""


def problems_of(text: str | bytes) -> list[str]:
    """The lines that a squad file which must be refused gives."""
    data = text.encode() if isinstance(text, str) else text
    with pytest.raises(SquadFileError) as caught:
        squad_from_bytes(data)
    lines = str(caught.value).split("\n")
    assert len(lines) == min(len(caught.value.problems), 20) + (len(caught.value.problems) > 20)
    return lines


def problem_of(text: str | bytes) -> str:
    """The one line that a squad file with one problem gives."""
    (line,) = problems_of(text)
    return line
