"""What makes one rung of a squat, lunge or step-up harder than another, and what opens its hops."""

from __future__ import annotations

import pytest
from tests.moves.floor_people import Seen, seen

from leanmark.body.segments import JOINTS
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.measure import peak_over_rep
from leanmark.mechanics.moments import MOMENT_AXES
from leanmark.moves.library import find_rung, load_move

HOPS = (
    ("squat", "leaving the floor"),
    ("single-leg squat", "leaving the floor"),
    ("skater squat", "leaving the floor"),
    ("rear-foot split squat", "small hop"),
    ("reverse lunge", "small hop"),
)


def knee_extension_share(at: Seen) -> Floats:
    """Largest knee extension moment of the right leg over the rep (N,), as a share of reference strength."""
    share = at.loads.strength_share[:, JOINTS.index("right_knee"), MOMENT_AXES["knee"].index("flexion")]
    return peak_over_rep(-share, len(at.rep.nodes))


@pytest.mark.parametrize(
    ("name", "easier", "harder"),
    [
        ("squat", "half depth", "thighs level"),
        ("squat", "thighs level", "deep"),
        ("wide squat", "half depth", "thighs level"),
        ("wide squat", "thighs level", "deep"),
        ("pistol squat", "to a high seat", "thigh level"),
        ("pistol squat", "thigh level", "full depth"),
        ("skater squat", "half depth", "full depth"),
        ("split squat", "half way", "full depth"),
        ("lateral lunge", "half depth", "full depth"),
        ("crossover lunge", "half depth", "full depth"),
        ("crossover lunge", "full depth", "rear foot off the floor"),
        ("reverse lunge", "short reach", "long reach"),
        ("step-up", "low box", "middle box"),
        ("step-up", "middle box", "high box"),
        ("single-leg squat", "other toe down, half depth", "other toe down"),
        ("single-leg squat", "other toe down", "free"),
    ],
)
def test_deeper_and_higher_work_the_knee_harder(name: str, easier: str, harder: str) -> None:
    assert (knee_extension_share(seen(name, easier)) < knee_extension_share(seen(name, harder))).all()


def test_one_leg_works_the_knee_harder_than_two() -> None:
    assert (
        knee_extension_share(seen("squat", "thighs level"))
        < knee_extension_share(seen("pistol squat", "thigh level"))
    ).all()


@pytest.mark.parametrize(("name", "rung"), HOPS)
def test_hops_are_ballistic_alone_and_open_after_eight_fast_reps(name: str, rung: str) -> None:
    move = load_move(name)
    hop = find_rung(move, rung)
    assert hop.stages == ("ballistic",)
    assert hop.harder_by == "speed"
    (gate,) = hop.gates
    assert gate.move is None
    assert (gate.reps, gate.stage) == (8, "fast")
    assert "fast" in (find_rung(move, gate.rung).stages or move.stages)
    assert "same spot" in (hop.caution or "")
