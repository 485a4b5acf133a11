"""What a move's card shows, as plain data: a front for the trainee, a back for the coach. All text is ready
to print; nothing is computed here."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """A picture drawn in the print theme, and its caption."""

    caption: str
    svg: str


@dataclass(frozen=True)
class RungLine:
    """One rung. thumb_svg: its rep in one small picture. demand, step: as in the ladder; opens: what opens
    it, empty if nothing must; own texts are empty where the move's hold."""

    number: int
    name: str
    note: str
    thumb_svg: str
    demand: str
    step: str
    straps: str
    floor: str
    mark: str
    setting: str
    base: str
    lever: str
    stages: str
    opens: tuple[str, ...]
    cues: tuple[str, ...]
    faults: tuple[tuple[str, str], ...]
    caution: str


@dataclass(frozen=True)
class MoveCard:
    """One move. shown: the rung of the large figures; about: for whom and under what anchor the numbers are;
    works, helps: joint action and muscles; finer: floor marks between two rungs, in words."""

    title: str
    kind: str
    purpose: str
    shown: str
    about: str
    figures: tuple[Figure, ...]
    setup: str
    setting: str
    mark: str
    tempo: str
    stages: str
    breathing: str
    cues: tuple[str, ...]
    faults: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    stop: tuple[str, ...]
    not_for: tuple[str, ...]
    works: tuple[tuple[str, str], ...]
    helps: tuple[tuple[str, str], ...]
    rungs: tuple[RungLine, ...]
    finer: tuple[str, ...]
    safety: tuple[tuple[str, str], ...]
