"""A cycle that is built into a folder which holds one: a new revision of it, or a plain refusal."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from leanmark.errors import FieldError, one_line

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle
    from leanmark.squad.squad import Squad


_ROUNDING: Final = 1e-6
"""Own figure: far above what rounding leaves of lengths, shares and newtons, far below what is printed."""


def earlier_issue(
    path: Path, uid: str, *, replaces: bool = False, remedy: str = "name another place"
) -> Cycle | None:
    """The cycle at ``path`` where it is an issue of the one with this uid; None where nothing is there, or it
    may be replaced.

    Raises FieldError for another squad's cycle, and for a file that is none, unless it may be replaced.
    """
    from leanmark.cycle.files.json_file import read_cycle
    from leanmark.cycle.files.problems import CycleFileError

    if not path.exists():
        return None
    try:
        found = read_cycle(path)
    except CycleFileError:
        if replaces:
            return None
        raise _not_ours(path, "another file", remedy) from None
    if found.uid == uid:
        return found
    if replaces:
        return None
    raise _not_ours(path, f"'{one_line(found.name)}' of '{one_line(found.squad)}'", remedy)


def _not_ours(path: Path, there: str, remedy: str) -> FieldError:
    allowed = f"a place without the cycle of others; {path.name} there is {there}"
    return FieldError("--out", one_line(str(path.parent), longest=200), allowed, remedy)


def with_others(made: Cycle, earlier: Cycle, squad: Squad) -> Cycle:
    """The cycle of some trainees together with the earlier plans of the others.

    Raises FieldError where the squad file has changed in what the others' plans rest on.
    """
    import msgspec

    built = {plan.trainee: plan for plan in made.plans}
    names = [one.name for one in squad.trainees]
    others = {
        plan.trainee: plan for plan in earlier.plans if plan.trainee in names and plan.trainee not in built
    }
    changed = _changed(earlier, squad, [*others])
    if changed:
        raise FieldError(
            "--trainee", ", ".join(built), f"everybody, since the squad file has changed: {changed}",
            "leave --trainee out, so that all are built",
        )  # fmt: skip
    plans = {**others, **built}
    return msgspec.structs.replace(made, plans=tuple(plans[name] for name in names if name in plans))


def _changed(earlier: Cycle, squad: Squad, names: Sequence[str]) -> str:
    """What is not as it was when the plans of ``names`` were built; empty where all is."""
    from leanmark.cycle.edit import squad_of

    before = squad_of(earlier)
    for what in ("rig", "kit", "cycle"):
        if names and getattr(before, what) != getattr(squad, what):
            return what
    old, new = ({one.name: one for one in it.trainees} for it in (before, squad))
    return ", ".join(name for name in names if old.get(name) != new[name])


def next_issue(made: Cycle, earlier: Cycle | None) -> Cycle:
    """The cycle under the next revision, or the earlier issue itself where nothing has changed."""
    import msgspec

    if earlier is None:
        return made
    alike = msgspec.structs.replace(made, revision=earlier.revision)
    if _same(msgspec.to_builtins(alike), msgspec.to_builtins(earlier)):
        return earlier
    return msgspec.structs.replace(made, revision=earlier.revision + 1)


def _same(one: object, other: object) -> bool:
    """Whether plain data are alike but for what rounding leaves: it comes out otherwise when other trainees
    are solved side by side."""
    match one, other:
        case dict(), dict():
            return one.keys() == other.keys() and all(_same(one[key], other[key]) for key in one)
        case ((list() | tuple()), (list() | tuple())):
            return len(one) == len(other) and all(map(_same, one, other))
        case float(), float():
            return math.isclose(one, other, rel_tol=_ROUNDING, abs_tol=_ROUNDING)
    return one == other


def keep_former(path: Path, former: Cycle) -> Path:
    """Write a cycle beside the file that takes its place: ``cycle-revision-0.json``; gives its path."""
    from leanmark.cycle.files.json_file import write_cycle

    return write_cycle(former, path.with_name(f"{path.stem}-revision-{former.revision}{path.suffix}"))
