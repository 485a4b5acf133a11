"""Made-up cards for tests of the sheets."""

from __future__ import annotations

from functools import cache

from tests.figures import poses

from leanmark.figures.draw import draw
from leanmark.sheets.card import Card, CardMove, CardRow
from leanmark.sheets.cards import FIGURE_FONT_PX, FIGURE_HEIGHT_PT, FIGURE_WIDTH_PT

NAMES = list(poses.ALL)


@cache
def figure(name: str) -> str:
    """A pose drawn at the size of a card's figure."""
    return draw(
        [poses.ALL[name]()],
        "side",
        FIGURE_WIDTH_PT,
        FIGURE_HEIGHT_PT,
        theme="print",
        font_px=FIGURE_FONT_PX,
        forces=False,
    )


def move(number: int, **changes: object) -> CardMove:
    """One move with two loads that can be had and one that cannot."""
    name = NAMES[number % len(NAMES)]
    values: dict[str, object] = {
        "title": f"Move {number}",
        "setup": "Heels on the mark, straps taut, arms straight.",
        "strap_setting": "long (215 cm)",
        "caution": "Stop if the low back sags." if number % 3 == 0 else "",
        "figure_svg": figure(name),
        "rows": (
            CardRow("leaning", "25 %", "−131 cm", "−140 to −122 cm", "25 % (20–29)"),
            CardRow("leaning", "35 %", "−97 cm", "−103 to −91 cm", "35 % (30–39)"),
            CardRow("leaning", "45 %", "", "", "", "out of reach here: 21 to 39 % can be had"),
        ),
        "cues": ("elbows close", "chest to the hands"),
    }
    return CardMove(**(values | changes))  # type: ignore[arg-type]


def card(trainee: str = "Anna Berg", moves: int = 3, **changes: object) -> Card:
    """A card of some moves."""
    rows = tuple(move(number, **changes) for number in range(moves))
    return Card(trainee, "178 cm, 74 kg", "Boathouse beam: anchor at 245 cm", "2026-11-25", rows)
