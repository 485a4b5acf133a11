"""``leanmark cycle why``: rules and weights behind a move that is planned, and behind one that is not."""

from __future__ import annotations

from pathlib import Path

from tests.cli.ask import ask, refused

from leanmark.cycle.files.json_file import read_cycle


def test_a_planned_move_gives_its_rules_and_what_else_would_cost(built: Path) -> None:
    line = read_cycle(built / "cycle.json").plans[0].sessions[1].lines[0]
    words = ("--trainee", "asta", "--move", line.move, "--session", "2")
    said = ask("cycle", "why", built / "cycle.json", *words)
    flat = " ".join(said.out.split())
    assert flat.startswith(f"Asta Å, session 2: {line.move} is in, {line.rung}: {line.sets} set")
    for number, rule in enumerate(line.why, start=1):
        assert f"{number}. {' '.join(rule.split())}" in flat


def test_a_move_that_is_barred_gives_the_rule(built: Path) -> None:
    plan = read_cycle(built / "cycle.json").plans[0]
    left = next(one for one in plan.left_out if not one.chosen)
    data = ask("cycle", "why", built / "cycle.json", "--trainee", "asta", "--move", left.move, "--json").data
    assert (data["trainee"], data["move"], data["planned"]) == ("Asta Å", left.move, False)
    assert data["rules"] == [*left.reasons]
    assert data["goals"] == []


def test_wrong_names_are_refused_with_the_nearest(built: Path) -> None:
    why = ("cycle", "why", built / "cycle.json", "--trainee")
    assert "did you mean 'row'?" in refused(*why, "asta", "--move", "rwo")
    assert "Asta Å, Birk" in refused(*why, "nobody", "--move", "row")
    assert refused(*why, "asta", "--move", "row", "--session", "7").startswith("--session = 7 ")
