"""``leanmark moves schema``: the JSON Schema of move files, for editors."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from leanmark.cli.places import check_file

Out = Annotated[Path | None, typer.Option("--out", help="Write it to this file instead of printing it.")]


def schema(out: Out = None) -> None:
    """Print the JSON Schema of move files, for editors that check while one types."""
    from leanmark.cli.drawn import write_whole
    from leanmark.moves.editor_schema import schema_text

    if out is None:
        typer.echo(schema_text(), nl=False)
        return
    check_file("--out", out)
    write_whole(out, schema_text())
    typer.echo(f"schema: {out}")
