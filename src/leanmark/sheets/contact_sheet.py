"""Contact sheets: every rung of some moves, start and end, from the side and from the front, on few pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Final

import numpy as np

from leanmark.figures.draw import draw_each
from leanmark.figures.from_rep import rep_scenes
from leanmark.moves.library import load_move
from leanmark.moves.people import People
from leanmark.moves.stand import stand
from leanmark.moves.translate import mark_of
from leanmark.rig.rig import Rig
from leanmark.sheets.cards import PAPER_NAMES, Paper
from leanmark.sheets.typeset import typeset
from leanmark.units import UnitSystem

TEMPLATE: Final = "contact_sheet.typ"
PICTURE_PT: Final = (128.0, 104.0)
"""Width and height of a picture; a pixel becomes a point."""
_FONT_PX: Final = 6.0
VIEWS: Final = ("side", "front")


@dataclass(frozen=True)
class RungPictures:
    """One rung: pictures of its start, key pose if any, and end, by view; empty where it cannot be solved."""

    number: int
    name: str
    pictures: tuple[str, ...]


@dataclass(frozen=True)
class MovePictures:
    """One move's rungs."""

    title: str
    family: str
    rungs: tuple[RungPictures, ...]


@dataclass(frozen=True)
class PicturesJob:
    """One move to be drawn for the first of some people on a rig."""

    move: str
    rig: Rig
    people: People
    units: UnitSystem


def move_pictures(job: PicturesJob) -> MovePictures:
    """Draw every rung of a move at its own mark.

    Raises FieldError for a strap setting that the rig lacks.
    """
    move = load_move(job.move)
    rungs = []
    for number, rung in enumerate(move.rungs, start=1):
        standing = stand(move, rung, job.rig, job.people)
        rep, _ = standing.rep(np.array([mark_of(move, rung).start_m]), np.zeros(1, dtype=np.intp), nodes=3)
        shown = (0,) if standing.task.still else (0, 1, 2) if standing.task.key is not None else (0, 2)
        pictures: tuple[str, ...] = ()
        if rep.solution.met.all():
            scenes = rep_scenes(standing, rep, 0, shown)
            pictures = tuple(
                svg
                for view in VIEWS
                for svg in draw_each(
                    scenes,
                    view,
                    *PICTURE_PT,
                    theme="print",
                    units=job.units,
                    font_px=_FONT_PX,
                    forces=False,
                    title=f"{move.move}, {rung.rung}",
                )
            )
        rungs.append(RungPictures(number, rung.rung, pictures))
    return MovePictures(move.move, move.family, tuple(rungs))


def render_contact_sheet(moves: Sequence[MovePictures], paper: Paper) -> bytes:
    """One PDF of all the moves.

    Raises:
        ValueError: there is no move.
    """
    if not moves:
        raise ValueError("there is no move to show; give at least one")
    data = {"paper": PAPER_NAMES[paper], "moves": [asdict(move) for move in moves]}
    return typeset(TEMPLATE, "sheet", data)
