"""``leanmark moves show`` tells one move in full, for somebody or for a typical woman and man."""

from __future__ import annotations

import pytest
from msgspec import structs
from tests.cli.ask import DEMO, HER, ask, refused
from tests.moves.whole_library import MOVES, ladder_of, named

from leanmark.body.build import Build
from leanmark.cli.moves_shown import Shown
from leanmark.mechanics.reasons import REASONS, SLIP
from leanmark.moves.ladder.demand import demand_of, solved
from leanmark.moves.ladder.finer import finer_steps
from leanmark.moves.ladder.panel import reference_people, typical_in, typical_people
from leanmark.moves.ladder.table import RungLine, lines_of
from leanmark.moves.library import load_move
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move
from leanmark.rig.rig import standard_rig
from leanmark.units import show_length


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_every_move_is_told_in_full_and_fits_a_terminal(move: Move) -> None:
    """With its ladder for six people, of whom the typical two are shown."""
    lines = [_for(line, typical_in(reference_people())) for line in lines_of(ladder_of(move))]
    said = Shown(move, typical_people(), 2.4, lines, {}, "metric").text()
    assert said.startswith(f"{move.move}: {move.family}")
    assert max(map(len, said.splitlines())) <= 80
    told = [move.purpose, move.setup, move.caution, move.breathing, *move.cues, *move.not_for, *move.stop]
    told += [one.remedy for one in move.faults]
    for rung in move.rungs:
        told += [rung.note, *(rung.cues or ()), rung.caution or ""]
        told += [one.remedy for one in rung.faults or ()]
    assert [words for words in told if flat(words) not in flat(said)] == []


def _for(line: RungLine, people: list[int]) -> RungLine:
    """A line for some of its people alone."""
    own = {
        name: [value[person] for person in people]
        for name, value in structs.asdict(line).items()
        if isinstance(value, list) and len(value) == len(line.demand) and name not in ("asks", "opens")
    }
    return structs.replace(line, **own)


def test_the_ladder_stands_with_the_demand_of_the_typical_two() -> None:
    lines = ask("moves", "show", "row").out.splitlines()
    top = next(k for k, line in enumerate(lines) if line.split()[:2] == ["rung", "demand"])
    move = load_move("row")
    for number, rung in enumerate(move.rungs):
        demand = demand_of(solved(move, rung, typical_people(), standard_rig(2.4)))
        shares = "/".join(f"{100.0 * share:.0f}" for share in demand.share)
        (row,) = (line for line in lines[top:] if line.startswith(f"{number + 1}  {rung.rung[:18]}"))
        assert f"{shares} %" in row


def test_gates_and_what_a_rung_asks_for_are_told() -> None:
    text = flat(ask("moves", "show", "knee tuck").out)
    assert "opens after" in text
    assert "deep knee bend" in text
    assert "harder by" in flat(ask("moves", "show", "calf raise").out)


def test_one_rung_in_full_has_all_that_is_said_on_it() -> None:
    move = load_move("row")
    rung = move.rungs[0]
    said = ask("moves", "show", "row", "--rung", "1")
    lines = said.out.splitlines()
    assert lines[0] == f"row / {rung.rung}, rung 1 of {len(move.rungs)}"
    assert max(map(len, lines)) <= 80
    text = flat(said.out)
    told = [move.setup, *move.cues, *(one.fault for one in move.faults), move.caution, *move.not_for]
    told += [move.breathing, "50th-percentile woman", f"towards '{move.rungs[1].rung}'"]
    assert all(flat(words) in text for words in told)
    assert move.rungs[1].note not in text


def test_finer_steps_are_those_of_the_person_named() -> None:
    move = load_move("row")
    person = people_of([Build(74.0, 1.78, "female")])
    found = finer_steps(move, move.rungs[0], move.rungs[1], person, standard_rig(2.4))
    first = found.steps[0]
    words = f"{show_length(first.mark_m, 'metric')} ({100.0 * first.demand:.0f} %)"
    assert words in flat(ask("moves", "show", "row", *HER).out)


def test_somebody_of_a_squad_stands_on_its_rig() -> None:
    said = ask("moves", "show", "row", "--squad", DEMO, "--json")
    assert len(said.data["people"]) == 1
    own = ask("moves", "show", "row", "--json")
    assert len(own.data["people"]) == 2


def test_american_units() -> None:
    said = ask("moves", "show", "row", "--units", "us", "--anchor", "95 in")
    assert "anchor at 7 ft 11 in" in flat(said.out)
    assert " cm" not in said.out


def test_a_rung_that_cannot_be_held_has_dashes_and_its_reason() -> None:
    said = ask("moves", "show", "row", "--stature", "2.45 m", "--mass", "45 kg")
    assert said.code == 0
    (row,) = (line for line in said.out.splitlines() if line.startswith("3  deep lean"))
    assert row.split()[3:7] == ["—", "—", "—", "—"]
    assert "cannot" in said.out
    assert REASONS[SLIP] in flat(said.out)


def test_the_move_as_data_has_its_file_and_its_ladder() -> None:
    data = ask("moves", "show", "row", "--json").data
    move = load_move("row")
    assert data["move"] == "row"
    assert {"start", "end"} <= set(data["phases"])
    assert [line["rung"] for line in data["ladder"]] == [rung.rung for rung in move.rungs]
    first = data["ladder"][0]
    assert len(first["demand"]) == len(data["people"]) == 2
    assert [step["harder"] for step in first["finer"]] == [move.rungs[1].rung] * 2
    assert data["ladder"][-1]["finer"] == []


def test_what_does_not_exist_is_refused() -> None:
    assert "did you mean 'row'?" in refused("moves", "show", "roww")
    assert "one of: 1 " in refused("moves", "show", "row", "--rung", "9")
    assert "--mass" in refused("moves", "show", "row", "--stature", "178 cm")
    assert "--trainee" in refused("moves", "show", "row", "--trainee", "Nobody")
