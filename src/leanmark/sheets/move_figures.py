"""The pictures of a move's card: one rung large, phase by phase, and every rung small."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.figures.draw import draw, draw_each
from leanmark.figures.from_rep import rep_scenes
from leanmark.moves.stand import Stand
from leanmark.moves.translate import mark_of
from leanmark.sheets.move_card import Figure
from leanmark.units import UnitSystem

FIGURE_PT: Final = (176.0, 158.0)
"""Width and height of a large figure; a pixel becomes a point."""
THUMB_PT: Final = (104.0, 72.0)
_FONT_PX: Final = 7.5
_THUMB_FONT_PX: Final = 5.5


def view_of(standing: Stand) -> str:
    """The view in which the floor mark is seen."""
    return "front" if standing.task.mark_across else "side"


def phase_figures(standing: Stand, units: UnitSystem) -> tuple[Figure, ...]:
    """Start, middle and end of one person's rep at the rung's mark, at one scale, with strap and floor
    forces; a hold from the side and from the front. None where the position cannot be solved."""
    rep, _ = standing.rep(_mark(standing), np.zeros(1, dtype=np.intp), nodes=3)
    if not rep.solution.met.all():
        return ()
    width, height = FIGURE_PT
    title = f"{standing.move.move}, {standing.rung.rung}"
    if standing.task.still:
        scenes = rep_scenes(standing, rep, 0)
        return tuple(
            Figure(
                f"hold, {view}",
                draw(scenes, view, width, height, theme="print", units=units, font_px=_FONT_PX, title=title),
            )
            for view in ("side", "front")
        )
    drawn = draw_each(
        rep_scenes(standing, rep, 0, (0, 1, 2)),
        view_of(standing),
        width,
        height,
        theme="print",
        units=units,
        font_px=_FONT_PX,
        title=title,
    )
    return tuple(Figure(name, svg) for name, svg in zip(("start", "middle", "end"), drawn, strict=True))


def thumb(standing: Stand, units: UnitSystem) -> str:
    """The whole rep in one small picture, the start faint; empty where it cannot be solved."""
    rep, _ = standing.rep(_mark(standing), np.zeros(1, dtype=np.intp), nodes=3)
    if not rep.solution.met.all():
        return ""
    return draw(
        rep_scenes(standing, rep, 0),
        view_of(standing),
        *THUMB_PT,
        theme="print",
        units=units,
        font_px=_THUMB_FONT_PX,
        forces=False,
        title=standing.rung.rung,
    )


def _mark(standing: Stand) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.array([mark_of(standing.move, standing.rung).start_m])
