"""``leanmark cycle edit``: change a plan by hand; the rest is planned again around it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.options import Json
from leanmark.cli.places import check_file
from leanmark.cli.printed import print_json
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.edit import Change
    from leanmark.cycle.form import Cycle, Pin

_MOST_SETS: Final = 10
_MOST_REPS: Final = 60
"""As a pin of ``cycle.form`` allows."""


def edit(
    cycle_file: n.CycleFile,
    trainee: n.OneTrainee,
    session: Annotated[
        int, typer.Option("--session", help="Only this session by its number; left out, all with the move.")
    ] = 0,
    swap: Annotated[
        tuple[str, str] | None, typer.Option("--swap", help="A move for another: --swap row 'one-arm row'.")
    ] = None,
    keep: Annotated[str | None, typer.Option("--keep", help="A move that has to be there.")] = None,
    drop: Annotated[str | None, typer.Option("--drop", help="A move that must not be there.")] = None,
    sets: Annotated[
        tuple[str, int] | None, typer.Option("--sets", help="A move's sets: --sets row 4.")
    ] = None,
    reps: Annotated[
        tuple[str, int] | None, typer.Option("--reps", help="A move's reps: --reps row 12.")
    ] = None,
    mark: Annotated[
        tuple[str, str] | None, typer.Option("--mark", help="A move's floor mark: --mark row '-60 cm'.")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", help="File for the edited cycle; the cycle file itself if left out."),
    ] = None,
    as_json: Json = False,
) -> None:
    """Change a trainee's plan by hand, plan the rest again around it, and print what else changed.

    What is fixed by hand stays through later edits and builds. The former issue is kept beside the file.
    """
    from leanmark.cli.cycle_revision import earlier_issue, keep_former
    from leanmark.cli.cycle_show import chosen
    from leanmark.cli.cycle_wait import late_word
    from leanmark.cycle import edit as editing
    from leanmark.cycle.files.json_file import write_cycle

    cycle, _ = n.read_both(cycle_file)
    name = n.find_name(trainee, n.trainees_of(cycle))
    chosen(cycle, name, None, session or None)
    pins = _pins(cycle, name, session, swap, keep, drop, sets, reps, mark)
    target = out or cycle_file
    check_file("--out" if out else "CYCLE_FILE", target)
    if out:
        earlier_issue(out, cycle.uid)
    with late_word("planning the rest anew"):
        made = editing.edit(cycle, pins, today=n.today())
    kept = None if out else keep_former(target, cycle)
    write_cycle(made.cycle, target)
    if as_json:
        print_json({"file": str(target), "revision": made.cycle.revision, "changes": made.changes})
        return
    typer.echo("\n".join(_words(cycle, made.cycle, name, pins, made.changes)))
    held = f"; the former one is kept as {kept.name}" if kept else ""
    typer.echo(f"\nwritten to {target}, revision {made.cycle.revision}{held}")
    typer.echo(f"sheets and calendars anew: leanmark cycle export {target} --out {target.parent}")


def _pins(
    cycle: Cycle,
    trainee: str,
    session: int,
    swap: tuple[str, str] | None,
    keep: str | None,
    drop: str | None,
    sets: tuple[str, int] | None,
    reps: tuple[str, int] | None,
    mark: tuple[str, str] | None,
) -> list[Pin]:
    """The edits as typed, in the order of the options; all that is said of one move is one edit, so that a
    move can come in with its sets.

    Raises FieldError where nothing is to be edited, and for moves and numbers that cannot be.
    """
    import msgspec

    from leanmark.cycle.form import Pin
    from leanmark.cycle.pins import fixed_move

    pins = []
    if swap:
        old, new = (n.find_move("--swap", name, cycle) for name in swap)
        pins.append(Pin(trainee, session, "swap", old, other=new))
    if keep is not None:
        pins.append(Pin(trainee, session, "keep", n.find_move("--keep", keep, cycle)))
    if drop is not None:
        pins.append(Pin(trainee, session, "drop", n.find_move("--drop", drop, cycle)))
    for dose in _doses(cycle, trainee, session, sets, reps, mark):
        fixing = next((at for at, pin in enumerate(pins) if fixed_move(pin) == dose.move), None)
        if fixing is None:
            pins.append(dose)
        else:
            more = {"sets": dose.sets, "reps": dose.reps, "mark_m": dose.mark_m}
            pins[fixing] = msgspec.structs.replace(pins[fixing], **more)
    if not pins:
        options = "--swap, --keep, --drop, --sets, --reps or --mark"
        raise FieldError("the edit", "nothing", options, "say what to change: --keep row")
    return pins


def _doses(
    cycle: Cycle,
    trainee: str,
    session: int,
    sets: tuple[str, int] | None,
    reps: tuple[str, int] | None,
    mark: tuple[str, str] | None,
) -> Iterator[Pin]:
    """Sets, reps and marks, an edit for each move."""
    from leanmark.cli.quantities import read_quantity
    from leanmark.cycle.form import Pin

    many = {n.find_move("--sets", sets[0], cycle): _count("--sets", sets[1], _MOST_SETS)} if sets else {}
    often = {n.find_move("--reps", reps[0], cycle): _count("--reps", reps[1], _MOST_REPS)} if reps else {}
    where = {n.find_move("--mark", mark[0], cycle): read_quantity("--mark", mark[1])} if mark else {}
    for move in dict.fromkeys((*many, *often, *where)):
        yield Pin(
            trainee,
            session,
            "dose",
            move,
            sets=many.get(move, 0),
            reps=often.get(move, 0),
            mark_m=where.get(move),
        )


def _count(option: str, number: int, most: int) -> int:
    """A number of sets or reps. Raises FieldError for one that cannot be."""
    if not 1 <= number <= most:
        remedy = "leave a move out with --drop" if number == 0 else "give a number within these"
        raise FieldError(option, number, f"1 to {most}", remedy)
    return number


def _words(
    before: Cycle, after: Cycle, trainee: str, pins: Sequence[Pin], changes: Sequence[Change]
) -> Iterator[str]:
    """What was asked for, what else changed, and what is new to know."""
    from leanmark.cli.cycle_overview import TESTS, wrapped
    from leanmark.cycle.edit import plan_of
    from leanmark.cycle.pins import moves_of

    asked_moves = {move for pin in pins for move in moves_of(pin)}
    asked = [change for change in changes if change.move in asked_moves]
    others = [change for change in changes if change.move not in asked_moves]
    yield f"{trainee}: as asked"
    yield from map(_change_words, asked)
    if not asked:
        yield wrapped("  nothing had to change: it was so already, and is fixed from now on")
    yield "what else changed" if others else "nothing else changed"
    yield from map(_change_words, others)
    known = plan_of(before, trainee).notes
    for note in plan_of(after, trainee).notes:
        if note not in known and not note.startswith(TESTS):
            yield wrapped(f"new to know: {note}", "", "  ")


def _change_words(change: Change) -> str:
    from leanmark.cli.cycle_overview import wrapped

    match change.kind:
        case "changes":
            said = f"{change.before} → {change.after}"
        case "comes in":
            said = f"comes in: {change.after}"
        case "goes out":
            said = f"goes out: {change.before}"
    return wrapped(f"session {change.session}: {change.move}: {said}", "  ", "    ")
