"""Building a cycle as its own process: Ctrl-C at any time leaves the folder as it was."""

from __future__ import annotations

import os
import signal
import sys
import time
from pathlib import Path

import pytest
from tests.cli.ask import DEMO, files_in
from tests.cli.test_process import ON_POSIX, SAYS_READY, start

from leanmark.cli.cycle_wait import late_word


@ON_POSIX
@pytest.mark.parametrize("wait_s", [0.3, 2.0, 5.0])
def test_ctrl_c_ends_quietly_and_leaves_the_former_cycle(built: Path, tmp_path: Path, wait_s: float) -> None:
    # The whole demo squad takes longer than any of the waits, on several processors.
    (tmp_path / "cycle.json").write_bytes((built / "cycle.json").read_bytes())
    words = ("cycle", "build", DEMO, "--out", tmp_path, "--replace")
    process = start(*words, command=[sys.executable, "-c", SAYS_READY])
    assert process.stderr is not None
    assert process.stderr.readline() == "ready\n"
    time.sleep(wait_s)
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=120)
    assert (process.returncode, out, err) == (130, "", "")
    assert files_in(tmp_path) == ["cycle.json"]
    assert (tmp_path / "cycle.json").read_bytes() == (built / "cycle.json").read_bytes()


def test_a_word_comes_late_and_is_wiped_off(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    with late_word("looking"):
        pass
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("leanmark.cli.cycle_wait.SHOWN_AFTER_S", 0.01)
    with late_word("looking"):
        time.sleep(0.3)
    assert capsys.readouterr().err == f"looking …\r{' ' * 9}\r"
