"""Whom an answer is for when nobody is named: the woman of the 50th percentile."""

from __future__ import annotations

from pathlib import Path


def or_typical(
    squad: Path | None, stature: str | None, mass: str | None, sex: str | None
) -> tuple[str | None, str | None, str | None]:
    """Stature, mass and sex as given; where neither a squad nor a size is, those of the 50th-percentile
    woman."""
    if squad or stature or mass:
        return stature, mass, sex
    from leanmark.moves.ladder.panel import typical_people

    build = typical_people().builds[0]
    return f"{build.stature_m:g} m", f"{build.mass_kg:g} kg", sex or build.sex
