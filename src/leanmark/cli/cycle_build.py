"""``leanmark cycle build``: a squad file in; the cycle, its tables, calendars and sheets out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.options import Json
from leanmark.cli.places import check_folder
from leanmark.cli.printed import print_json
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle
    from leanmark.squad.squad import Squad

FEW: Final = 3
"""Trainees up to whom other processors cost more to start than they save; own figure."""
PLACES_A_TRAINEE: Final = 40
"""Positions that a trainee's plan is worth when processors are shared out; own figure, seconds of work."""


def build(
    squad_file: Annotated[Path, typer.Argument(help="The squad file (TOML), with a table [cycle].")],
    out: Annotated[Path, typer.Option("--out", help="Folder for all that is written.")] = Path("cycle"),
    seed: Annotated[
        int | None, typer.Option("--seed", help="Of the solver; the squad file's if left out.")
    ] = None,
    trainee: n.AnyTrainees = None,
    today: Annotated[
        str | None,
        typer.Option("--today", help="Sessions before this date are told of; the real date if left out."),
    ] = None,
    paper: n.Paper = "a4",
    no_sheets: Annotated[
        bool, typer.Option("--no-sheets", help="Leave the PDFs out: much quicker for a large squad.")
    ] = False,
    replaces: Annotated[
        bool, typer.Option("--replace", help="Overwrite the cycle of another squad in the folder.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Build the cycle that a squad file asks for: JSON, tables, calendars, and sheets as PDF.

    A folder that holds the same cycle gets a new revision of it, with the edits made by hand.
    """
    from leanmark.cli.cycle_files import CYCLE_FILE, write_files
    from leanmark.cli.cycle_revision import earlier_issue, keep_former
    from leanmark.cycle.build import cycle_uid

    squad = read_with_cycle(squad_file)
    names = n.find_names(trainee, [one.name for one in squad.trainees])
    day = n.today() if today is None else n.read_date("--today", today)
    n.check_sheet_paper(paper)
    check_folder("--out", out)
    former = earlier_issue(
        out / CYCLE_FILE,
        cycle_uid(squad),
        replaces=replaces,
        remedy="name another folder, or add --replace",
    )
    cycle = build_with_bar(squad, names, seed, day, former)
    files = make_files(cycle, squad, None if no_sheets else paper, former)
    out.mkdir(parents=True, exist_ok=True)
    kept = keep_former(out / CYCLE_FILE, former) if former and former != cycle else None
    written = write_files(out, files)
    if as_json:
        print_json(_as_data(cycle, written, kept))
        return
    _print(cycle, out, kept)


def read_with_cycle(path: Path) -> Squad:
    """A squad file that asks for a cycle of moves that are there.

    Raises FieldError where it asks for none, SquadFileError where it cannot be used.
    """
    from leanmark.cli.asked import read_checked
    from leanmark.squad.check import check_wishes

    squad = read_checked(path)
    if squad.cycle is None:
        remedy = f"add it to {path.name} with starts, weeks and days"
        raise FieldError("[cycle]", "nothing", "a table [cycle] in the squad file", remedy)
    check_wishes(squad)
    return squad


def build_with_bar(
    squad: Squad, names: Sequence[str], seed: int | None, today: dt.date, former: Cycle | None
) -> Cycle:
    """The squad's cycle as the next revision of ``former``, built on all processors while a bar shows how
    far it is. names: of trainees to build, empty for all."""
    from leanmark.cli.cards import progress_stream
    from leanmark.cli.cycle_revision import next_issue, with_others
    from leanmark.cycle.build import build
    from leanmark.each import processors

    count = len(names) or len(squad.trainees)
    pins = former.pins if former else ()
    with (
        processors(PLACES_A_TRAINEE * (count > FEW)) as each,
        typer.progressbar(length=count, label="trainees", file=progress_stream()) as bar,
    ):
        made = build(
            squad,
            pins=pins,
            before=former if pins else None,
            names=names or None,
            seed=seed,
            today=today,
            each=each,
            done=bar.update,
        )
    whole = with_others(made, former, squad) if former and names else made
    return next_issue(whole, former)


def make_files(
    cycle: Cycle, squad: Squad, paper: str | None, former: Cycle | None = None
) -> list[tuple[str, bytes]]:
    """Everything that is written of a cycle, the sheets while a bar shows how far they are. paper: None for
    no sheets; former: the issue that calendars hold already."""
    from leanmark.cli import cycle_files as f
    from leanmark.cycle.files.json_file import cycle_json

    earlier = former if former and former.revision < cycle.revision else None
    files = [(f.CYCLE_FILE, cycle_json(cycle)), *f.table_files(cycle)]
    files += f.calendar_files(cycle, squad, earlier)
    return files if paper is None else [*files, *make_sheets(cycle, squad, paper)]


def make_sheets(cycle: Cycle, squad: Squad, paper: str) -> list[tuple[str, bytes]]:
    """The sheets of a cycle, while a bar shows how far they are."""
    from leanmark.cli import cycle_files as f
    from leanmark.cli.cards import progress_stream
    from leanmark.each import processors

    count = f.sheet_count(cycle)
    with (
        processors(sum(len(plan.sessions) for plan in cycle.plans)) as each,
        typer.progressbar(length=count, label="sheets", file=progress_stream()) as bar,
    ):
        return list(f.sheet_files(cycle, squad, n.check_sheet_paper(paper), each, lambda: bar.update(1)))


def _print(cycle: Cycle, out: Path, kept: Path | None) -> None:
    from leanmark.cli.cycle_files import CYCLE_FILE
    from leanmark.cli.cycle_overview import notes_words, overview_words

    typer.echo(overview_words(cycle))
    typer.echo(f"\n{notes_words(cycle.plans)}\n")
    held = f"; the former one is kept as {kept.name}" if kept else ""
    typer.echo(f"written to {out}, revision {cycle.revision}{held}")
    if not (out / "overview.pdf").exists():
        typer.echo(f"no sheets: leanmark cycle export {out / CYCLE_FILE} --sheets --out {out}")
    typer.echo(
        f"to read it here: leanmark cycle show {out / CYCLE_FILE} --trainee '{cycle.plans[0].trainee}'"
    )


def _as_data(cycle: Cycle, written: Sequence[Path], kept: Path | None) -> dict[str, object]:
    """What was built and where it was written, as plain data."""
    return {
        "uid": cycle.uid,
        "revision": cycle.revision,
        "former": str(kept) if kept else None,
        "files": [str(path) for path in written],
        "plans": [
            {
                "trainee": plan.trainee,
                "sessions": len(plan.sessions),
                "sets": sum(line.sets for session in plan.sessions for line in session.lines),
                "objective": plan.objective,
                "bound": plan.bound,
                "notes": plan.notes,
            }
            for plan in cycle.plans
        ],
    }
