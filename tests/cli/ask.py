"""Ask the command as a shell does, inside this process: what it says, and the exit code."""

from __future__ import annotations

import io
import json
import sys
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

from tests.docs.pages import ROOT

from leanmark.cli.main import main

DEMO = ROOT / "demo" / "squad.toml"
HER = ("--stature", "178 cm", "--mass", "74 kg", "--sex", "female")


@dataclass(frozen=True)
class Said:
    """What a command said, and its exit code."""

    code: int
    out: str
    err: str

    @property
    def data(self) -> Any:  # noqa: ANN401
        """The JSON that was printed."""
        return json.loads(self.out)


def ask(*words: str | Path, encoding: str = "utf-8") -> Said:
    """Run ``leanmark`` with these words."""
    streams = [io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="\n") for _ in range(2)]
    command = patch.object(sys, "argv", ["leanmark", *map(str, words)])
    code = 0
    with redirect_stdout(streams[0]), redirect_stderr(streams[1]), command:
        try:
            main()
        except SystemExit as end:
            code = int(end.code or 0)
    return Said(code, *(_text(stream) for stream in streams))


def _text(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()


def refused(*words: str | Path) -> str:
    """What is said about input that cannot be used: exit code 2, one line, nothing on the output."""
    said = ask(*words)
    assert said.code == 2, said
    assert said.out == ""
    assert said.err.startswith("leanmark: ")
    assert said.err.endswith("\n")
    line = said.err[len("leanmark: ") : -1]
    assert line.isprintable(), line
    return line


def files_in(folder: Path) -> list[str]:
    """Every file and folder below a folder, by name."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))
