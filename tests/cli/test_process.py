"""The command as its own process: start, Ctrl-C, a reader that leaves, a full disk."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.cli.ask import HER, files_in
from tests.docs.pages import ROOT

from leanmark import __version__

COMMAND = [sys.executable, "-W", "error", "-m", "leanmark.cli.main"]
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
SAYS_READY = """
import sys
from leanmark.cli.main import main
sys.argv[0] = "leanmark"
print("ready", file=sys.stderr, flush=True)
main()
"""
ON_POSIX = pytest.mark.skipif(os.name != "posix", reason="signals and pipes of POSIX")


def start(
    *words: str | Path, command: list[str] = COMMAND, out: int = subprocess.PIPE
) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [*command, *map(str, words)],
        env=ENVIRONMENT,
        stdout=out,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        start_new_session=True,
    )


def run(*words: str | Path) -> tuple[int, str, str]:
    process = start(*words)
    out, err = process.communicate(timeout=120)
    return process.returncode, out, err


def test_the_version_is_printed() -> None:
    assert run("--version") == (0, f"{__version__}\n", "")


@pytest.mark.parametrize("words", [(), ("--help",)])
def test_without_words_the_help_is_printed(words: tuple[str, ...]) -> None:
    code, out, err = run(*words)
    assert (code, err) == (0, "")
    assert "Usage: leanmark" in out
    for command in ("moves", "load", "mark", "chart", "calibrate", "cards", "cycle", "floor"):
        assert f"  {command} " in out


def test_a_load_is_answered() -> None:
    code, out, err = run("load", "row", *HER)
    assert (code, err) == (0, "")
    assert out.startswith("row, ")


def test_wrong_input_is_one_line_and_exit_code_2() -> None:
    code, out, err = run("load", "row", "--stature", "178", "--mass", "75")
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith("leanmark: --stature = '178' ")


@ON_POSIX
@pytest.mark.parametrize("wait_s", [0.05, 0.2, 0.4, 0.7, 1.0, 2.0])
def test_ctrl_c_ends_quietly_and_leaves_nothing_half_written(tmp_path: Path, wait_s: float) -> None:
    # Warnings as people have them, not as errors: a signal amid an import leaves the interpreter's own file
    # unclosed, which it would then report.
    words = ("cards", ROOT / "demo" / "squad.toml", "--out", tmp_path / "out")
    process = start(*words, command=[sys.executable, "-c", SAYS_READY])
    assert process.stderr is not None
    assert process.stderr.readline() == "ready\n"
    time.sleep(wait_s)
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=120)
    assert (process.returncode, out, err) == (130, "", "")
    assert [name for name in files_in(tmp_path) if name.endswith((".pdf", ".svg", ".part"))] == []


@ON_POSIX
def test_a_reader_that_leaves_is_no_error() -> None:
    reader, writer = os.pipe()
    os.close(reader)
    process = start("moves", "--json", out=writer)
    os.close(writer)
    _, err = process.communicate(timeout=60)
    assert err == ""
    assert process.returncode == 1


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_said_in_one_line() -> None:
    with Path("/dev/full").open("w") as full:
        process = start("moves", out=full.fileno())
        _, err = process.communicate(timeout=60)
    assert process.returncode == 2
    assert err.count("\n") == 1
    assert "No space left" in err
