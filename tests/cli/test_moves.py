"""``leanmark moves`` lists what the library holds, all of it or what fits."""

from __future__ import annotations

import pytest
from tests.cli.ask import ask, refused

from leanmark.moves.library import load_move, move_names
from leanmark.moves.restrictions import RESTRICTIONS


def listed(*filters: str) -> dict[str, list[str]]:
    """The rungs left of every move that fits."""
    return {row["move"]: row["rungs"] for row in ask("moves", *filters, "--json").data}


def test_every_move_has_its_row() -> None:
    lines = ask("moves").out.splitlines()
    assert lines[0].split() == ["move", "family", "kit", "plane", "rungs"]
    names = [*move_names()]
    starts = [name[:20] for name in names]  # a long name goes on below
    assert [start for start in starts if not any(line.startswith(start) for line in lines[2:])] == []
    rungs = sum(len(load_move(name).rungs) for name in names)
    assert lines[-1] == f"{len(names)} moves, {rungs} rungs"


def test_the_list_as_data() -> None:
    rows = ask("moves", "--json").data
    assert [row["move"] for row in rows] == [*move_names()]
    assert all(row[key] for row in rows for key in ("family", "kit", "plane", "works", "rungs"))


def test_the_list_fits_a_terminal() -> None:
    assert max(map(len, ask("moves").out.splitlines())) <= 80


@pytest.mark.parametrize(
    ("filters", "there", "gone"),
    [
        (("--family", "horizontal pull"), "row", "push-up"),
        (("--kit", "none"), "push-up", "row"),
        (("--plane", "frontal"), "side plank", "row"),
        (("--joint", "shoulder"), "row", "calf raise"),
        (("--joint", "shoulder extension"), "row", "chest press"),
        (("--muscle", "latissimus dorsi"), "row", "calf raise"),
        (("--gate", "front plank"), "knee tuck", "row"),
        (("--stage", "ballistic"), "squat jump", "front plank"),
        (("--find", "chest press"), "chest press", "calf raise"),
        (("--without", "gripping"), "front plank", "row"),
        (("--family", "horizontal_pull", "--joint", "Shoulder  Extension"), "row", "push-up"),
    ],
)
def test_filters_keep_and_leave_out(filters: tuple[str, ...], there: str, gone: str) -> None:
    found = listed(*filters)
    assert there in found
    assert gone not in found


def test_rungs_that_somebody_may_do_are_counted() -> None:
    """In the row, only the rung with the body level lies face up."""
    every = [rung.rung for rung in load_move("row").rungs]
    upright = listed("--without", "face up", "--family", "horizontal pull")["row"]
    assert {"near upright", "leaning"} <= {*upright} < {*every}
    assert "knees bent, body level" not in upright
    line = next(x for x in ask("moves", "--without", "face up").out.splitlines() if x.startswith("row "))
    assert line.endswith(f"{len(upright)} of {len(every)}")
    twice = listed("--without", "face up", "--without", "gripping", "--family", "horizontal pull")
    assert "row" not in twice


def test_nothing_that_fits_is_no_mistake() -> None:
    said = ask("moves", "--find", "xyzzy")
    assert (said.code, said.out) == (0, "no move fits all of this; leave out one of the filters\n")
    assert ask("moves", "--find", "xyzzy", "--json").data == []


@pytest.mark.parametrize(
    ("filters", "allowed", "nearest"),
    [
        (("--family", "horizontal pul"), "horizontal press", "did you mean 'horizontal pull'?"),
        (("--kit", "cradle"), "handles, cradles, single handle", "did you mean 'cradles'?"),
        (("--plane", "saggital"), "sagittal, frontal, transverse", "did you mean 'sagittal'?"),
        (("--joint", "hipp"), "hip", "did you mean 'hip'?"),
        (("--muscle", "glut"), "gluteus maximus, gluteus medius, gluteus minimus", "choose one of these"),
        (("--gate", "front plnk"), "any, none", "did you mean 'front plank'?"),
        (("--stage", "quick"), "controlled, fast, ballistic", "choose one of these"),
        (("--without", "jumps"), ", ".join(RESTRICTIONS), "did you mean 'jumping'?"),
    ],
)
def test_other_words_are_refused_with_what_is_allowed(
    filters: tuple[str, ...], allowed: str, nearest: str
) -> None:
    said = refused("moves", *filters)
    assert said.startswith(f"{filters[0]} = '{filters[1]}' is not allowed (allowed: ")
    assert allowed in said
    assert said.endswith(nearest)
