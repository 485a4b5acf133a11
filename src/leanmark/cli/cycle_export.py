"""``leanmark cycle export``: a cycle's tables, calendars, sheets or JSON, anew or elsewhere."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from leanmark.cli import cycle_named as n
from leanmark.cli.places import check_folder
from leanmark.errors import FieldError

if TYPE_CHECKING:
    from leanmark.cycle.form import Cycle
    from leanmark.squad.squad import Squad


def export(
    cycle_file: n.CycleFile,
    out: Annotated[Path, typer.Option("--out", help="Folder for all that is written.")],
    csv: Annotated[bool, typer.Option("--csv", help="Every set as CSV, for a spreadsheet.")] = False,
    parquet: Annotated[bool, typer.Option("--parquet", help="Every set as Parquet, for analysis.")] = False,
    calendar: Annotated[bool, typer.Option("--calendar", help="Calendar files.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The cycle itself, of all trainees.")] = False,
    sheets: Annotated[bool, typer.Option("--sheets", help="Session sheets, overview and tapes.")] = False,
    trainee: n.AnyTrainees = None,
    paper: n.Paper = "a4",
    earlier: Annotated[
        Path | None,
        typer.Option("--earlier", help="The issue that calendars hold: what is gone gets cancelled."),
    ] = None,
) -> None:
    """Write what is named of a cycle into a folder, or everything if nothing is named."""
    from leanmark.cli import cycle_files as f
    from leanmark.cli.cycle_build import make_sheets
    from leanmark.cli.cycle_revision import earlier_issue
    from leanmark.cycle.files.json_file import cycle_json, read_cycle

    cycle, squad = n.read_both(cycle_file)
    names = n.find_names(trainee, n.trainees_of(cycle))
    n.check_sheet_paper(paper)
    check_folder("--out", out)
    former = read_cycle(earlier) if earlier else None
    everything = not (csv or parquet or calendar or as_json or sheets)
    own = _of(cycle, names)
    files: list[tuple[str, bytes]] = []
    if as_json or everything:
        earlier_issue(out / f.CYCLE_FILE, cycle.uid)
        files.append((f.CYCLE_FILE, cycle_json(cycle)))
    files += f.table_files(own, csv=csv or everything, parquet=parquet or everything)
    if calendar or everything:
        files += _calendars(own, squad, former)
    if sheets or everything:
        files += make_sheets(own, squad, paper)
    out.mkdir(parents=True, exist_ok=True)
    for path in f.write_files(out, files):
        typer.echo(path)


def _of(cycle: Cycle, names: list[str]) -> Cycle:
    """The cycle of these trainees alone; of all where none is named."""
    import msgspec

    if not names:
        return cycle
    return msgspec.structs.replace(cycle, plans=tuple(p for p in cycle.plans if p.trainee in names))


def _calendars(cycle: Cycle, squad: Squad, former: Cycle | None) -> list[tuple[str, bytes]]:
    from leanmark.cli.cycle_files import calendar_files

    if former and (former.uid != cycle.uid or former.revision >= cycle.revision):
        allowed = f"an issue of '{cycle.name}' before revision {cycle.revision}"
        given = f"'{former.name}', revision {former.revision}"
        raise FieldError("--earlier", given, allowed, "name the file of an earlier issue")
    return list(calendar_files(cycle, squad, former))
