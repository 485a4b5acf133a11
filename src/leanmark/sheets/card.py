"""What stands on a trainee's card, as plain words and drawn figures."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class CardRow:
    """One wanted load of a move: where to stand for it and what to expect there, all as shown text.

    mark_range: the marks that give the wanted load within its interval. note: a caution, or,
    when the load cannot be had and ``floor_mark`` is empty, the reason.
    """

    rung: str
    wanted_load: str
    floor_mark: str
    mark_range: str
    expected_load: str
    note: str = ""


@dataclass(frozen=True)
class CardMove:
    """One move. figure_svg: a figure drawn ``FIGURE_WIDTH_PT`` by ``FIGURE_HEIGHT_PT`` (see ``cards``) in the
    print theme, or empty. marks_held: the marks between which the position holds, where that is one stretch
    for all rows; they need no ``mark_range`` then."""

    title: str
    setup: str
    strap_setting: str
    caution: str
    figure_svg: str
    rows: tuple[CardRow, ...]
    cues: tuple[str, ...] = ()
    marks_held: str = ""


@dataclass(frozen=True)
class Card:
    """One trainee's card. build, rig: lines of text that say for whom and where the marks hold."""

    trainee: str
    build: str
    rig: str
    date: str
    moves: tuple[CardMove, ...]
