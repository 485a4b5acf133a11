"""A small cycle, built once for all tests that read one."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask
from tests.cli.cycle_squads import write_cycle_squad


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the cycle of Asta and Birk, built without sheets. Tests read it and leave it alone."""
    folder = tmp_path_factory.mktemp("cycle")
    said = ask(
        "cycle", "build", write_cycle_squad(folder), "--out", folder, "--no-sheets", "--today", "2027-01-01"
    )
    assert said.code == 0, said
    return folder


@pytest.fixture
def cycle_file(built: Path, tmp_path: Path) -> Path:
    """The cycle file alone, in a folder of the test's own."""
    copy = tmp_path / "cycle.json"
    copy.write_bytes((built / "cycle.json").read_bytes())
    return copy
