"""Checks move files: everything that is wrong with each, with its place in the file and what to do."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import cast

from leanmark.moves.check_fields import FieldCheck
from leanmark.moves.check_held import held_findings, solved_moves, unreadable
from leanmark.moves.check_likes import like_problems
from leanmark.moves.check_whole import Rungs, gate_problems, rung_path, whole_move
from leanmark.moves.inherit import Raw
from leanmark.moves.problems import MoveFileError, MoveProblem, in_order
from leanmark.moves.schema import Move
from leanmark.moves.source import Source, read_source


@dataclass
class Checked:
    """One move file as far as it could be read. move: None where something is wrong with its fields."""

    source: Source
    check: FieldCheck
    move: Move | None

    @property
    def raw(self) -> Raw:
        """The file's own mapping."""
        return cast("Raw", self.source.value)


@dataclass
class Report:
    """What a check found. problems: in the order of files and lines; files, moves, rungs: how many."""

    problems: tuple[MoveProblem, ...] = ()
    files: int = 0
    moves: list[Move] = field(default_factory=list)

    @property
    def rungs(self) -> int:
        """How many rungs the moves have."""
        return sum(len(move.rungs) for move in self.moves)


def read_checked(path: Path) -> Checked:
    """Read one move file and check its fields. Raises MoveFileError where nothing of it can be read."""
    source = read_source(path)
    return checked(source)


def checked(source: Source) -> Checked:
    """Check the fields of one move file, alone and with what it inherits."""
    check = FieldCheck(source)
    check.struct(Move, source.value, ())
    if isinstance(source.value, Mapping):
        like_problems(check, source.value)
    move = None if check.problems else whole_move(check, cast("Raw", source.value))
    return Checked(source, check, move)


def check_files(paths: Sequence[Path], rungs_of: Rungs, progress: Callable[[int], None]) -> Report:
    """Check move files in full: fields, gates, positions and ladders.

    rungs_of: the rungs of other moves, for gates; progress: told of every rung done, of which there are
    as many as the files write out or inherit.
    """
    problems: list[MoveProblem] = []
    found: list[Checked] = []
    for path in paths:
        try:
            found.append(read_checked(path))
        except MoveFileError as error:
            problems += error.problems
    whole = [one for one in found if one.move is not None]
    own = {one.move.move: tuple(rung.rung for rung in one.move.rungs) for one in whole if one.move}
    for one in whole:
        _check_gates(one, lambda name: own.get(name) or rungs_of(name))
    _check_held([one for one in whole if not one.check.problems], progress)
    for one in found:
        problems += one.check.problems
    return Report(in_order(problems), len(paths), [one.move for one in found if one.move])


def _check_gates(one: Checked, rungs_of: Rungs) -> None:
    if one.move:
        gate_problems(one.check, one.raw, one.move, rungs_of)


def _check_held(files: Sequence[Checked], progress: Callable[[int], None]) -> None:
    readable = []
    for one in files:
        error = unreadable(one.move) if one.move else None
        if error:
            one.check.report((), f"the engine cannot read the move: {error}", "mend that entry")
        else:
            readable.append(one)
    moves = [one.move for one in readable if one.move]
    for one, rungs in zip(readable, solved_moves(moves, progress), strict=True):
        for finding in held_findings(rungs):
            path = rung_path(one.raw, finding.rung) if finding.rung else ()
            one.check.report(path, finding.wrong, finding.remedy)
