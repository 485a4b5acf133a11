"""Small squad files for commands to read."""

from __future__ import annotations

from pathlib import Path

HEAD = """squad = "Boathouse"
units = "{units}"
[rig]
name = "Beam"
anchor_height_m = 2.45
rated_load_kn = 12
[rig.settings_m]
short = 1.23
[cards]
moves = ["row", "chest press"]
loads_percent = [30, 40]
"""
PERSON = """[[trainee]]
name = "{name}"
stature_m = {stature_m}
mass_kg = {mass_kg}
sex = "female"
"""


def write_squad(folder: Path, extra: str = "", units: str = "metric", name: str = "squad.toml") -> Path:
    """Two trainees, Asta and Birk Å; ``extra`` goes below Birk's fields."""
    path = folder / name
    people = [("Asta", 1.64, 61.5), ("Birk Å", 1.83, 79)]
    tables = [PERSON.format(name=n, stature_m=stature_m, mass_kg=mass_kg) for n, stature_m, mass_kg in people]
    path.write_text(HEAD.format(units=units) + "".join(tables) + extra, encoding="utf-8")
    return path
