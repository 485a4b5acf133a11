"""The generated parts of ``docs/dose.md``.

``python -m leanmark.dose.reference docs`` writes them anew; a test says when they are behind the code.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

from leanmark.dose.endurance import ENDURANCE, REGION_OF
from leanmark.dose.goals import GOALS, PATTERNS, Goal, recovery_h
from leanmark.dose.levels import LEVELS
from leanmark.dose.rep_max import LOAD_CHART, RELATIONS, share_range
from leanmark.dose.rules import RULES, Rule
from leanmark.dose.stages import STAGE_TEMPO
from leanmark.dose.waves import WAVE_KINDS, WAVE_WORDS, WavePoint, wave
from leanmark.page_parts import filled, table

PAGE: Final = "dose.md"
SHOWN_REPS: Final = (1, 3, 5, 8, 10, 12, 15, 20, 30)
SHOWN_WEEKS: Final = 8
SHOWN_SESSIONS: Final = 3
_NONE: Final = "–"


def blocks() -> dict[str, str]:
    """Every generated part by the name that its mark in the page gives."""
    return {
        "rules": table(("rule", "value", "unit", "what it says", "source"), map(_rule_row, RULES.values())),
        "goals": goals(),
        "shares": shares(),
        "levels": levels(),
        "waves": waves(),
        "stages": stages(),
        "relations": relations(),
        "loads": loads(),
        "holds": holds(),
        "patterns": patterns(),
    }


def fill(page: str) -> str:
    """The page with its marked parts as the code gives them now.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return filled(page, blocks())


def _rule_row(row: Rule) -> tuple[str, ...]:
    values = [f"{100 * value:.3g} %" if row.unit == "share" else f"{value:g}" for value in row.values]
    unit = _NONE if row.unit == "share" else row.unit
    return row.name, ", ".join(values), unit, row.says, row.source


def goals() -> str:
    """What each goal asks for."""
    heads = (
        "goal", "what for", "reps", "in reserve", "sets", "rest", "holds", "speed stages", "weekly sets",
        "load wave", "source",
    )  # fmt: skip
    return table(heads, map(_goal_row, GOALS.values()))


def _goal_row(row: Goal) -> tuple[str, ...]:
    return (
        row.name,
        row.means,
        _span(row.reps),
        _span(row.reps_in_reserve),
        _span(row.sets),
        f"{row.rest_s:g} s",
        f"{_span(row.hold_s)} s",
        ", ".join(row.stages),
        _span(row.weekly_sets),
        row.wave,
        "; ".join(row.sources),
    )


def _span(both: tuple[float, float]) -> str:
    return f"{both[0]:g} to {both[1]:g}"


def shares() -> str:
    """Wanted share of the weekly sets by pattern."""
    names = list(dict.fromkeys(name for row in GOALS.values() for name in row.pattern_shares))
    rows = [
        (row.name, *(f"{100 * row.pattern_shares[name]:.0f} %" for name in names)) for row in GOALS.values()
    ]
    return table(("goal", *names), rows)


def levels() -> str:
    """The levels."""
    heads = ("level", "who", "capacity", "most sets", "fast", "ballistic", "source")
    return table(
        heads,
        [
            (
                row.name,
                row.means,
                f"{100 * row.capacity:.0f} %",
                str(row.most_sets),
                _yes(row.fast),
                _yes(row.ballistic),
                row.source,
            )
            for row in LEVELS.values()
        ],
    )


def _yes(may: bool) -> str:
    return "may open" if may else "stays closed"


def waves() -> str:
    """Heights of the waves of a cycle of ``SHOWN_WEEKS`` weeks of ``SHOWN_SESSIONS`` sessions."""
    heads = ("load wave", "how it moves", *(f"week {week + 1}" for week in range(SHOWN_WEEKS)))
    rows = [
        (kind, WAVE_WORDS[kind], *(_week(week) for week in wave(kind, SHOWN_WEEKS, SHOWN_SESSIONS)))
        for kind in WAVE_KINDS
    ]
    return table(heads, rows)


def _week(points: tuple[WavePoint, ...]) -> str:
    heights = list(dict.fromkeys(f"{100 * point.height:.0f}" for point in points))
    return ", ".join(heights) + " %" + (" (deload)" if points[0].deload else "")


def stages() -> str:
    """How fast the speed stages are."""
    rows = [
        (stage, "as it is" if row.concentric_s is None else f"{row.concentric_s:g} s at most", row.source)
        for stage, row in STAGE_TEMPO.items()
    ]
    return table(("speed stage", "concentric phase", "source"), rows)


def relations() -> str:
    """Relations between reps and the one-rep maximum, by author."""
    heads = ("author", "one-rep maximum", "refused above", "sound up to", "source")
    return table(
        heads,
        [
            (row.author, row.formula, f"{row.most_reps:g} reps", f"{row.sound_reps:g} reps", row.source)
            for row in RELATIONS.values()
        ],
    )


def loads() -> str:
    """Share of the one-rep maximum by reps, author by author, and the load chart's."""
    heads = ("reps", *RELATIONS, "least to greatest", "load chart")
    return table(heads, map(_load_row, SHOWN_REPS))


def _load_row(reps: int) -> tuple[str, ...]:
    each = [
        f"{100 * float(row.share(reps)):.0f} %" if reps <= row.sound_reps else _NONE
        for row in RELATIONS.values()
    ]
    least, greatest = (100 * float(end) for end in share_range(reps))
    chart = f"{100 * LOAD_CHART[reps]:.0f} %" if reps in LOAD_CHART else _NONE
    return str(reps), *each, f"{least:.0f} to {greatest:.0f} %", chart


def holds() -> str:
    """Endurance curves by region, and the joints that use them."""
    rows = [
        (
            row.region,
            f"{row.seconds:g} s",
            f"{row.exponent:g}".replace("-", "−"),
            ", ".join(joint.replace("_", " ") for joint, region in REGION_OF.items() if region == row.region),
        )
        for row in ENDURANCE.values()
    ]
    return table(("region", "b0", "b1", "used for"), rows)


def patterns() -> str:
    """Patterns, their families and their recovery."""
    rows = []
    for name in dict.fromkeys(PATTERNS.values()):
        members = [family for family, pattern in PATTERNS.items() if pattern == name]
        rows.append((name, ", ".join(members), f"{recovery_h(members[0]):g} h"))
    return table(("pattern", "move families", "recovery"), rows)


if __name__ == "__main__":
    path = Path(sys.argv[1]) / PAGE
    path.write_text(fill(path.read_text(encoding="utf-8")), encoding="utf-8")
