"""``leanmark cycle``: a plan over weeks; each command has its file, ``cycle_<verb>.py``."""

from __future__ import annotations

import typer

from leanmark.cli import cycle_build, cycle_edit, cycle_export, cycle_show, cycle_why

group = typer.Typer(
    rich_markup_mode=None, help="Plan a squad's weeks; look at the plan, ask why, change it, print it."
)
group.command("build")(cycle_build.build)
group.command("show")(cycle_show.show)
group.command("why")(cycle_why.why)
group.command("edit")(cycle_edit.edit)
group.command("export")(cycle_export.export)
