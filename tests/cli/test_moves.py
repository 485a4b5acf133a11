"""``leanmark moves`` lists what the library holds."""

from __future__ import annotations

from tests.cli.ask import ask

from leanmark.moves.library import load_move, move_names


def test_every_move_has_its_row() -> None:
    lines = ask("moves").out.splitlines()
    assert lines[0].split() == ["move", "family", "kit", "rungs"]
    assert [line[: len(name)] for line, name in zip(lines[2:], move_names(), strict=True)] == [*move_names()]


def test_the_list_as_data() -> None:
    listed = ask("moves", "--json").data
    assert [row["move"] for row in listed] == [*move_names()]
    assert all(row["family"] and row["kit"] and row["rungs"] for row in listed)


def test_one_move_is_shown_with_set_up_caution_and_rungs() -> None:
    said, move = ask("moves", "show", "row"), load_move("row")
    assert said.out.startswith(f"row: {move.purpose}\nset-up: {move.setup}\ncaution: {move.caution}\n")
    rungs = said.out.splitlines()[-len(move.rungs) :]
    assert [line.split()[0] for line in rungs] == [str(k + 1) for k in range(len(move.rungs))]


def test_one_move_as_data_has_its_phases() -> None:
    data = ask("moves", "show", "row", "--json").data
    assert data["move"] == "row"
    assert {"start", "end"} <= set(data["phases"])
