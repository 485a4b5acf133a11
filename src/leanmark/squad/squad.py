"""A squad: who trains, on which rig, for which loads."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from typing import Final

from leanmark.body.build import Build
from leanmark.moves.known import Known
from leanmark.rig.rig import Rig
from leanmark.squad.lines import LineIndex
from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.problems import SquadFileError, SquadProblem, show
from leanmark.squad.text import nearest
from leanmark.squad.wishes import DEFAULT_KIT, CycleWishes, TrainingWishes
from leanmark.units import UnitSystem


@dataclass(frozen=True)
class Trainee:
    """A trainee: the name on the card, the body, what scale readings told of it, and what is wanted of a
    cycle."""

    name: str
    build: Build
    known: Known | None = None
    wishes: TrainingWishes = field(default_factory=TrainingWishes)


@dataclass(frozen=True)
class Origin:
    """The file that a squad was read from, and the lines of its values."""

    file: str
    lines: LineIndex


NO_FILE: Final = Origin("squad", LineIndex(""))


@dataclass(frozen=True)
class Squad:
    """A squad file as read.

    Attributes:
        name: what the squad is called.
        units: the units of sheets and screens.
        rig: what it trains on.
        wanted_load_fractions: wanted strap loads, as fractions of body weight, in the file's order; empty
            means each move's own.
        moves: names of the moves wanted; empty means a first selection of the library.
        trainees: at least one, no two of the same name.
        notes: the coach's free text.
        kit: what is at hand, in the words of the squad file.
        cycle: the cycle that is wanted; None when the file asks for none.
    """

    name: str
    units: UnitSystem
    rig: Rig
    wanted_load_fractions: tuple[float, ...]
    moves: tuple[str, ...]
    trainees: tuple[Trainee, ...]
    notes: str = ""
    kit: frozenset[str] = DEFAULT_KIT
    cycle: CycleWishes | None = None
    origin: Origin = field(default=NO_FILE, repr=False, compare=False)

    @property
    def text(self) -> str:
        """The file as written, from which the same squad can be read again; empty when there was no file."""
        return self.origin.lines.text


def check_moves(squad: Squad, known_moves: Collection[str]) -> None:
    """Check the squad's moves against the names of the library.

    Raises:
        SquadFileError: one problem for each move that is not known, with the nearest known name.
    """
    known = sorted(known_moves)
    problems = []
    for path, where, move in _named_moves(squad):
        if move in known_moves:
            continue
        meant = nearest(move, known)
        remedy = f"write {show(meant)}" if meant else "name a move of the library, or delete it"
        problem = f"{show(move)} is not a move of the library"
        line = squad.origin.lines.line(path)
        problems.append(SquadProblem(squad.origin.file, line, where, field_name(path), problem, remedy))
    if problems:
        raise SquadFileError(problems)


def _named_moves(squad: Squad) -> Iterator[tuple[ValuePath, str, str]]:
    """Every move that the file names: the way to it, where that is in words, and the name."""
    for at, move in enumerate(squad.moves):
        yield ("cards", "moves", at), "cards", move
    for at, trainee in enumerate(squad.trainees):
        if trainee.known:
            where = f"trainee {at + 1} {show(trainee.name)}"
            yield ("trainee", at, "calibration", "move"), where, trainee.known.move
