"""A rung's own entry goes before the move's; cautions add up."""

from __future__ import annotations

from msgspec.structs import replace

from leanmark.moves import of_rung
from leanmark.moves.library import load_move
from leanmark.moves.schema import Fault

ROW = load_move("row")
PLAIN = replace(ROW.rungs[0], cues=None, faults=None, caution=None, stages=None, tempo_s=None, lever=None)
OWN = replace(
    PLAIN,
    cues=("one", "two"),
    faults=(Fault("a", "b"), Fault("c", "d")),
    caution="Mind the step.",
    stages=("ballistic",),
    tempo_s=(1.0, 0.0, 0.5, 0.0),
    lever="arms long",
)


def test_a_rung_without_entries_has_the_moves() -> None:
    assert of_rung.cues_of(ROW, PLAIN) == ROW.cues
    assert of_rung.faults_of(ROW, PLAIN) == ROW.faults
    assert of_rung.cautions_of(ROW, PLAIN) == (ROW.caution,)
    assert of_rung.stages_of(ROW, PLAIN) == ROW.stages
    assert of_rung.tempo_s_of(ROW, PLAIN) == ROW.tempo_s
    assert of_rung.lever_of(ROW, PLAIN) == ROW.lever


def test_a_rungs_own_entries_go_before_them_and_its_caution_beside() -> None:
    assert of_rung.cues_of(ROW, OWN) == ("one", "two")
    assert of_rung.faults_of(ROW, OWN) == OWN.faults
    assert of_rung.cautions_of(ROW, OWN) == (ROW.caution, "Mind the step.")
    assert of_rung.stages_of(ROW, OWN) == ("ballistic",)
    assert of_rung.tempo_s_of(ROW, OWN) == (1.0, 0.0, 0.5, 0.0)
    assert of_rung.lever_of(ROW, OWN) == "arms long"


def test_a_rung_without_an_end_is_a_hold() -> None:
    plank = load_move("front plank")
    assert of_rung.is_hold(plank, plank.rungs[0])
    assert not of_rung.is_hold(ROW, PLAIN)
