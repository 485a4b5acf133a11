"""Files stay as small as CONTRIBUTING.md says."""

from __future__ import annotations

from tests.docs.pages import ROOT

MOST_LINES = 400  # own figure, as in CONTRIBUTING.md under "Habits"


def test_no_source_file_outgrows_its_room() -> None:
    files = [file for part in ("src", "tests", "benchmarks") for file in ROOT.glob(f"{part}/**/*.py")]
    lengths = {file: len(file.read_text(encoding="utf-8").splitlines()) for file in files}
    assert lengths, "no source files found: is the path right?"
    large = {str(file.relative_to(ROOT)): lines for file, lines in lengths.items() if lines > MOST_LINES}
    assert not large, f"more than {MOST_LINES} lines, so split by subject: {large}"
