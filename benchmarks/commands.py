"""Wall time of whole processes: the cards of the demo squad, one load, and a bare start of the interpreter.

Run from the top folder: ``python -m benchmarks.commands``.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from benchmarks.timing import machine

RUNS = 5
AIM_S = {"leanmark cards": 10.0, "leanmark load": 0.5}
LEANMARK = [sys.executable, "-c", "from leanmark.cli.main import main; main()"]


def commands(out: str) -> dict[str, list[str]]:
    """What is run."""
    return {
        "python -c pass": [sys.executable, "-c", "pass"],
        "python -c 'import numpy'": [sys.executable, "-c", "import numpy"],
        "leanmark load": [
            *LEANMARK,
            "load",
            "row",
            "--stature",
            "1.75 m",
            "--mass",
            "70 kg",
            "--anchor",
            "2.45 m",
        ],
        "leanmark cards": [*LEANMARK, "cards", "demo/squad.toml", "--out", out],
    }


def wall_s(command: list[str]) -> float:
    """Seconds from start to exit; a command that fails ends the benchmark."""
    began = time.perf_counter()
    found = subprocess.run(command, check=False, capture_output=True, text=True)
    spent = time.perf_counter() - began
    if found.returncode:
        sys.exit(found.stderr)
    return spent


def run() -> None:
    """Print the median and the spread of every command, beside the start of Python with NumPy."""
    peer_s = 0.0
    with tempfile.TemporaryDirectory() as folder:
        for name, command in commands(str(Path(folder) / "cards")).items():
            seconds = sorted(wall_s(command) for _ in range(RUNS))
            middle = median(seconds)
            peer_s = middle if "numpy" in name else peer_s
            ratio = f", {middle / peer_s:.1f} x NumPy alone" if peer_s else ""
            aim = f", aim {AIM_S[name]:g} s" if name in AIM_S else ""
            print(f"  {name:26s} {middle:.2f} s ({seconds[0]:.2f}–{seconds[-1]:.2f}){ratio}{aim}")


if __name__ == "__main__":
    print(machine())
    run()
