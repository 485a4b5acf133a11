"""Checks move files: everything that is wrong with each, with its place in the file and what to do."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import cast

from leanmark.errors import FieldError
from leanmark.moves.check.fields import FieldCheck
from leanmark.moves.check.held import held_findings, solved_moves, unreadable
from leanmark.moves.check.likes import like_problems
from leanmark.moves.check.shared import check_shared, is_shared
from leanmark.moves.check.whole import Rungs, gate_problems, rung_path, whole_move
from leanmark.moves.files import plain
from leanmark.moves.inherit import Raw
from leanmark.moves.problems import MoveFileError, MoveProblem, in_order, shown
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

    def joined(self, other: Report) -> Report:
        """Both reports as one."""
        problems = (*self.problems, *other.problems)
        return Report(problems, self.files + other.files, [*self.moves, *other.moves])

    def as_data(self) -> dict[str, object]:
        """The report as plain data."""
        counts = {"files": self.files, "moves": len(self.moves), "rungs": self.rungs}
        return counts | {"problems": [asdict(problem) for problem in self.problems]}


def read_checked(path: Path) -> Checked:
    """Read one move file and check its fields. Raises MoveFileError where nothing of it can be read."""
    source = read_source(path)
    return checked(source)


def checked(source: Source) -> Checked:
    """Check the fields of one move file, alone and with what it inherits."""
    check = FieldCheck(source)
    if is_shared(Path(source.file)):
        check_shared(check, source.value)
        return Checked(source, check, None)
    check.struct(Move, source.value, ())
    if isinstance(source.value, Mapping):
        like_problems(check, source.value)
        if next(iter(source.value), "move") != "move" and "move" in source.value:
            check.report(("move",), "move is not the first field", "put it in the first line of the file")
    move = None if check.problems else whole_move(check, cast("Raw", source.value))
    return Checked(source, check, move)


def check_files(paths: Sequence[Path], rungs_of: Rungs, progress: Callable[[float], None]) -> Report:
    """Check move files in full: fields, gates, positions and ladders.

    rungs_of: the rungs of other moves, for gates; progress: told the share of the work that is done.
    """
    problems: list[MoveProblem] = []
    found: list[Checked] = []
    for path in paths:
        try:
            found.append(read_checked(path))
        except MoveFileError as error:
            problems += error.problems
    whole = [one for one in found if one.move is not None]
    own = _rungs_by_move(whole)
    for one in whole:
        _check_gates(one, lambda name: own.get(name) or rungs_of(name))
    _check_held([one for one in whole if not one.check.problems], progress)
    for one in found:
        problems += one.check.problems
    return Report(in_order(problems), len(paths), [one.move for one in found if one.move])


def _rungs_by_move(files: Sequence[Checked]) -> dict[str, tuple[str, ...]]:
    """The rungs' names by move; reports moves that an earlier file holds already."""
    first: dict[str, str] = {}
    found: dict[str, tuple[str, ...]] = {}
    for one in files:
        if one.move is None:
            continue
        name = one.move.move
        if plain(name) in first:
            problem = f"move = {shown(name)} is in {first[plain(name)]} as well"
            one.check.report(("move",), problem, "give each move one file, or another name")
        first.setdefault(plain(name), one.source.file)
        found.setdefault(name, tuple(rung.rung for rung in one.move.rungs))
    return found


def _check_gates(one: Checked, rungs_of: Rungs) -> None:
    if one.move:
        gate_problems(one.check, one.raw, one.move, rungs_of)


def _check_held(files: Sequence[Checked], progress: Callable[[float], None]) -> None:
    solvable = [(one, one.move) for one in files if one.move]
    try:
        found = solved_moves([move for _, move in solvable], progress)
    except FieldError:
        solvable = [(one, move) for one, move in solvable if not _is_unreadable(one, move)]
        found = solved_moves([move for _, move in solvable], progress)
    for (one, _), rungs in zip(solvable, found, strict=True):
        for finding in held_findings(rungs):
            path = rung_path(one.raw, finding.rung) if finding.rung else ()
            one.check.report(path, finding.wrong, finding.remedy)


def _is_unreadable(one: Checked, move: Move) -> bool:
    """Whether the engine cannot read a move; reports what keeps it from that."""
    error = unreadable(move)
    if error:
        one.check.report((), f"the engine cannot read the move: {error}", "mend that entry")
    return error is not None
