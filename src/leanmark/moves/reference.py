"""The generated parts of ``docs/move-library.md``.

``python -m leanmark.moves.reference docs`` writes them anew; a test says when they are behind the library.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path
from typing import Final

from leanmark.moves.ladder.demand import solved_ladders
from leanmark.moves.ladder.panel import MASSES_KG, PERCENTILES, STATURES_M, typical_people
from leanmark.moves.ladder.steps import OTHER_STEPS
from leanmark.moves.ladder.table import RungLine, lines_of
from leanmark.moves.library import families, load_move, move_names
from leanmark.moves.names import CHECKED_ANCHOR_M
from leanmark.moves.of_rung import stages_of
from leanmark.moves.restrictions import RESTRICTIONS
from leanmark.moves.schema import Move
from leanmark.page_parts import filled, table
from leanmark.rig.rig import standard_rig

PAGE: Final = "move-library.md"
_NONE: Final = "–"


def blocks() -> dict[str, str]:
    """Every generated part by the name that its mark in the page gives."""
    return {
        "coverage": coverage(),
        "people": people(),
        "restrictions": table(
            ("name", "what counts"), [(row.name, row.means) for row in RESTRICTIONS.values()]
        ),
        "moves": "\n".join(_section(move) for move in _moves()),
    }


def fill(page: str) -> str:
    """The page with its marked parts as the library gives them now.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return filled(page, blocks())


@cache
def _moves() -> tuple[Move, ...]:
    return tuple(load_move(name) for name in move_names())


def coverage() -> str:
    """Moves, rungs, kit, planes, stages and gates of each family."""
    rows = [_family_row(name, [move for move in _moves() if move.family == name]) for name in families()]
    counted = [row for row in rows if row]
    rungs = sum(len(move.rungs) for move in _moves())
    total = f"{len(_moves())} moves with {rungs} rungs in {len(counted)} families."
    heads = ("family", "moves", "rungs", "kit", "planes", "speed stages", "rungs with a gate")
    return f"{total}\n\n{table(heads, counted)}"


def _family_row(name: str, members: Sequence[Move]) -> tuple[str, ...]:
    if not members:
        return ()
    rungs = [(move, rung) for move in members for rung in move.rungs]
    return (
        name,
        ", ".join(f"[{move.move}](#{_anchor(move.move)})" for move in members),
        str(len(rungs)),
        _each(move.kit for move in members),
        _each(move.plane for move in members),
        _each(stage for move, rung in rungs for stage in stages_of(move, rung)),
        str(sum(bool(rung.gates) for _, rung in rungs)),
    )


def _each(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(words))


def _anchor(heading: str) -> str:
    return heading.lower().replace(" ", "-")


def people() -> str:
    """The people of the panel."""
    heads = ("percentile", *(f"{sex}: stature, mass" for sex in STATURES_M))
    rows = [
        (
            f"{percentile}th",
            *(f"{STATURES_M[sex][k]:.2f} m, {MASSES_KG[sex][k]:.0f} kg" for sex in STATURES_M),
        )
        for k, percentile in enumerate(PERCENTILES)
    ]
    return table(heads, rows)


@cache
def _ladders() -> dict[str, list[RungLine]]:
    """Every move's ladder for the people of the 50th percentile, all solved side by side."""
    ladders = solved_ladders(_moves(), typical_people(), standard_rig(CHECKED_ANCHOR_M))
    return {move.move: lines_of(rungs) for move, rungs in zip(_moves(), ladders, strict=True)}


def _section(move: Move) -> str:
    """One move: what it is for, and its ladder."""
    works = ", ".join(move.works)
    text = (
        f"{move.family}; {move.kit if move.kit != 'none' else 'no kit'}; {move.plane} plane. Works {works}."
    )
    heads = ("rung", "demand, woman / man", "hardest worked", "step", "straps", "floor", "gate")
    rows = [_rung_row(line) for line in _ladders()[move.move]]
    return f"### {move.move}\n\n{_capital(move.purpose)}. {_capital(text)}\n\n{table(heads, rows)}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _rung_row(line: RungLine) -> tuple[str, ...]:
    kind = "" if line.harder_by == "load" else f"{OTHER_STEPS[line.harder_by]}, "
    step = f"{kind}{_percents(line.step_percent, '+')}" if line.step_percent else _NONE
    return (
        line.rung,
        _percents([100.0 * share for share in line.demand]),
        _each(line.action),
        step,
        _percents([100.0 * share for share in line.strap_share]) if line.strap else _NONE,
        _percents([100.0 * share for share in line.floor_share]),
        "; ".join(line.opens) or _NONE,
    )


def _percents(values: Sequence[float], sign: str = "") -> str:
    return " / ".join(f"{value:{sign}.0f}".replace("-", "−") for value in values) + " %"


if __name__ == "__main__":
    path = Path(sys.argv[1]) / PAGE
    path.write_text(fill(path.read_text(encoding="utf-8")), encoding="utf-8")
