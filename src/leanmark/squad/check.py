"""What a squad file says of a cycle against the move library: moves, rungs, families, and words for what to
leave out and what hurts."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cache
from itertools import product
from typing import NamedTuple

from leanmark.moves.find import joint_words
from leanmark.moves.library import families, load_move, move_names
from leanmark.moves.muscles import ACTIONS
from leanmark.moves.restrictions import RESTRICTIONS
from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.problems import SquadFileError, SquadProblem, show
from leanmark.squad.squad import Squad, Trainee
from leanmark.squad.text import nearest
from leanmark.squad.wishes import LOW_BACK, SIDES

Named = tuple[ValuePath, str, str, Collection[str]]
"""Where a name stands, the name, what it has to be, and all the names there are."""


class _Library(NamedTuple):
    """The names that the library has now; a coach's own moves come and go."""

    moves: tuple[str, ...]
    families: tuple[str, ...]
    avoid: tuple[str, ...]


def check_wishes(squad: Squad) -> None:
    """Check every name in the wishes of a squad's trainees against the library.

    Raises:
        SquadFileError: one problem for each name that is not known, with the nearest known name.
    """
    library = _Library(move_names(), tuple(families()), avoid_words())
    problems = [
        _problem(squad, at, (("trainee", at, *path), name, what, known))
        for at, trainee in enumerate(squad.trainees)
        for path, name, what, known in _named(trainee, library)
        if name not in known
    ]
    if problems:
        raise SquadFileError(problems)


@cache
def pain_places() -> tuple[str, ...]:
    """What ``place`` of a pain note may be: joints without and with a side, and the low back."""
    joints = tuple(word for word in joint_words() if word not in ACTIONS)
    return (*joints, *(f"{side} {joint}" for side, joint in product(SIDES, joints)), LOW_BACK)


def avoid_words() -> tuple[str, ...]:
    """What ``avoid`` may name: restrictions, joints and their actions, families, moves."""
    return (*RESTRICTIONS, *joint_words(), *families(), *move_names())


def _problem(squad: Squad, at: int, entry: Named) -> SquadProblem:
    path, name, what, known = entry
    near = nearest(name, sorted(known))
    remedy = f"write {show(near)}" if near else f"name {what}, or delete it"
    where = f"trainee {at + 1} {show(squad.trainees[at].name)}"
    line, field = squad.origin.lines.line(path), field_name(path)
    is_key = path[-1] == name
    given = f"{field_name(path[:-1])} has {show(name)}, which" if is_key else f"{field} = {show(name)}"
    return SquadProblem(squad.origin.file, line, where, field, f"{given} is not {what}", remedy)


def _named(trainee: Trainee, library: _Library) -> Iterator[Named]:
    """Every name in a trainee's wishes; paths start at the trainee."""
    wishes = trainee.wishes
    moves = library.moves
    for field in ("likes", "dislikes", "must"):
        yield from _each(field, getattr(wishes, field), "a move of the library", moves)
    yield from _each("emphasis", wishes.emphasis, "a family of the library", library.families)
    for family in wishes.levels:
        yield ("levels", family), family, "a family of the library", library.families
    for at, gate in enumerate(wishes.gates):
        yield ("gates", at, "move"), gate.move, "a move of the library", moves
        if gate.move in moves:
            yield ("gates", at, "rung"), gate.rung, f"a rung of {gate.move}", _rungs_of(gate.move)
    what = "a restriction, a joint, a joint action, a family or a move"
    yield from _each("avoid", wishes.avoid, what, library.avoid)
    for at, pain in enumerate(wishes.pain):
        yield ("pain", at, "place"), pain.place, "a joint, with or without its side", pain_places()


def _each(field: str, names: tuple[str, ...], what: str, known: Collection[str]) -> Iterator[Named]:
    for at, name in enumerate(names):
        yield (field, at), name, what, known


def _rungs_of(move: str) -> tuple[str, ...]:
    return tuple(rung.rung for rung in load_move(move).rungs)
