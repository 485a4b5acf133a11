"""The generated parts of ``docs/cycle-builder.md``.

``python -m leanmark.cycle.reference docs`` writes them anew; a test says when they are behind the code.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from leanmark.cycle.muscle_groups import MUSCLE_GROUPS
from leanmark.cycle.weights import CHOICE_WEIGHTS, ORDER_WEIGHTS, Weight
from leanmark.page_parts import fill_file, filled, table

PAGE: Final = "cycle-builder.md"


def blocks() -> dict[str, str]:
    """Every generated part by the name that its mark in the page gives."""
    return {
        "choice weights": _weights(CHOICE_WEIGHTS.values()),
        "order weights": _weights(ORDER_WEIGHTS.values()),
        "muscle groups": table(
            ("group", "muscles"), [(group, ", ".join(members)) for group, members in MUSCLE_GROUPS.items()]
        ),
    }


def fill(page: str) -> str:
    """The page with its marked parts as the code gives them now.

    Raises:
        KeyError: a mark names a part that does not exist.
    """
    return filled(page, blocks())


def _weights(rows: Iterable[Weight]) -> str:
    return table(
        ("soft goal", "what it asks", "a unit of missing it", "costs"),
        [(row.goal, row.means, row.unit, str(row.weight)) for row in rows],
    )


if __name__ == "__main__":
    fill_file(Path(sys.argv[1]) / PAGE, blocks())
