"""Cards say what the engine says, for everyone in the squad, whoever is solved together."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.docs.pages import ROOT
from tests.sheets.test_cards import pages

from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.moves.known import Known
from leanmark.moves.library import load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import held_loads, stand
from leanmark.rig.rig import standard_rig
from leanmark.sheets import stand_cards as module
from leanmark.sheets.answers import CardAnswer
from leanmark.sheets.cards import Paper, render_cards
from leanmark.sheets.stand_cards import (
    FIRST_SELECTION,
    CardSet,
    card_moves,
    jobs,
    left_out,
    stand_cards,
    usual_moves,
    wanted_loads,
)
from leanmark.squad.read import read_squad
from leanmark.squad.squad import Squad, Trainee
from leanmark.units import UnitSystem

HER = Trainee("Asta", Build(61.5, 1.64, "female"))
HIM = Trainee("Birk", Build(79.0, 1.83, "male"))
UNSTATED = Trainee("Kim", Build(71.0, 1.74))
SQUAD = Squad(
    name="Boathouse",
    units="metric",
    rig=standard_rig(2.45, name="Beam"),
    wanted_load_fractions=(0.35, 0.45, 0.95),
    moves=("row", "chest press"),
    trainees=(HER, HIM, UNSTATED),
)


@pytest.fixture(scope="module")
def made() -> CardSet:
    return stand_cards(SQUAD, "2026-01-31")


def answers_of(made: CardSet, move: int, person: int) -> tuple[CardAnswer, ...]:
    return made.answers[move][person]


def test_every_trainee_has_a_card_with_every_move_and_wanted_load(made: CardSet) -> None:
    assert [card.trainee for card in made.cards] == ["Asta", "Birk", "Kim"]
    for card in made.cards:
        assert [move.title.split(",")[0] for move in card.moves] == ["row", "chest press"]
        assert all([row.wanted_load for row in move.rows] == ["35 %", "45 %", "95 %"] for move in card.moves)
        assert all(move.caution and move.setup and move.cues for move in card.moves)
        assert all(move.figure_svg.startswith("<svg") for move in card.moves)
        assert card.rig == "Beam: anchor at 245 cm, dry gym floor"
        assert card.date == "2026-01-31"


def test_a_cards_mark_gives_the_wanted_load_and_its_interval(made: CardSet) -> None:
    for move, name in enumerate(SQUAD.moves):
        for person, trainee in enumerate(SQUAD.trainees):
            first = answers_of(made, move, person)[0]
            found = load_move(name)
            rung = next(rung for rung in found.rungs if rung.rung == first.rung)
            standing = stand(found, rung, SQUAD.rig, people_of([trainee.build]))
            assert first.mark_m is not None
            held = held_loads(standing, np.array([first.mark_m]), np.zeros(1, dtype=np.intp))
            assert held.load[0] == pytest.approx(0.35, abs=2e-5)  # the inverse's own tolerance, doubled
            assert (first.load, first.low, first.high) == pytest.approx(
                (held.load[0], held.low[0], held.high[0]), abs=1e-6
            )
            assert first.low <= first.load <= first.high
            assert first.held_m[0] <= first.mark_m <= first.held_m[1]


def test_shown_words_are_the_answers_numbers(made: CardSet) -> None:
    row, answer = made.cards[0].moves[0].rows[0], answers_of(made, 0, 0)[0]
    assert answer.mark_m is not None
    assert row.floor_mark == f"−{-100 * answer.mark_m:.0f} cm"
    assert row.expected_load == f"35 % ({100 * answer.low:.0f} to {100 * answer.high:.0f})"


def test_a_load_out_of_reach_has_a_reason_and_no_mark(made: CardSet) -> None:
    row, answer = made.cards[0].moves[0].rows[2], answers_of(made, 0, 0)[2]
    assert answer.mark_m is None
    assert np.isnan([answer.load, answer.low, answer.high]).all()
    assert row.floor_mark == row.expected_load == ""
    assert row.note.startswith("out of reach here: ")


def test_people_solved_together_or_alone_get_the_same_card(made: CardSet) -> None:
    alone = stand_cards(replace(SQUAD, trainees=(HIM,)), "2026-01-31")
    for move in range(2):
        for one, together in zip(answers_of(alone, move, 0), answers_of(made, move, 1), strict=True):
            assert (one.mark_m is None) == (together.mark_m is None)
            if one.mark_m is not None:
                # both are refined until the load is met within 1e-5; 1 cm of mark is worth 0.4 % at least
                assert one.mark_m == pytest.approx(together.mark_m, abs=5e-4)


def test_groups_make_no_difference(made: CardSet, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "GROUP", 2)
    assert len(jobs(SQUAD)) == 4
    seen: list[None] = []
    grouped = stand_cards(SQUAD, "2026-01-31", lambda: seen.append(None))
    assert len(seen) == 4
    assert [card.trainee for card in grouped.cards] == ["Asta", "Birk", "Kim"]
    for by_trainee, together in zip(grouped.answers, made.answers, strict=True):
        marks = [[a.mark_m for own in rows for a in own if a.mark_m] for rows in (by_trainee, together)]
        np.testing.assert_allclose(marks[0], marks[1], atol=5e-4)


def test_jobs_carry_no_file_along() -> None:
    (first, group, move), *_ = jobs(SQUAD)
    assert (first, move.move) == (0, "row")
    assert group.trainees == SQUAD.trainees
    assert group.origin.file == "squad"


def test_scale_readings_change_that_persons_card_alone(made: CardSet) -> None:
    read = replace(HIM, known=Known("row", 0.004, 0.006, 0.4, 0.1))
    again = stand_cards(replace(SQUAD, trainees=(HER, read, UNSTATED)), "2026-01-31")
    assert again.cards[1].build.endswith(", read with a scale")
    before, after = answers_of(made, 0, 1)[0], answers_of(again, 0, 1)[0]
    assert before.mark_m is not None
    assert after.mark_m is not None
    assert abs(after.mark_m - before.mark_m) > 0.02
    assert after.high - after.low < before.high - before.low
    hers = [answers_of(cards, 0, 0)[0].mark_m for cards in (made, again)]
    assert hers[0] == pytest.approx(hers[1], abs=5e-4)


def test_without_moves_a_first_selection_over_many_families_is_on_the_card() -> None:
    found = card_moves(replace(SQUAD, moves=()))
    assert {move.move for move in found} == {*FIRST_SELECTION}
    families = [move.family for move in found]
    assert families == sorted(families)
    assert len({*families}) >= 12
    assert all(move.kit != "none" for move in found)


def test_moves_without_a_setting_of_the_rig_are_left_out() -> None:
    low = replace(SQUAD, rig=standard_rig(1.9), moves=())
    without = left_out(low)
    assert without["row"] == "short"
    assert "short" not in low.rig.settings_m
    assert {move.move for move in card_moves(low)} == {move.move for move in usual_moves()} - set(without)


def test_a_rig_with_no_setting_that_the_moves_need_is_refused() -> None:
    with pytest.raises(FieldError, match=r"moves = 'row' .*measure short and add them to \[rig.settings_m\]"):
        card_moves(replace(SQUAD, rig=standard_rig(1.9), moves=("row",)))


def test_wanted_loads_are_the_files_for_strap_loads_and_the_moves_own_else() -> None:
    row = load_move("row")
    of_strength = next(move for move in usual_moves() if move.load == "largest share")
    np.testing.assert_array_equal(wanted_loads(SQUAD, row), [0.35, 0.45, 0.95])
    own = np.array(of_strength.loads_percent) / 100.0
    np.testing.assert_allclose(wanted_loads(SQUAD, of_strength), own)
    unasked = replace(SQUAD, wanted_load_fractions=())
    np.testing.assert_allclose(wanted_loads(unasked, row), np.array(row.loads_percent) / 100.0)


@pytest.mark.parametrize(("paper", "units"), [("a4", "metric"), ("letter", "us")])
def test_trainees_of_the_demo_have_the_first_selection_on_one_page(paper: Paper, units: UnitSystem) -> None:
    squad = read_squad(ROOT / "demo" / "squad.toml")
    squad = replace(squad, units=units, trainees=squad.trainees[::3])
    cards = stand_cards(squad, "2026-01-01").cards
    assert all(len(card.moves) == len(usual_moves()) for card in cards)
    assert pages(render_cards(cards, paper)) == len(cards)
