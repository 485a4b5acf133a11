"""Speed stages: opened in order by the rules, reps split exactly, tempo never slower."""

from __future__ import annotations

from itertools import combinations, product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leanmark.dose.goals import GOALS
from leanmark.dose.levels import LEVELS
from leanmark.dose.rules import value
from leanmark.dose.stages import STAGES, open_stages, split, stage_tempo_s
from leanmark.errors import FieldError
from leanmark.moves.library import load_move, move_names
from leanmark.moves.of_rung import tempo_s_of
from leanmark.moves.schema import Stage

SOME_STAGES = [some for count in (1, 2, 3) for some in combinations(STAGES, count)]
TRAINED = LEVELS["trained"]


def opened(
    number: int, goal: str = "power", level: str = "trained", deload: bool = False
) -> tuple[Stage, ...]:
    return open_stages(number, GOALS[goal], LEVELS[level], deload, STAGES)


def test_stages_open_one_after_the_other() -> None:
    first_fast, first_ballistic = (int(value(f"sessions before {stage}")) + 1 for stage in STAGES[1:])
    assert opened(1) == opened(first_fast - 1) == ("controlled",)
    assert opened(first_fast) == opened(first_ballistic - 1) == ("controlled", "fast")
    assert opened(first_ballistic) == STAGES


@pytest.mark.parametrize(
    "closed",
    [{"deload": True}, {"level": "new"}, {"goal": "return after a break"}, {"goal": "general strength"}],
)
def test_never_ballistic_in_a_deload_when_new_or_after_a_break(closed: dict[str, Any]) -> None:
    assert "ballistic" in opened(99)
    assert "ballistic" not in opened(99, **closed)


def test_opening_is_never_undone_but_in_a_deload() -> None:
    for goal, level, allowed in product(GOALS.values(), LEVELS.values(), SOME_STAGES):
        before: set[Stage] = set()
        for number in range(1, 30):
            now = set(open_stages(number, goal, level, False, allowed))
            assert before <= now
            before = now


def test_only_what_the_rung_allows_opens() -> None:
    assert open_stages(99, GOALS["power"], TRAINED, False, ("ballistic",)) == ("ballistic",)
    assert open_stages(1, GOALS["power"], TRAINED, False, ("ballistic",)) == ()
    assert open_stages(99, GOALS["power"], TRAINED, False, ("fast", "controlled")) == ("controlled", "fast")


def test_session_numbers_count_from_one() -> None:
    with pytest.raises(FieldError, match=r"^session_number = 0"):
        opened(0)


def test_eighteen_over_three_are_eight_six_four() -> None:
    assert split(18, STAGES) == {"controlled": 8, "fast": 6, "ballistic": 4}


@given(reps=st.integers(1, 200), stages=st.sampled_from(SOME_STAGES))
def test_split_reps_sum_and_never_favour_the_later_stage(reps: int, stages: tuple[Stage, ...]) -> None:
    found = split(reps, stages)
    assert sum(found.values()) == reps
    assert [*found] == [stage for stage in stages if stage in found]
    counts = [found.get(stage, 0) for stage in stages]
    assert counts == sorted(counts, reverse=True)
    assert min(found.values()) >= 1
    if reps >= len(stages):
        assert len(found) == len(stages)


@pytest.mark.parametrize(
    ("reps", "stages", "field"), [(0, STAGES, "reps"), (5, (), "stages"), (5, ("fast", "fast"), "stages")]
)
def test_what_cannot_be_split_is_refused(reps: int, stages: tuple[Stage, ...], field: str) -> None:
    with pytest.raises(FieldError, match=f"^{field} = "):
        split(reps, stages)


@pytest.mark.parametrize("name", move_names())
def test_each_stage_is_quicker_than_the_one_before_on_the_way_up_alone(name: str) -> None:
    move = load_move(name)
    for rung in move.rungs:
        typical = tempo_s_of(move, rung)
        tempos = [stage_tempo_s(stage, typical) for stage in STAGES]
        assert tempos[0] == typical
        assert typical[2] >= tempos[1][2] >= tempos[2][2] > 0.0
        assert {(down, low, high) for down, low, _, high in tempos} == {(typical[0], typical[1], typical[3])}
        assert tempos[1][2] <= 1.0
        assert tempos[2][2] <= 0.6
