"""The generated tables of ``docs/model.md``: own figures, and measured figures beside the model's.

``python -m tests.outside.model_page`` writes it anew; a test says when it is behind the model.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from string import ascii_lowercase, ascii_uppercase
from typing import Final

from tests.outside import lean_row
from tests.outside.answers import FIGURES, answers, difference, verdict
from tests.outside.own_figures import OWN_FIGURES
from tests.outside.published import MISSES, RATIO, ROWS, STATURE, Published

PAGE: Final = Path(__file__).resolve().parents[2] / "docs" / "model.md"
DIGITS: Final = {RATIO: 3, STATURE: 3}
"""Decimals printed by unit; one for all others."""
_BLOCK: Final = re.compile(
    r"(?P<start><!-- generated: (?P<name>[a-z ]+) -->\n).*?(?P<end><!-- end of generated -->)", re.DOTALL
)
_NUMBER: Final = re.compile(r"[-+−]?\d+(?:\.\d+)?")


def blocks() -> dict[str, str]:
    """Every generated part by the name that its mark gives."""
    return {
        "own figures": _table(("what", "value", "why"), OWN_FIGURES),
        "published figures": figures(),
        "grounds": grounds(),
        "rows by anchor": rows_by_anchor(),
    }


def fill(page: str) -> str:
    """The page with its marked parts as the model gives them now."""
    parts = blocks()
    return _BLOCK.sub(lambda found: f"{found['start']}\n{parts[found['name']]}\n{found['end']}", page)


def figures() -> str:
    """Measured, model and verdict of every figure."""
    heads = ("position", "unit", "measured", "model", "model less measured", "allowed", "verdict", "see")
    return _table(heads, [_figure_row(key) for key in FIGURES])


def _figure_row(key: str) -> tuple[str, ...]:
    figure = FIGURES[key]
    model, gap = _shown(answers()[key], figure), _shown(difference(key), figure, sign=True)
    see = f"{_studies().index(figure.study) + 1}{ascii_lowercase[_grounds().index(figure.ground)]}"
    if key in MISSES:
        see += ascii_uppercase[_reasons().index(MISSES[key].why)]
    return (figure.what, figure.unit, figure.printed, model, gap, _allowed(figure), verdict(key), see)


def _studies() -> list[str]:
    return list(dict.fromkeys(figure.study for figure in FIGURES.values()))


def _grounds() -> list[str]:
    return list(dict.fromkeys(figure.ground for figure in FIGURES.values()))


def _reasons() -> list[str]:
    return list(dict.fromkeys(miss.why for miss in MISSES.values()))


def _shown(value: float, figure: Published, sign: bool = False) -> str:
    digits = DIGITS.get(figure.unit, 1)
    return f"{value:+.{digits}f}" if sign else f"{value:.{digits}f}"


def _allowed(figure: Published) -> str:
    if figure.band is None:
        return "–"
    low, high = figure.band
    return f"±{high:g}" if low == -high else f"{low:g} to {high:g}"


def grounds() -> str:
    """What the last column of the figures refers to."""
    lists = (
        ("Studies", "123456789", _studies()),
        ("Why a figure may differ by so much, or is not judged", ascii_lowercase, _grounds()),
        ("Why the model misses", ascii_uppercase, _reasons()),
    )
    parts = []
    for head, signs, texts in lists:
        items = [f"- ({sign}) {text}." for sign, text in zip(signs, texts, strict=False)]
        parts.append("\n".join([f"{head}:", "", *items, ""]))
    return "\n".join(parts)


def rows_by_anchor() -> str:
    """What the row series owes to the anchor height and to the pressure under the feet, none of them
    stated."""
    low_m, high_m = lean_row.OTHER_ANCHORS_M
    heads = (
        "lean",
        "measured",
        *(f"anchor {height:.1f} m" for height in (low_m, lean_row.ANCHOR_M, high_m)),
        f"pressure from heels to balls, anchor {lean_row.ANCHOR_M:.1f} m",
        "friction needed",
    )
    return _table(heads, [_lean_line(lean_deg) for lean_deg in ROWS])


def _lean_line(lean_deg: float) -> tuple[str, ...]:
    heights = (lean_row.OTHER_ANCHORS_M[0], lean_row.ANCHOR_M, lean_row.OTHER_ANCHORS_M[1])
    shares = [f"{lean_row.mean_share(lean_deg, height):.1f}" for height in heights]
    both = [lean_row.lean_row(lean_deg, table) for table in lean_row.PEOPLE]
    low, high = (100.0 * sum(ends) / len(both) for ends in ([r.low for r in both], [r.high for r in both]))
    friction = sum(row.friction for row in both) / len(both)
    pressure = f"{low:.1f}–{high:.1f}" if high - low > 0.1 else "heels alone"
    return (f"{lean_deg:g}°", ROWS[lean_deg].printed, *shares, pressure, f"{friction:.2f}")


def agrees(page: str, other: str) -> bool:
    """Whether two pages say the same: words alike, numbers alike up to one in the last digit printed."""
    if _NUMBER.split(page) != _NUMBER.split(other):
        return False
    return all(map(_close, _NUMBER.findall(page), _NUMBER.findall(other)))


def _close(one: str, other: str) -> bool:
    decimals = [len(number.partition(".")[2]) for number in (one, other)]
    values = [float(number.replace("−", "-")) for number in (one, other)]
    return decimals[0] == decimals[1] and abs(values[0] - values[1]) <= 1.01 * 10.0 ** -decimals[0]


def _table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [heads, ["---"] * len(heads), *rows]
    return "".join("| " + " | ".join(cells) + " |\n" for cells in lines)


if __name__ == "__main__":
    PAGE.write_text(fill(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
    print(f"wrote {PAGE.name}")
