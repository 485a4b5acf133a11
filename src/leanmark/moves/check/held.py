"""Checks that the reference people can take and hold every rung at its start mark, and that a move's rungs
are the ladder that its file says. Each rung is solved once, many side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from leanmark.errors import FieldError
from leanmark.mechanics.arrays import Bools
from leanmark.mechanics.ranges import RANGES_DEG, past_range
from leanmark.mechanics.reasons import (
    CONTACT,
    FINE,
    FLOOR,
    LOOP,
    RANGE,
    REASONS,
    SLACK,
    SLIP,
    STRAP_LONG,
    STRAP_SHORT,
    TIPS,
)
from leanmark.moves.ladder.demand import PHASES, Solved, solved_together
from leanmark.moves.ladder.finding import Finding
from leanmark.moves.ladder.panel import listed, reference_people
from leanmark.moves.ladder.steps import ladder_findings
from leanmark.moves.names import CHECKED_ANCHOR_M
from leanmark.moves.schema import Move
from leanmark.moves.stand import stand
from leanmark.rig.rig import standard_rig

SIDE_BY_SIDE: Final = 40
"""Rungs solved together: enough to hide the cost of a call, few enough to report progress by; own figure."""
REMEDIES: Final[dict[int, str]] = {
    STRAP_SHORT: "move start-m nearer the plumb point, or choose a longer strap setting",
    STRAP_LONG: "move start-m away from the plumb point, or choose a shorter strap setting",
    CONTACT: "change ahead-m, height-m or the angles so that the limbs reach, or let the contact be found",
    RANGE: "change the angle, or loosen that joint under firm",
    FLOOR: "change the angles, or let that part of the body be a contact",
    SLACK: "lean more against the straps, or move start-m",
    SLIP: "stand nearer upright, or move start-m",
    LOOP: "let both sides pull alike",
    TIPS: "widen the stance, add a contact, or keep the mass centre over it by balance",
}
"""What an author does about each thing that can be wrong with a held position."""


def solved_moves(moves: Sequence[Move], progress: Callable[[float], None]) -> list[list[Solved]]:
    """Each move's rungs solved for the reference people; ``progress`` is told the share of rungs done.

    Raises FieldError for what the engine cannot read.
    """
    wanted = [(number, rung) for number, move in enumerate(moves) for rung in move.rungs]
    found: list[list[Solved]] = [[] for _ in moves]
    for first in range(0, len(wanted), SIDE_BY_SIDE):
        some = wanted[first : first + SIDE_BY_SIDE]
        together = solved_together(
            [(moves[number], rung) for number, rung in some],
            reference_people(),
            standard_rig(CHECKED_ANCHOR_M),
        )
        for (number, _), one in zip(some, together, strict=True):
            found[number].append(one)
        progress((first + len(some)) / len(wanted))
    return found


def held_findings(rungs: Sequence[Solved]) -> list[Finding]:
    """What is wrong with one move's rungs: positions that cannot be taken or held; where all can be, steps
    that are not harder as the file says, and works and helps that the engine does not find."""
    found = [finding for one in rungs for finding in _unheld(one)]
    return found or ladder_findings(rungs)


def _unheld(one: Solved) -> list[Finding]:
    """Each reason against a rung once: in which phase, and for whom."""
    reasons, steps = one.rep.reasons(one.loads), one.steps
    found = []
    for code in dict.fromkeys(reasons[reasons != FINE].tolist()):
        rows, nodes = np.nonzero(reasons == code)
        whom = listed([one.people.builds[k] for k in dict.fromkeys(one.position[rows].tolist())])
        what = _past(one, reasons == code) if code == RANGE else REASONS[code]
        wrong = f"{_phase(int(nodes[0]), steps)}: {what} ({whom})"
        found.append(Finding(one.move.move, one.rung.rung, "held", wrong, REMEDIES[code]))
    return found


def _past(one: Solved, there: Bools) -> str:
    """Which joint angles go past their range, and what the range is."""
    words = []
    for name, beyond in past_range(one.rep.solution.pose.rotation).items():
        if (beyond.reshape(there.shape) & there).any():
            joint, angle = name.split(" ")
            low, high, _ = RANGES_DEG[joint.removeprefix("left_").removeprefix("right_"), angle]
            spelled = name.replace("_", " ")
            words.append(f"{spelled} would go past its range {low:g} to {high:g}".replace("-", "−"))
    return ", ".join(words) or REASONS[RANGE]


def _phase(node: int, steps: int) -> str:
    """Where along the rep a node lies."""
    if steps == 1:
        return "the hold"
    place = PHASES[round(node / (steps - 1) * (len(PHASES) - 1))]
    return place if " " in place else f"the {place}"


def unreadable(move: Move) -> FieldError | None:
    """What keeps the engine from reading a move, if anything."""
    try:
        rig, people = standard_rig(CHECKED_ANCHOR_M), reference_people()
        for rung in move.rungs:
            stand(move, rung, rig, people)
    except FieldError as error:
        return error
    return None
