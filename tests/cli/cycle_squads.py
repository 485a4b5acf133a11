"""Small squad files that ask for a cycle."""

from __future__ import annotations

from pathlib import Path

HEAD = """squad = "Boathouse"
[rig]
name = "Beam"
anchor_height_m = 2.45
anchors = 2
[rig.settings_m]
short = 1.23
long = 2.1
[cycle]
name = "{name}"
starts = 2027-03-01
weeks = 1
days = {days}
minutes = {minutes}
"""
PEOPLE = {
    "Asta Å": """[[trainee]]
name = "Asta Å"
stature_m = 1.64
mass_kg = 61.5
sex = "female"
level = "trained"
group = "Early"
""",
    "Birk": """[[trainee]]
name = "Birk"
stature_m = 1.83
mass_kg = 79
sex = "male"
level = "trained"
group = "Late"
""",
}


def write_cycle_squad(
    folder: Path,
    *,
    extra: str = "",
    name: str = "Spring",
    days: str = '["mon", "thu"]',
    minutes: float = 60,
    people: tuple[str, ...] = ("Asta Å", "Birk"),
) -> Path:
    """A week for Asta Å and Birk, from Monday 1 March 2027; ``extra`` goes below the last one's fields."""
    path = folder / "squad.toml"
    head = HEAD.format(name=name, days=days, minutes=minutes)
    path.write_text(head + "".join(PEOPLE[one] for one in people) + extra, encoding="utf-8")
    return path
