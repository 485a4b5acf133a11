"""``leanmark moves ladder`` prints demand over the panel and leaves with 2 where a ladder does not hold."""

from __future__ import annotations

from unittest.mock import patch

import pytest
from msgspec.structs import replace
from tests.cli.ask import ask, refused

from leanmark.moves.library import load_move, move_names
from leanmark.moves.schema import Move


def test_a_ladder_that_holds() -> None:
    said = ask("moves", "ladder", "row")
    assert said.code == 0
    lines = said.out.splitlines()
    assert lines[0].split() == ["row", "women", "men", "step"]
    names = [rung.rung for rung in load_move("row").rungs]
    assert [line[: len(name)] for line, name in zip(lines[2:], names, strict=False)] == names
    assert lines[-1] == "every ladder holds"


def test_every_ladder_of_the_library_holds() -> None:
    said = ask("moves", "ladder")
    assert "does not hold" not in said.out
    assert said.code == 0
    for name in move_names():
        assert f"\n{name} " in f"\n{said.out}"


def test_as_data() -> None:
    (one,) = ask("moves", "ladder", "row", "--json").data
    assert one["move"] == "row"
    assert one["findings"] == []
    assert all(len(line["demand"]) == 6 for line in one["ladder"])
    (crossed,) = ask("moves", "ladder", "row", "--cross", "--json").data
    assert all(len(line["demand"]) == 18 for line in crossed["ladder"])


def upside_down(name: str) -> Move:
    move = load_move(name)
    return replace(move, rungs=[replace(rung, harder_by="load") for rung in reversed(move.rungs)])


@pytest.mark.parametrize("option", [(), ("--json",)])
def test_a_ladder_that_does_not_hold_leaves_with_two(option: tuple[str, ...]) -> None:
    with patch("leanmark.moves.library.load_move", upside_down):
        said = ask("moves", "ladder", "row", *option)
    assert said.code == 2
    if option:
        assert said.data[0]["findings"]
    else:
        assert "does not hold: row / leaning: demand falls from" in said.out
        assert said.out.endswith(f"{len(load_move('row').rungs) - 1} findings\n")


def test_an_unknown_move_is_refused() -> None:
    assert "did you mean 'row'?" in refused("moves", "ladder", "roww")
