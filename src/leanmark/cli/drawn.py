"""Figures of a stand, written to files."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from leanmark.figures.animate import animate
from leanmark.figures.draw import draw
from leanmark.figures.from_rep import rep_scenes
from leanmark.mechanics.dynamics import Tempo
from leanmark.moves.stand import Stand
from leanmark.units import UnitSystem


def write_position(standing: Stand, mark_m: float, path: Path, units: UnitSystem) -> None:
    """Draw the rep at one mark, from the side; with ``-front`` in the file's name, from the front."""
    rep, _ = standing.rep(np.array([mark_m]), np.zeros(1, dtype=np.intp), nodes=3)
    view = "front" if path.stem.endswith("-front") else "side"
    title = f"{standing.move.move}, {standing.rung.rung}"
    write_whole(path, draw(rep_scenes(standing, rep, 0), view, units=units, title=title))


def write_moving(
    standing: Stand, mark_m: float, tempo: Tempo, path: Path, view: str, theme: str, units: UnitSystem
) -> None:
    """Draw the rep at one mark as a moving figure."""
    rep, _ = standing.rep(np.array([mark_m]), np.zeros(1, dtype=np.intp))
    scenes = rep_scenes(standing, rep, 0, range(len(rep.nodes)))
    title = f"{standing.move.move}, {standing.rung.rung}"
    key = "".join(letter if letter.isalnum() and letter.isascii() else "-" for letter in title)
    drawn = animate(scenes, rep.nodes, tempo, view, key=key, theme=theme, units=units, title=title)
    write_whole(path, drawn)


def write_whole(path: Path, text: str) -> None:
    """Write a file so that it is there whole or not at all."""
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_text(text, encoding="utf-8")
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
