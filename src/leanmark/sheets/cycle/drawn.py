"""The figures of a trainee's lines: solved together, each rung at each mark drawn once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

import numpy as np

from leanmark.cycle.form import Line
from leanmark.errors import FieldError
from leanmark.figures.draw import draw
from leanmark.figures.from_rep import rep_scenes
from leanmark.mechanics.position import Rep
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import Stand, reps_of, stand
from leanmark.sheets.move_figures import view_of
from leanmark.squad.squad import Squad, Trainee
from leanmark.units import UnitSystem, show_length

FIGURE_PT: Final = (132.0, 98.0)
"""Width and height of a figure; a pixel becomes a point."""
_FONT_PX: Final = 7.5
_NODES: Final = 3


class FigureKey(NamedTuple):
    """What a figure shows of one trainee; the mark as it is read."""

    move: str
    rung: str
    strap_m: float
    mark: str


def figure_key(line: Line, units: UnitSystem) -> FigureKey:
    """Lines that look alike have one key."""
    return FigureKey(line.move, line.rung, line.strap_m, show_length(line.mark_m, units))


def trainee_of(squad: Squad, name: str) -> Trainee:
    """A trainee of the squad by name. Raises FieldError where there is none."""
    for trainee in squad.trainees:
        if trainee.name == name:
            return trainee
    known = ", ".join(trainee.name for trainee in squad.trainees)
    raise FieldError("trainee", name, known, "give the squad that the cycle was built from")


def figures_of(lines: Iterable[Line], trainee: Trainee, squad: Squad) -> dict[FigureKey, str]:
    """The whole rep of every different line as SVG text, the start faint; empty where it cannot be solved.

    Raises FieldError for a move or a rung that is not in the library, and for a strap length outside the
    rig's range.
    """
    units = squad.units
    wanted: dict[FigureKey, float] = {}
    for line in lines:
        wanted.setdefault(figure_key(line, units), line.mark_m)
    if not wanted:
        return {}
    stands = [_stand(key, trainee, squad) for key in wanted]
    marks = [np.array([mark_m]) for mark_m in wanted.values()]
    who = [np.zeros(1, dtype=np.intp)] * len(stands)
    solved = reps_of(stands, marks, who, _NODES)
    return {
        key: _figure(standing, rep, units)
        for key, standing, (rep, _) in zip(wanted, stands, solved, strict=True)
    }


def _stand(key: FigureKey, trainee: Trainee, squad: Squad) -> Stand:
    move = load_move(key.move)
    people = people_of([trainee.build], [trainee.known])
    strap_m = key.strap_m or squad.rig.strap_longest_m
    return stand(move, find_rung(move, key.rung), squad.rig, people, strap_m)


def _figure(standing: Stand, rep: Rep, units: UnitSystem) -> str:
    if not rep.solution.met.reshape(rep.count, -1)[0].all():
        return ""
    return draw(
        rep_scenes(standing, rep, 0),
        view_of(standing),
        *FIGURE_PT,
        theme="print",
        units=units,
        font_px=_FONT_PX,
        forces=False,
        title=f"{standing.move.move}, {standing.rung.rung}",
    )
