"""Gates in words."""

from __future__ import annotations

import pytest

from leanmark.errors import FieldError
from leanmark.moves.gates import gate_words
from leanmark.moves.library import load_move
from leanmark.moves.schema import COMMON_PRACTICE, Gate


def test_a_gate_says_how_much_of_what() -> None:
    row = load_move("row")
    hold = Gate("on the floor", COMMON_PRACTICE, move="side plank", hold_s=30.0)
    assert gate_words(row, hold) == "opens after 30 s of side plank, on the floor"
    fast = Gate("leaning", "Somebody 1999, a journal", reps=8, stage="fast")
    assert gate_words(row, fast) == (
        "opens after 8 clean reps of row, leaning at fast speed (Somebody 1999, a journal)"
    )


@pytest.mark.parametrize("asked", [{}, {"hold_s": 30.0, "reps": 8}])
def test_a_gate_is_either_a_hold_or_reps(asked: dict[str, float]) -> None:
    with pytest.raises(FieldError, match="either hold-s or reps"):
        Gate("leaning", COMMON_PRACTICE, **asked)  # type: ignore[arg-type]
