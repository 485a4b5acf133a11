"""``leanmark cycle edit``: an edit by hand stays, and what else changed is said."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask, files_in, refused

from leanmark.cycle.edit import changes
from leanmark.cycle.files.json_file import read_cycle


def test_sets_are_fixed_and_the_former_issue_is_kept(cycle_file: Path) -> None:
    before = read_cycle(cycle_file)
    line = before.plans[0].sessions[0].lines[0]
    words = ("--trainee", "asta", "--session", "1", "--sets", line.move, "1")
    said = ask("cycle", "edit", cycle_file, *words)
    assert (said.code, said.err) == (0, "")
    after = read_cycle(cycle_file)
    (fixed,) = [one for one in after.plans[0].sessions[0].lines if one.move == line.move]
    assert (fixed.sets, fixed.pinned) == (1, True)
    assert after.revision == 1
    assert after.plans[1] == before.plans[1]
    assert read_cycle(cycle_file.with_name("cycle-revision-0.json")) == before
    flat = " ".join(said.out.split())
    as_asked, others = flat.split("what else changed" if "what else" in flat else "nothing else changed")
    for change in changes(before, after):
        told = f"session {change.session}: {change.move}: "
        assert told in (as_asked if change.move == line.move else others)


def test_data_lists_every_change_and_out_leaves_the_file_alone(cycle_file: Path, tmp_path: Path) -> None:
    before = read_cycle(cycle_file)
    move = before.plans[1].sessions[0].lines[0].move
    words = ("--trainee", "birk", "--session", "1", "--drop", move, "--out", tmp_path / "new.json", "--json")
    data = ask("cycle", "edit", cycle_file, *words).data
    after = read_cycle(tmp_path / "new.json")
    assert (data["file"], data["revision"]) == (str(tmp_path / "new.json"), 1)
    assert ("goes out", move) in {(change["kind"], change["move"]) for change in data["changes"]}
    assert len(data["changes"]) == len([*changes(before, after)])
    assert read_cycle(cycle_file) == before
    assert files_in(tmp_path) == ["cycle.json", "new.json"]


def test_a_move_comes_in_with_its_sets(cycle_file: Path) -> None:
    before = read_cycle(cycle_file)
    used = {line.move for line in before.plans[1].sessions[0].lines}
    new = next(left.move for left in before.plans[1].left_out if left.chosen and left.move not in used)
    words = ("--trainee", "birk", "--session", "1", "--keep", new, "--sets", new, "1")
    said = ask("cycle", "edit", cycle_file, *words)
    assert said.code == 0, said
    after = read_cycle(cycle_file)
    assert [line.sets for line in after.plans[1].sessions[0].lines if line.move == new] == [1]
    assert [(pin.what, pin.move, pin.sets) for pin in after.pins] == [("keep", new, 1)]


WRONG = [
    ((), "the edit = 'nothing' ", "say what to change"),
    (("--drop", "rwo"), "--drop = 'rwo' ", "did you mean 'row'?"),
    (("--sets", "row", "0"), "--sets = 0 ", "leave a move out with --drop"),
    (("--sets", "row", "11"), "--sets = 11 ", "1 to 10"),
    (("--reps", "row", "61"), "--reps = 61 ", "1 to 60"),
    (("--mark", "row", "far"), "--mark = 'far' ", "-8 to 8 m"),
    (("--swap", "row"), "Option '--swap' requires 2 arguments", "leanmark --help"),
    (("--session", "9", "--keep", "row"), "--session = 9 ", "sessions 1 to 2"),
]


@pytest.mark.parametrize(("words", "given", "remedy"), WRONG)
def test_edits_that_cannot_be(cycle_file: Path, words: tuple[str, ...], given: str, remedy: str) -> None:
    before = cycle_file.read_bytes()
    line = refused("cycle", "edit", cycle_file, "--trainee", "asta", *words)
    assert line.startswith(given)
    assert remedy in line
    assert cycle_file.read_bytes() == before


def test_a_move_that_a_rule_bars_is_not_kept_by_hand(cycle_file: Path) -> None:
    plan = read_cycle(cycle_file).plans[0]
    left = next(one for one in plan.left_out if not one.chosen)
    before = cycle_file.read_bytes()
    line = refused("cycle", "edit", cycle_file, "--trainee", "asta", "--keep", left.move)
    assert left.reasons[0] in line
    assert cycle_file.read_bytes() == before


def test_an_edit_is_not_written_over_another_file(cycle_file: Path, tmp_path: Path) -> None:
    (tmp_path / "other.json").write_text("{}")
    words = ("--trainee", "asta", "--drop", "row", "--out", tmp_path / "other.json")
    assert refused("cycle", "edit", cycle_file, *words).startswith("--out = ")
    assert (tmp_path / "other.json").read_text() == "{}"
